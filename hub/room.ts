/**
 * The one place where tablets and the ledger meet. A message goes parse -> ledger -> disk -> everybody, and what a tablet
 * is shown is how things stand on disk.
 */
import { barnTimeAt } from '#core/time/barnClock.ts';
import type { Board } from '#core/day/board.ts';
import { HUB_DEVICE, type Entry, type Op, type OpFact } from '#core/day/ops.ts';
import type { Role } from '#core/day/places.ts';
import type { Forecast } from '#core/plan/model.ts';
import { parseFrame } from '#core/wire/frame.ts';
import {
  AnyHello,
  FromTablet,
  PROTOCOL,
  type BarnClock,
  type FromHub,
  type Status,
} from '#core/wire/messages.ts';
import type { StandInsFor } from '#core/wire/standIns.ts';
import { Audience } from './audience.ts';
import { consider } from './consider.ts';
import { Ledger, type LedgerParts } from './ledger.ts';
import type { Planner } from './planner.ts';
import { CLOSE, type Link, type Live, type Session } from './session.ts';
import type { StandInFinder } from './standIns.ts';
import { entriesFor, forecastFor, welcomeFor } from './shown.ts';
import { Suggestions } from './suggest.ts';

type Refusal = Extract<FromHub, { say: 'refused' }>['code'];
type Hello = Extract<FromTablet, { say: 'hello' }>;

export type RoomParts = Pick<
  LedgerParts,
  'storage' | 'clock' | 'newId' | 'log' | 'mendEveryMs' | 'dayKept'
> & {
  readonly planner: Planner;
  readonly standIns: StandInFinder;
  readonly barnClock: BarnClock;
  readonly demo: boolean;
  readonly build: string;
  readonly version: string;
  readonly addresses: () => readonly string[];
  /** That the hub's clock was set, while it is to be said. */
  readonly clockJump: () => Status['clockJump'];
  readonly onStartBarn: (name: string, zone: string) => void;
};

export { SNAPSHOT_EVERY } from './ledger.ts';

/** A tablet that sends this much nonsense in one connection is shown out. */
export const MOST_REFUSALS = 20;

export class Room {
  readonly #parts: RoomParts;
  readonly #ledger: Ledger;
  readonly #audience = new Audience();
  readonly #suggestions = new Suggestions(this.#audience);
  #forecast: Forecast | null = null;
  #forecastAt: number | null = null;
  #closing = false;

