/**
 * The one place where tablets and the ledger meet. A message goes parse -> ledger -> disk -> everybody, and what a tablet
 * is shown is how things stand on disk.
 */
import { barnTimeAt } from '#core/time/barnClock.ts';
import type { Board } from '#core/day/board.ts';
import type { Forgotten } from '#core/day/forget.ts';
import type { Entry, Op, OpFact } from '#core/day/ops.ts';
import type { Role } from '#core/day/places.ts';
import type { Forecast } from '#core/plan/model.ts';
import type { BarnClock, FromTablet, Status } from '#core/wire/messages.ts';
import type { GateOutcome, KnownTablet, Wish } from '#core/wire/gate.ts';
import { Audience } from './audience.ts';
import { Entrance, type Has } from './entrance.ts';
import { Forecasts } from './forecasts.ts';
import { Ledger, type Answer, type LedgerParts } from './ledger.ts';
import type { RoomGate } from './gate.ts';
import type { Planner } from './planner.ts';
import { Questions } from './questions.ts';
import { CLOSE, type Link, type Live, type Session } from './session.ts';
import type { StandInFinder } from './standIns.ts';
import { entriesFor, welcomeFor } from './shown.ts';
import { Suggestions } from './suggest.ts';
import { understand, type Hello, type Refusal } from './understand.ts';

export type RoomParts = Pick<
  LedgerParts,
  'storage' | 'clock' | 'newId' | 'log' | 'mendEveryMs' | 'slowDiskAfterMs' | 'dayKept'
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
  readonly gate: RoomGate;
  /** What somebody at the tablet `device` asks of the gate. Never rejects. */
  readonly grant: (device: string, wish: Wish) => Promise<GateOutcome>;
  /** Every tablet on the gate's list. */
  readonly tablets: () => readonly Omit<KnownTablet, 'isHere'>[];
  /** `code`: a pairing code that the new barn's hub takes once, so that whoever began it is let in. */
  readonly onStartBarn: (name: string, zone: string, code: string | null) => void;
};

export { SNAPSHOT_EVERY } from './snapshots.ts';

/** A tablet that sends this much nonsense in one connection is shown out. */
export const MOST_REFUSALS = 20;

export class Room {
  readonly #parts: RoomParts;
  readonly #ledger: Ledger;
  readonly #audience = new Audience();
  readonly #suggestions = new Suggestions(this.#audience);
  readonly #forecasts: Forecasts;
  readonly #questions: Questions;
  readonly #entrance: Entrance;
  #closing = false;

