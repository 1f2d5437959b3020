/** A tablet without a screen: an ordinary client of the hub's protocol, over a real socket, with nothing privileged. */
import { setTimeout as delay } from 'node:timers/promises';
import { WebSocket } from 'ws';
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Entry, Op } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { barnTimeAt } from '#core/time/barnClock.ts';
import { bestOffset, sampleOf, withSample, type Sample } from '#core/time/offset.ts';
import { unpacked } from '#core/wire/compact.ts';
import { parseFrame } from '#core/wire/frame.ts';
import { FromHub, type FromTablet, type Welcome } from '#core/wire/messages.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';

/** How long until a lost connection is tried again. */
const AGAIN_MS = 300;

/** Answers to hello that set a tablet's clock: the one with the least round trip is believed. */
const PINGS = 3;

type Known = Pick<Welcome, 'journal' | 'clock'> & { readonly board: Board; readonly seq: number };

export class TabletClient {
  readonly #url: string;
  readonly #device: string;
  readonly #place: TabletPlace;
  readonly #signal: AbortSignal;
  #socket: WebSocket | null = null;
  #known: Known | null = null;
  #samples: readonly Sample[] = [];
  /** Taps the hub has not answered yet: sent again after every welcome, since the hub knows an op by its id. */
  readonly #unanswered = new Map<string, { readonly op: Op; readonly done: (seq: number) => void }>();
  /** What the hub would not take; a bug in here. */
  #refused: string | null = null;
  #wake = Promise.withResolvers<void>();

  /** Connects at once and stays connected until `signal`. `url`: of the hub's socket. */
  constructor(url: string, device: string, place: TabletPlace, signal: AbortSignal) {
    this.#url = url;
    this.#device = device;
    this.#place = place;
    this.#signal = signal;
    signal.addEventListener('abort', () => this.#end(), { once: true });
    this.#connect();
  }

  /** Resolves when it has a board and knows the hub's time; rejects with the signal's reason. */
  async ready(): Promise<void> {
    await this.#until(() => this.#known !== null && this.#samples.length >= PINGS);
  }

  /** Its own copy of the board, as its role may see it. */
  get board(): Board {
    return this.#welcomed.board;
  }

  /** Barn time, by the hub's clock as this tablet has measured it, ms. */
  get barnNow(): number {
    return barnTimeAt(this.#welcomed.clock, performance.now() + (bestOffset(this.#samples) ?? 0));
  }

  /** How fast barn time runs. */
  get rate(): number {
    return this.#welcomed.clock.rate;
  }

  /** Sends a tap; resolves with its number in the journal once it is answered, and rejects with the signal's reason. */
  async tap(op: Op): Promise<number> {
    let seq: number | null = null;
    this.#unanswered.set(op.id, { op, done: (answer) => (seq = answer) });
    this.#say({ say: 'taps', ops: [op] });
    await this.#until(() => seq !== null);
    return seq ?? 0;
  }

  /** Resolves when its own board has come as far as this entry. */
  async reached(seq: number): Promise<void> {
    await this.#until(() => (this.#known?.seq ?? -1) >= seq);
  }

  get #welcomed(): Known {
    if (!this.#known) throw new Error(`${this.#device} has not been welcomed yet`);
    return this.#known;
  }

  #connect(): void {
    const socket = new WebSocket(this.#url, { perMessageDeflate: false });
    this.#socket = socket;
    socket.on('open', () => {
      const since = this.#known && { journal: this.#known.journal, seq: this.#known.seq };
      this.#say({ say: 'hello', protocol: PROTOCOL, device: this.#device, place: this.#place, since });
    });
    socket.on('message', (data: Buffer) => this.#hear(data.toString()));
    // What went wrong is followed by a close, and the connection is tried again.
    socket.on('error', () => {});
    socket.on('close', () => {
      if (!this.#signal.aborted) void this.#connectAgain();
    });
  }

  async #connectAgain(): Promise<void> {
    try {
      await delay(AGAIN_MS, undefined, { signal: this.#signal });
      this.#connect();
    } catch {
      // Ended while it waited.
    }
  }

  #hear(text: string): void {
    const message = parseFrame(FromHub, text, unpacked);
    if (!message) return;
    switch (message.say) {
      case 'welcome':
        this.#greet(message);
        break;
      case 'entries':
        this.#follow(message.entries);
        break;
      case 'answered':
        for (const { id, seq } of message.answers) {
          this.#unanswered.get(id)?.done(seq);
          this.#unanswered.delete(id);
        }
        break;
      case 'pong':
        this.#samples = withSample(this.#samples, sampleOf({ ...message, t4: performance.now() }));
        if (this.#samples.length < PINGS) this.#ping();
        break;
      case 'refused':
        // What could not be written down is asked for again with another welcome.
        if (message.code !== 'readOnly') this.#refused = message.code;
        break;
      case 'status':
      case 'suggested':
      case 'standIns':
      case 'gateAnswer':
      case 'tabletsKnown':
      case 'forecast':
      case 'considered':
        break;
    }
    this.#wake.resolve();
    this.#wake = Promise.withResolvers();
  }

  #greet({ board, entries, seq, journal, clock }: Welcome): void {
    this.#known = board ? { board, seq, journal, clock } : { ...this.#welcomed, journal, clock };
    this.#follow(entries);
    this.#ping();
    const ops = [...this.#unanswered.values()].map(({ op }) => op);
    if (ops.length > 0) this.#say({ say: 'taps', ops });
  }

  #follow(entries: readonly Entry[]): void {
    const { board, seq } = this.#welcomed;
    const fresh = entries.filter((entry) => entry.seq > seq);
    this.#known = { ...this.#welcomed, board: fresh.reduce(evolve, board), seq: fresh.at(-1)?.seq ?? seq };
  }

  #ping(): void {
    this.#say({ say: 'ping', t1: performance.now() });
  }

  #say(message: FromTablet): void {
    if (this.#socket?.readyState === WebSocket.OPEN) this.#socket.send(JSON.stringify(message));
  }

  async #until(isSo: () => boolean): Promise<void> {
    for (;;) {
      this.#signal.throwIfAborted();
      if (this.#refused) throw new Error(`the hub refused ${this.#device}: ${this.#refused}`);
      if (isSo()) return;
      await this.#wake.promise;
    }
  }

  #end(): void {
    this.#socket?.terminate();
    this.#wake.resolve();
  }
}