  constructor(parts: RoomParts) {
    this.#parts = parts;
    this.#ledger = new Ledger({
      ...parts,
      barnNow: () => this.barnNow(),
      published: (entries) => this.#publish(entries),
      writableChanged: () => this.#writableChanged(),
    });
  }

  start(): void {
    const suggestions = this.#suggestions;
    this.#parts.planner.start(this.board, (forecast) => this.#share(forecast), {
      isWatched: () => suggestions.isWatched,
      found: (rebalanced, board) => suggestions.found(rebalanced, board),
    });
  }

  /** Everything answered is on disk and in the snapshot when this resolves. */
  async close(): Promise<void> {
    this.#closing = true;
    await this.#ledger.close();
    await this.#parts.planner.stop();
    await this.#parts.standIns.stop();
    this.#audience.close(CLOSE.goingAway, 'the hub is going down');
  }

  get board(): Board {
    return this.#ledger.board;
  }

  get seq(): number {
    return this.#ledger.seq;
  }

  /** Hub time of the last forecast in ms; null before the first. */
  get forecastAt(): number | null {
    return this.#forecastAt;
  }

  /** Connections by role; those that have not said hello yet are `waiting`. */
  get connections(): Record<Role | 'waiting', number> {
    return this.#audience.connections;
  }

  /** How the hub is, as every board is told. */
  get status(): Status {
    const { version, storage, clockJump } = this.#parts;
    const { torn } = storage.opened;
    return {
      say: 'status',
      version,
      readOnly: this.#ledger.readOnly,
      tornTail: torn && { bytes: torn.bytes, keptAs: torn.keptAs },
      clockJump: clockJump(),
    };
  }

  barnNow(): number {
    return barnTimeAt(this.#parts.barnClock, this.#parts.clock());
  }

  join(link: Link): Session {
    return this.#audience.join(link);
  }

  leave(session: Session): void {
    this.#audience.leave(session);
  }

  /** One text frame from a tablet. Never throws. */
  hear(session: Session, text: string): void {
    if (this.#closing || session.now.state === 'closed') return;
    const receivedAt = this.#parts.clock();
    if (session.now.state === 'waiting') {
      const hello = parseFrame(AnyHello, text);
      if (hello && hello.protocol !== PROTOCOL) {
        this.refuse(session, 'otherVersion');
        session.link.close(CLOSE.policy, 'other version');
        return;
      }
    }
    const message = parseFrame(FromTablet, text);
    if (!message) return this.refuse(session, 'malformed');
    if (session.now.state === 'waiting') {
      if (message.say !== 'hello') return this.refuse(session, 'helloFirst');
      return this.#hello(session, message);
    }
    this.#answer(session, session.now, message, receivedAt);
  }

  /** Tells a tablet that its message could not be taken; after too many of them the connection ends. */
  refuse(session: Session, code: Refusal): void {
    session.refusals += 1;
    const tooMuch = session.refusals >= MOST_REFUSALS;
    this.#audience.say(session, { say: 'refused', code: tooMuch ? 'tooMuch' : code });
    if (tooMuch) session.link.close(CLOSE.policy, 'too many messages that could not be taken');
  }

  /** A fact the hub itself brings in. Resolves when everybody has been told, or it could not be written down. */
  bring(fact: OpFact): Promise<void> {
    return this.#ledger.bring(fact);
  }

  /** Something about the hub itself has changed. */
  sayStatus(): void {
    this.#audience.toEverybody(() => this.status);
  }

  #answer(session: Session, live: Live, message: FromTablet, receivedAt: number): void {
    const { clock, demo, onStartBarn } = this.#parts;
    const isCoordinator = live.place.role === 'coordinator';
    switch (message.say) {
      case 'hello':
        return this.refuse(session, 'malformed');
      case 'ping':
        return this.#audience.say(session, { say: 'pong', t1: message.t1, t2: receivedAt, t3: clock() });
      case 'taps':
        return this.#take(session, live, message.ops);
      case 'whatIf':
        if (!isCoordinator) return this.refuse(session, 'notAllowedHere');
        return void this.#consider(session, message.ask, message.facts);
      case 'askStandIns':
        if (!isCoordinator) return this.refuse(session, 'notAllowedHere');
        return void this.#standIns(session, message.ask, message.about);
      case 'startBarn':
        if (!isCoordinator) return this.refuse(session, 'notAllowedHere');
        if (!demo) return this.refuse(session, 'notADemo');
        return onStartBarn(message.name, message.zone);
    }
  }

  #take(session: Session, { device, place }: Live, ops: readonly Op[]): void {
    // The connection says which tablet it is, not the op: the right to undo hangs on it.
    const own = ops.map((op) => ({ ...op, device }));
    const isWhole = this.#ledger.take(own, place.role, {
      answered: (answers) => this.#audience.say(session, { say: 'answered', answers: [...answers] }),
      notTaken: () => {
        session.isOwed = true;
        this.#audience.say(session, { say: 'refused', code: 'readOnly' });
      },
    });
    if (!isWhole) this.refuse(session, 'malformed');
  }

  #hello(session: Session, { device, place, since }: Hello): void {
    if (device === HUB_DEVICE) return this.refuse(session, 'malformed');
    session.now = { state: 'live', device, place };
    this.#welcome(session, session.now, since);
    this.#audience.say(session, this.status);
    if (this.#forecast) this.#audience.say(session, forecastFor(place.role, this.#forecast));
    if (!this.#suggestions.welcome(session)) this.#parts.planner.changed(this.board);
  }

  #welcome(session: Session, { place }: Live, since: Hello['since']): void {
    const { storage, barnClock: clock, demo, build, addresses } = this.#parts;
    const { journal } = storage.opened;
    const missed = since?.journal === journal ? this.#ledger.entriesAfter(since.seq) : null;
    const how = { journal, seq: this.seq, clock, demo, build, addresses: [...addresses()] };
    this.#audience.say(session, welcomeFor(place.role, how, this.board, missed));
  }

  #publish(entries: readonly Entry[]): void {
    this.#audience.toEverybody((role) => entriesFor(role, entries));
    this.#parts.planner.changed(this.board);
  }

  /** When writing works again, a second welcome asks tablets for the taps that were not taken. */
  #writableChanged(): void {
    this.sayStatus();
    if (this.#ledger.readOnly) return;
    const here = { journal: this.#parts.storage.opened.journal, seq: this.seq };
    for (const { session, live } of this.#audience.live()) {
      if (!session.isOwed) continue;
      session.isOwed = false;
      this.#welcome(session, live, here);
    }
  }

  async #consider(session: Session, ask: string, facts: readonly OpFact[]): Promise<void> {
    const { planner, log } = this.#parts;
    try {
      const answer = await consider(planner, this.board, facts, this.barnNow());
      this.#audience.say(session, { say: 'considered', ask, ...answer });
    } catch (error) {
      log(`Could not consider a what-if: ${String(error)}`);
      this.refuse(session, 'malformed');
    }
  }

  async #standIns(session: Session, ask: string, about: StandInsFor): Promise<void> {
    const { standIns, log } = this.#parts;
    try {
      const answer = await standIns.find(this.board, this.barnNow(), about);
      this.#audience.say(session, { say: 'standIns', ask, ...answer });
    } catch (error) {
      log(`Could not look for stand-ins: ${String(error)}`);
      this.refuse(session, 'malformed');
    }
  }

  #share(forecast: Forecast): void {
    this.#forecast = forecast;
    this.#forecastAt = this.#parts.clock();
    this.#audience.toEverybody((role) => forecastFor(role, forecast));
  }
}
