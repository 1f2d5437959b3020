/**
 * A tablet of the storm: the kiosk's own outbox, line and clock, on Node's sockets, with its outbox in a file. What it
 * does with messages follows `kiosk/src/lib/state/session.svelte.ts`, which needs a browser.
 */
import { join } from 'node:path';
import { WebSocket } from 'ws';
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Entry, OpFact } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { unpacked } from '#core/wire/compact.ts';
import { parseFrame } from '#core/wire/frame.ts';
import { FromHub, type FromTablet, type Welcome } from '#core/wire/messages.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';
import type { Random } from '#core/plan/search/random.ts';
import { HubClock } from '../../../kiosk/src/lib/link/clock.ts';
import { Outbox } from '../../../kiosk/src/lib/link/outbox.ts';
import { HubSocket, type LineEvents, type Line } from '../../../kiosk/src/lib/link/socket.ts';
import { keptIn, outboxFile } from './outboxFile.ts';

/** Timers run this much faster than on a real tablet: the 10 s after which silence ends a line are 250 ms here. */
const HURRY = 40;

/** Frames of taps remembered to be sent once more. */
const OLD_FRAMES = 6;

/** One frame of taps in this many goes out twice. */
const TWICE_IN = 20;

export type Ledger = {
  /** Ops safe in their tablet's outbox: from here on they must come through. */
  readonly kept: Set<string>;
  /** Ops the hub has answered, and as which number. */
  readonly answered: Map<string, number>;
  /** What must never happen, in words. */
  readonly wrongs: string[];
};

export type TabletParts = {
  readonly device: string;
  readonly place: TabletPlace;
  /** Where its outbox is kept. */
  readonly folder: string;
  /** The proxy it dials. */
  readonly port: number;
  readonly random: Random;
  readonly ledger: Ledger;
};

export type Known = { readonly journal: string; readonly seq: number; readonly board: Board };

/** What stays in the tablet when it is switched off: the outbox file, and the last board unless it was lost. */
export class Tablet {
  readonly parts: TabletParts;
  readonly outboxPath: string;
  /** As the browser's storage would have it. */
  #lastKnown: Known | null = null;
  #oldFrames: string[] = [];
  #taps = 0;
  #life: Life;

  constructor(parts: TabletParts) {
    this.parts = parts;
    this.outboxPath = join(parts.folder, `${parts.device}.outbox`);
    this.#life = this.#begin();
  }

  get known(): Known | null {
    return this.#life.known;
  }

  get isLive(): boolean {
    return this.#life.isLive;
  }

  get waiting(): number {
    return this.#life.outbox.ops.length;
  }

  /** Barn time in ms as this tablet knows it. */
  get barnNow(): number {
    return Math.round(this.#life.clock.barnNow());
  }

  /** The id of the op tapped last. */
  get last(): string {
    return `${this.parts.device}-${this.#taps}`;
  }

  /** As a person taps: nobody waits for anything. */
  tap(fact: OpFact, by: string | null): void {
    this.#taps += 1;
    const { device, ledger } = this.parts;
    const op = { id: this.last, device, by, tappedAt: this.barnNow, fact };
    void this.#life.outbox.add(op).then(() => ledger.kept.add(op.id));
  }

  /** Switched off in whatever it is doing, and on again; `remembersBoard` false: with only its outbox left. */
  restart(remembersBoard: boolean): void {
    this.#lastKnown = remembersBoard ? this.known : null;
    this.#life.end();
    this.#life = this.#begin();
  }

  end(): void {
    this.#life.end();
  }

  #begin(): Life {
    return new Life(this.parts, this.outboxPath, this.#lastKnown, this.#oldFrames);
  }
}

/** From switching on to switching off. */
class Life {
  readonly outbox: Outbox;
  readonly clock = new HubClock({ mono: () => performance.now(), wall: () => Date.now() });
  known: Known | null;
  isLive = false;
  #isOn = true;
  readonly #parts: TabletParts;
  readonly #socket: HubSocket;
  readonly #oldFrames: string[];

