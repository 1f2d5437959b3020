/**
 * The one place where ops are put in order. A message goes parse -> accept -> disk -> everybody, and nobody hears of an
 * entry before it is on disk: what a tablet is shown is `#onDisk`, not the sequence's own board, which runs ahead of it.
 */
import { barnTimeAt } from '#core/time/barnClock.ts';
import type { Board } from '#core/day/board.ts';
import type { Entry, Op, OpFact } from '#core/day/ops.ts';
import type { Role } from '#core/day/places.ts';
import { redactBoard, redactEntry } from '#core/day/redact.ts';
import { Sequence, type Outcome } from '#core/day/sequence.ts';
import type { Forecast } from '#core/plan/model.ts';
import { parseFrame } from '#core/wire/frame.ts';
import { AnyHello, FromTablet, PROTOCOL, type BarnClock, type FromHub, type Welcome } from '#core/wire/messages.ts';
import { Commits } from './commits.ts';
import { pretend } from './consider.ts';
import type { Planner } from './planner.ts';
import { CLOSE, Session, type Link, type Live } from './session.ts';
import type { Storage } from './storage/storage.ts';

type Refusal = Extract<FromHub, { say: 'refused' }>['code'];
type Hello = Extract<FromTablet, { say: 'hello' }>;
type Answer = { id: string } & Outcome;

/** One frame's worth of accepted ops on its way to disk. `board` and `seq`: how things stand after it. */
type Commit = {
  readonly entries: readonly Entry[];
  readonly board: Board;
  readonly seq: number;
  readonly answers: readonly Answer[];
  readonly to: Session | null;
};

export type RoomParts = {
  readonly storage: Storage;
  readonly planner: Planner;
  /** Hub time in ms since 1970. */
  readonly clock: () => number;
  readonly barnClock: BarnClock;
  readonly demo: boolean;
  readonly build: string;
  readonly addresses: () => readonly string[];
  readonly onStartBarn: (name: string, zone: string) => void;
  /** The disk has failed. Memory is ahead of it, so this room never answers again. */
  readonly onFailure: (error: unknown) => void;
  readonly log: (line: string) => void;
  /** A new id for an op of the hub's own. */
  readonly newId: () => string;
};

/** Entries kept in memory for tablets that come back: about a day of taps, 0.5 MB. */
export const KEPT_ENTRIES = 2000;

/** Entries between two snapshots: a start then reads at most this many, a few ms of work. */
export const SNAPSHOT_EVERY = 500;

/** A tablet that sends this much nonsense in one connection is shown out. */
export const MOST_REFUSALS = 20;

/** Frames of ops in one write. */
const MOST_IN_A_COMMIT = 100;

export class Room {
  readonly #parts: RoomParts;
  readonly #sequence: Sequence;
  readonly #commits: Commits<Commit>;
  readonly #sessions = new Set<Session>();
  #onDisk: { board: Board; seq: number };
  #kept: Entry[];
  #sinceSnapshot: number;
  #forecast: Forecast | null = null;
  #forecastAt: number | null = null;
  #closing = false;