  constructor(parts: RoomParts) {
    this.#parts = parts;
    this.#forecasts = new Forecasts(this.#audience, parts.clock);
    this.#questions = new Questions({
      ...parts,
      audience: this.#audience,
      board: () => this.board,
      barnNow: () => this.barnNow(),
      broken: (session) => this.refuse(session, 'malformed'),
    });
    this.#entrance = new Entrance({
      ...parts,
      audience: this.#audience,
      welcome: (session, live, has) => this.#greet(session, live, has),
    });
    this.#ledger = new Ledger({
      ...parts,
      barnNow: () => this.barnNow(),
      published: (entries) => this.#publish(entries),
      writableChanged: () => this.#writableChanged(),
    });
  }

  start(): void {
    const suggestions = this.#suggestions;
    this.#parts.planner.start(this.board, (forecast) => this.#forecasts.share(forecast), {
      isWatched: () => suggestions.isWatched,
      found: (rebalanced) => suggestions.found(rebalanced),
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

  /** The last entries there are, oldest first: about a day's. */
  get lastEntries(): readonly Entry[] {
    return this.#ledger.lastEntries;
  }

  /** Those of the open day, oldest first. Rejects when they cannot be read. */
  dayEntries(): Promise<readonly Entry[]> {
    return this.#ledger.dayEntries();
  }

  /** Hub time of the last forecast in ms; null before the first. */
  get forecastAt(): number | null {
    return this.#forecasts.at;
  }

  /** The last forecast; null before the first. */
  get forecast(): Forecast | null {
    return this.#forecasts.last;
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

  /** `token`: what the connection showed. */
  join(link: Link, token: string | null = null): Session {
    return this.#audience.join(link, token);
  }

  leave(session: Session): void {
    const { now } = session;
    this.#audience.leave(session);
    this.#entrance.gone(now);
  }

  /** As what the tablet `device` is heard may have changed; null: any of them. */
  gateChanged(device: string | null): void {
    if (!this.#closing) this.#entrance.changed(device);
  }

  /** One text frame from a tablet. Never throws. */
  hear(session: Session, text: string): void {
    if (this.#closing || session.now.state === 'closed') return;
    const receivedAt = this.#parts.clock();
    const understood = understand(session, text);
    if ('hello' in understood) this.#hello(session, understood.hello);
    else if ('refused' in understood) this.refuse(session, understood.refused, understood.ops);
    else this.#heard(session, understood.message, receivedAt);
  }

  /** Tells a tablet that its message could not be taken, and which taps in it were why; after too many of them the connection ends. */
  refuse(session: Session, code: Refusal, ops?: readonly string[]): void {
    session.refusals += 1;
    const tooMuch = session.refusals >= MOST_REFUSALS;
    this.#audience.say(session, {
      say: 'refused',
      code: tooMuch ? 'tooMuch' : code,
      ...(ops && { ops: [...ops] }),
    });
    if (tooMuch) session.link.close(CLOSE.policy, 'too many messages that could not be taken');
    else if (code === 'otherVersion') session.link.close(CLOSE.policy, 'other version');
    else if (code === 'notPaired') session.link.close(CLOSE.policy, 'not paired');
  }

  /** Shows out a tablet that sends more than the hub takes. */
  tooMuch(session: Session): void {
    this.#audience.say(session, { say: 'refused', code: 'tooMuch' });
    session.link.close(CLOSE.policy, 'too many messages');
  }

  /** A fact the hub itself brings in. Resolves when everybody has been told, or it could not be written down. */
  bring(fact: OpFact): Promise<void> {
    return this.#ledger.bring(fact);
  }

  /** Takes these people out of all that the hub keeps; every tablet gets the board anew. Rejects as the ledger does. */
  async erase(people: readonly Forgotten[], run: string): Promise<void> {
    await this.#ledger.erase(people, run);
    for (const { session, live } of this.#audience.live()) this.#welcome(session, live, { since: null });
    this.#parts.planner.changed(this.board);
  }

  /** A coordinator's op that came another way than by a socket. Null: it could not be written down. */
  takeOne(op: Op): Promise<Answer | null> {
    return new Promise((done) => {
      const isWhole = this.#ledger.take([op], 'coordinator', {
        answered: ([answer]) => done(answer ?? null),
        notTaken: () => done(null),
      });
      if (!isWhole) done(null);
    });
  }

  /** Something about the hub itself has changed. */
  sayStatus(): void {
    this.#audience.toEverybody(() => this.status);
  }

  #heard(session: Session, message: Exclude<FromTablet, Hello>, receivedAt: number): void {
    const live = this.#entrance.standing(session);
    if (live) this.#answer(session, live, message, receivedAt);
  }

  #answer(session: Session, live: Live, message: Exclude<FromTablet, Hello>, receivedAt: number): void {
    const { clock, demo, onStartBarn } = this.#parts;
    const isCoordinator = live.place.role === 'coordinator';
    switch (message.say) {
      case 'ping':
        return this.#audience.say(session, { say: 'pong', t1: message.t1, t2: receivedAt, t3: clock() });
      case 'taps':
        return this.#take(session, live, message.ops);
      case 'whatIf':
      case 'askStandIns':
        if (!isCoordinator) return this.refuse(session, 'notAllowedHere');
        return void this.#questions.answer(session, message);
      case 'startBarn':
        if (!isCoordinator) return this.refuse(session, 'notAllowedHere');
        if (!demo) return this.refuse(session, 'notADemo');
        return onStartBarn(message.name, message.zone, message.code ?? null);
      case 'askGate':
        return void this.#entrance.answer(session, live, message.ask, message.wish);
      case 'touched':
        return this.#parts.gate.touched(live.device);
    }
  }

  #take(session: Session, { device, place, by }: Live, ops: readonly Op[]): void {
    // The connection says which tablet it is, not the op: the right to undo hangs on it. So does who unlocked it.
    const own = ops.map((op) => ({ ...op, device, by: op.by ?? by }));
    const isWhole = this.#ledger.take(own, place.role, {
      answered: (answers) => this.#audience.say(session, { say: 'answered', answers: [...answers] }),
      notTaken: () => {
        session.isOwed = true;
        this.#audience.say(session, { say: 'refused', code: 'readOnly' });
      },
    });
    if (!isWhole) this.refuse(session, 'malformed');
  }

  #hello(session: Session, hello: Hello): void {
    if (!this.#entrance.comeIn(session, hello)) this.refuse(session, 'notPaired');
  }

  #greet(session: Session, live: Live, has: Has): void {
    this.#welcome(session, live, has);
    this.#audience.say(session, this.status);
    this.#forecasts.welcome(session);
    if (!this.#suggestions.welcome(session)) this.#parts.planner.changed(this.board);
  }

  #welcome(session: Session, { place, here }: Live, { since, open = [] }: Has): void {
    const { storage, barnClock: clock, demo, build, addresses } = this.#parts;
    const { journal } = storage.opened;
    const missed = since?.journal === journal ? this.#ledger.entriesAfter(since.seq) : null;
    const how = {
      journal,
      seq: this.seq,
      clock,
      demo,
      build,
      addresses: [...addresses()],
      landed: this.#ledger.landed(open),
    };
    this.#audience.say(session, {
      ...welcomeFor(place.role, how, this.board, missed),
      ...(here && { here }),
    });
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
      this.#welcome(session, live, { since: here, open: [] });
    }
  }
}