  constructor(parts: TabletParts, outboxPath: string, known: Known | null, oldFrames: string[]) {
    this.#parts = parts;
    this.known = known;
    this.#oldFrames = oldFrames;
    this.outbox = new Outbox(
      outboxFile(outboxPath, () => this.#isOn),
      () => this.#pump(),
    );
    this.#socket = new HubSocket(
      {
        dial: (on) => this.#dial(on),
        // Here all of it is parsed: what the hub says must be of its schema.
        read: (text) => parseFrame(FromHub, text, unpacked),
        after: (ms, run) => {
          const timer = setTimeout(run, ms / HURRY);
          return () => clearTimeout(timer);
        },
        random: () => parts.random.below(1000) / 1000,
      },
      {
        hello: () => this.#hello(),
        ping: () => ({ say: 'ping', t1: this.clock.mono() }),
        said: (message) => this.#said(message),
        lost: () => this.#lost(),
      },
    );
    void this.outbox.open().then(() => {
      // Not what is in the outbox: a tap made meanwhile is in it before it is stored.
      for (const op of keptIn(outboxPath)) parts.ledger.kept.add(op.id);
      if (this.#isOn) this.#socket.start();
    });
  }

  end(): void {
    this.#isOn = false;
    this.#socket.stop();
  }

  #dial(on: LineEvents): Line {
    const socket = new WebSocket(`ws://127.0.0.1:${this.#parts.port}/live`, { perMessageDeflate: false });
    socket.on('open', () => {
      on.opened();
      this.#sendOldFrames(socket);
    });
    socket.on('message', (data: Buffer) => on.said(data.toString('utf8')));
    socket.on('error', () => {});
    socket.on('close', on.closed);
    return {
      send: (text) => this.#send(socket, text),
      close: () => {
        socket.removeAllListeners('close');
        socket.removeAllListeners('message');
        socket.terminate();
      },
    };
  }

  #send(socket: WebSocket, text: string): void {
    if (socket.readyState !== WebSocket.OPEN) return;
    socket.send(text);
    if (!text.startsWith('{"say":"taps"')) return;
    this.#oldFrames.push(text);
    this.#oldFrames.splice(0, this.#oldFrames.length - OLD_FRAMES);
    if (this.#parts.random.below(TWICE_IN) === 0) socket.send(text);
  }

  /** What a tablet that was not sure has to do after each reconnection, and more: answered ones come again, too. */
  #sendOldFrames(socket: WebSocket): void {
    if (this.#parts.random.below(3) > 0) return;
    for (const text of this.#oldFrames) if (socket.readyState === WebSocket.OPEN) socket.send(text);
  }

  #hello(): FromTablet {
    const { device, place } = this.#parts;
    const since = this.known && { journal: this.known.journal, seq: this.known.seq };
    return { say: 'hello', protocol: PROTOCOL, device, place, since };
  }

  #said(message: FromHub): void {
    switch (message.say) {
      case 'welcome':
        if (!this.#takeWelcome(message)) return this.#askFromNothing();
        this.clock.takeBarnClock(message.clock);
        this.isLive = true;
        this.outbox.connectionLost();
        this.#pump();
        break;
      case 'entries':
        if (!this.#takeEntries(message.entries)) this.#askFromNothing();
        break;
      case 'answered':
        for (const { id, seq } of message.answers) this.#answered(id, seq);
        void this.outbox.answered(message.answers.map(({ id }) => id));
        break;
      case 'pong':
        this.clock.takePong(message);
        break;
      case 'refused':
        this.#parts.ledger.wrongs.push(`${this.#parts.device} was refused: ${message.code}`);
        break;
      case 'forecast':
      case 'considered':
      case 'suggested':
      case 'standIns':
      case 'gateAnswer':
      case 'tabletsKnown':
      case 'status':
        break;
    }
  }

  #answered(id: string, seq: number): void {
    const { answered, wrongs } = this.#parts.ledger;
    const before = answered.get(id);
    if (before !== undefined && before !== seq) wrongs.push(`${id} was answered as ${before} and as ${seq}`);
    answered.set(id, seq);
  }

  #takeWelcome({ journal, seq, board, entries }: Welcome): boolean {
    if (board) {
      this.known = { journal, seq, board };
      return true;
    }
    return journal === this.known?.journal && this.#takeEntries(entries) && this.known.seq === seq;
  }

  #takeEntries(entries: readonly Entry[]): boolean {
    if (!this.known) return false;
    let { seq, board } = this.known;
    for (const entry of entries) {
      if (entry.seq <= seq) continue;
      if (entry.seq > seq + 1) return false;
      board = evolve(board, entry);
      seq = entry.seq;
    }
    this.known = { ...this.known, seq, board };
    return true;
  }

  #askFromNothing(): void {
    this.known = null;
    this.#socket.again();
  }

  #lost(): void {
    this.isLive = false;
    this.outbox.connectionLost();
  }

  #pump(): void {
    if (!this.isLive) return;
    for (let ops = this.outbox.takeFrame(); ops.length > 0; ops = this.outbox.takeFrame()) {
      this.#socket.send({ say: 'taps', ops });
    }
  }
}