  constructor(parts: RoomParts) {
    this.#parts = parts;
    const { state, entries } = parts.storage.opened;
    this.#sequence = new Sequence(state);
    for (const entry of entries) this.#sequence.replay(entry);
    this.#kept = entries.slice(-KEPT_ENTRIES);
    this.#sinceSnapshot = entries.length;
    this.#onDisk = { board: this.#sequence.board, seq: this.#sequence.seq };
    this.#commits = new Commits<Commit>(
      {
        write: (commits) => parts.storage.append(commits.flatMap((commit) => commit.entries)),
        written: (commits) => this.#publish(commits),
        failed: (error) => this.#fail(error),
      },
      MOST_IN_A_COMMIT,
    );
  }

  start(): void {
    this.#parts.planner.start(this.#onDisk.board, (forecast) => this.#share(forecast));
  }

  /** Everything answered is on disk and in the snapshot when this resolves. */
  async close(): Promise<void> {
    this.#closing = true;
    await this.#commits.idle();
    await this.#parts.planner.stop();
    for (const session of this.#sessions) session.link.close(CLOSE.goingAway, 'the hub is going down');
    if (this.#commits.isBroken || this.#sinceSnapshot === 0) return;
    await this.#snapshot();
  }

  get board(): Board {
    return this.#onDisk.board;
  }

  get seq(): number {
    return this.#onDisk.seq;
  }

  /** Hub time of the last forecast in ms; null before the first. */
  get forecastAt(): number | null {
    return this.#forecastAt;
  }

  /** Connections by role; those that have not said hello yet are `waiting`. */
  get connections(): Record<Role | 'waiting', number> {
    const count = { aisle: 0, door: 0, coordinator: 0, waiting: 0 };
    for (const session of this.#sessions) count[session.role ?? 'waiting'] += 1;
    return count;
  }

  barnNow(): number {
    return barnTimeAt(this.#parts.barnClock, this.#parts.clock());
  }

  join(link: Link): Session {
    const session = new Session(link);
    this.#sessions.add(session);
    return session;
  }

  leave(session: Session): void {
    session.now = { state: 'closed' };
    this.#sessions.delete(session);
  }

  /** One text frame from a tablet. Never throws. */
  hear(session: Session, text: string): void {
    if (this.#closing || this.#commits.isBroken || session.now.state === 'closed') return;
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
      return this.#welcome(session, message);
    }
    this.#answer(session, session.now, message, receivedAt);
  }

  /** Tells a tablet that its message could not be taken; after too many of them the connection ends. */
  refuse(session: Session, code: Refusal): void {
    session.refusals += 1;
    const tooMuch = session.refusals >= MOST_REFUSALS;
    this.#say(session, { say: 'refused', code: tooMuch ? 'tooMuch' : code });
    if (tooMuch) session.link.close(CLOSE.policy, 'too many messages that could not be taken');
  }

  /** A fact the hub itself brings in, by nobody. Resolves when it is on disk and everybody has been told. */
  async bring(fact: OpFact): Promise<void> {
    const now = this.barnNow();
    const op: Op = { id: this.#parts.newId(), device: 'hub', by: null, tappedAt: now, fact };
    this.#take([op], 'coordinator', null);
    await this.#commits.idle();
  }

  #answer(session: Session, live: Live, message: FromTablet, receivedAt: number): void {
    const { clock, demo, onStartBarn } = this.#parts;
    const isCoordinator = live.place.role === 'coordinator';
    switch (message.say) {
      case 'hello':
        return this.refuse(session, 'malformed');
      case 'ping':
        return this.#say(session, { say: 'pong', t1: message.t1, t2: receivedAt, t3: clock() });
      case 'taps':
        // The connection says which tablet it is, not the op: the right to undo hangs on it.
        return this.#take(
          message.ops.map((op) => ({ ...op, device: live.device })),
          live.place.role,
          session,
        );
      case 'whatIf':
        if (!isCoordinator) return this.refuse(session, 'notAllowedHere');
        return void this.#consider(session, message.ask, message.facts);
      case 'startBarn':
        if (!isCoordinator) return this.refuse(session, 'notAllowedHere');
        if (!demo) return this.refuse(session, 'notADemo');
        return onStartBarn(message.name, message.zone);
    }
  }

  #welcome(session: Session, { device, place, since }: Hello): void {
    const { storage, barnClock, demo, build, addresses } = this.#parts;
    const { board, seq } = this.#onDisk;
    const missed = since?.journal === storage.opened.journal ? this.#entriesAfter(since.seq) : null;
    session.now = { state: 'live', device, place };
    const welcome: Welcome = {
      say: 'welcome',
      journal: storage.opened.journal,
      seq,
      board: missed ? null : redactBoard(board, place.role),
      entries: (missed ?? []).map((entry) => redactEntry(entry, place.role)),
      clock: barnClock,
      demo,
      build,
      addresses: [...addresses()],
    };
    this.#say(session, welcome);
    if (this.#forecast) this.#say(session, forecastFor(place.role, this.#forecast));
  }

  /** All entries after `seq`; null when they are not all in memory, or this hub has not come that far. */
  #entriesAfter(seq: number): Entry[] | null {
    const gap = this.#onDisk.seq - seq;
    return gap < 0 || gap > this.#kept.length ? null : this.#kept.slice(this.#kept.length - gap);
  }

  #take(ops: readonly Op[], role: Role, from: Session | null): void {
    const entries: Entry[] = [];
    const answers: Answer[] = [];
    let broken = false;
    for (const op of ops) {
      try {
        const { entry, outcome } = this.#sequence.accept(op, role, this.barnNow());
        if (entry) entries.push(entry);
        answers.push({ id: op.id, ...outcome });
      } catch (error) {
        // A bug in the domain. The sequence is as before this op; the hub lives on rather than meet it at each start.
        this.#parts.log(`Could not take a ${op.fact.kind}: ${String(error)}`);
        broken = true;
        break;
      }
    }
    const { board, seq } = this.#sequence;
    this.#commits.add({ entries, board, seq, answers, to: from });
    if (broken && from) this.refuse(from, 'malformed');
  }

  /** Entries to everybody, in order, then the answers: a tablet has its own op confirmed before it lets go of the tap. */
  #publish(commits: readonly Commit[]): void {
    const last = commits.at(-1);
    if (last) this.#onDisk = { board: last.board, seq: last.seq };
    const entries = commits.flatMap((commit) => commit.entries);
    if (entries.length > 0) {
      this.#kept = [...this.#kept, ...entries].slice(-KEPT_ENTRIES);
      this.#toEverybody((role) => ({
        say: 'entries',
        entries: entries.map((entry) => redactEntry(entry, role)),
      }));
      this.#parts.planner.changed(this.#onDisk.board);
    }
    for (const { to, answers } of commits) {
      if (to && answers.length > 0) this.#say(to, { say: 'answered', answers: [...answers] });
    }
    this.#sinceSnapshot += entries.length;
    if (this.#sinceSnapshot >= SNAPSHOT_EVERY) void this.#snapshot();
  }

  async #snapshot(): Promise<void> {
    this.#sinceSnapshot = 0;
    try {
      await this.#parts.storage.snapshot(this.#sequence.state);
    } catch (error) {
      // Nothing is lost: the journal keeps what the snapshot would have held.
      this.#parts.log(`Could not write a snapshot: ${String(error)}`);
    }
  }

  async #consider(session: Session, ask: string, facts: readonly OpFact[]): Promise<void> {
    const { planner, log } = this.#parts;
    try {
      const after = pretend(this.#onDisk.board, facts, this.barnNow());
      if ('why' in after) {
        this.#say(session, { say: 'considered', ask, why: after.why, forecast: null });
        return;
      }
      const forecast = await planner.consider(after.board);
      this.#say(session, { say: 'considered', ask, why: null, forecast });
    } catch (error) {
      log(`Could not consider a what-if: ${String(error)}`);
      this.refuse(session, 'malformed');
    }
  }

  #share(forecast: Forecast): void {
    this.#forecast = forecast;
    this.#forecastAt = this.#parts.clock();
    this.#toEverybody((role) => forecastFor(role, forecast));
  }

  /** Written out once a role, not once a tablet. */
  #toEverybody(message: (role: Role) => FromHub): void {
    const texts = new Map<Role, string>();
    for (const session of this.#sessions) {
      const role = session.role;
      if (role === null) continue;
      let text = texts.get(role);
      if (text === undefined) {
        text = JSON.stringify(message(role));
        texts.set(role, text);
      }
      session.link.send(text);
    }
  }

  #say(session: Session, message: FromHub): void {
    if (session.now.state !== 'closed') session.link.send(JSON.stringify(message));
  }

  #fail(error: unknown): void {
    this.#parts.log(`The disk could not be written: ${String(error)}`);
    this.#parts.onFailure(error);
  }
}

/** Who is behind is for the coordinator. */
function forecastFor(role: Role, forecast: Forecast): FromHub {
  return { say: 'forecast', forecast: role === 'coordinator' ? forecast : { ...forecast, hands: {} } };
}
