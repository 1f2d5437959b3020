/**
 * What is written down, in order. Ops are accepted into memory at once, which runs ahead of the disk, but nobody hears of
 * an entry before it is on disk. When the disk fails, memory goes back to what is on disk, and nothing more is taken
 * until the disk can be written again, which is tried every few seconds.
 */
import type { Board } from '#core/day/board.ts';
import { withoutAll, type Forgotten } from '#core/day/forget.ts';
import type { Entry, Op, OpFact } from '#core/day/ops.ts';
import { HUB_DEVICE } from '#core/day/hubDevice.ts';
import type { Role } from '#core/day/places.ts';
import { Sequence, type Mark, type Outcome } from '#core/day/sequence.ts';
import type { Status, WriteTrouble } from '#core/wire/messages.ts';
import { Commits } from './commits.ts';
import { closedBy, Days, openSince } from './days.ts';
import { Mending } from './mending.ts';
import { Snapshots } from './snapshots.ts';
import type { Storage } from './storage/storage.ts';
import { troubleOf } from './storage/trouble.ts';

export type Answer = { id: string } & Outcome;

/** What becomes of one frame of ops; one of both is called, once. */
export type Reply = {
  /** They are on disk, and everybody has been told. */
  answered(answers: readonly Answer[]): void;
  /** Nothing of them is written down. */
  notTaken(): void;
};

/** One frame's worth of accepted ops on its way to disk. `mark`: how things stand after it. */
type Commit = {
  readonly entries: readonly Entry[];
  readonly mark: Mark;
  readonly answers: readonly Answer[];
  readonly reply: Reply | null;
};

export type LedgerParts = {
  readonly storage: Storage;
  /** Hub time in ms since 1970. */
  readonly clock: () => number;
  readonly barnNow: () => number;
  /** A new id for an op of the hub's own. */
  readonly newId: () => string;
  readonly log: (line: string) => void;
  /** More entries are on disk. */
  readonly published: (entries: readonly Entry[]) => void;
  /** Writing has stopped, or works again. */
  readonly writableChanged: () => void;
  /** Another day has been put by. */
  readonly dayKept: () => void;
  /** How often a disk that failed is tried again, in ms. */
  readonly mendEveryMs: number;
  /** A write that takes longer than this, in ms, is said on every board, and nothing more is taken until it ends. */
  readonly slowDiskAfterMs: number;
};

/** Entries kept in memory for tablets that come back: about a day of taps, 0.5 MB. */
const KEPT_ENTRIES = 2000;

/** Dropped together, so that not every tap copies a day of them. */
const DROPPED_AT_ONCE = 200;

/** A tablet that missed more is sent the whole board: packed, it is smaller. */
export const MOST_TO_CATCH_UP = 300;

/** Frames of ops in one write. */
const MOST_IN_A_COMMIT = 100;

export class Ledger {
  readonly #parts: LedgerParts;
  readonly #sequence: Sequence;
  readonly #commits: Commits<Commit>;
  readonly #days: Days;
  #onDisk: Mark;
  #dayFrom: number | null;
  #kept: Entry[];
  readonly #snapshots: Snapshots;
  #readOnly: Status['readOnly'] = null;
  readonly #mending: Mending;
  /** What came while files are written anew; null: nothing waits for that. */
  #held: (() => void)[] | null = null;

  constructor(parts: LedgerParts) {
    this.#parts = parts;
    const { state, entries, dayFrom, trouble } = parts.storage.opened;
    this.#mending = new Mending({
      mend: () => parts.storage.mend(),
      mended: () => this.#goOn(),
      everyMs: parts.mendEveryMs,
    });
    this.#days = new Days({ storage: parts.storage, kept: parts.dayKept, log: parts.log });
    const past = closedBy(openSince(state, dayFrom), entries);
    this.#dayFrom = past.dayFrom;
    this.#days.add(past.closed);
    this.#sequence = new Sequence(state);
    for (const entry of entries) this.#sequence.replay(entry);
    this.#kept = entries.slice(-KEPT_ENTRIES);
    this.#snapshots = new Snapshots(
      {
        storage: parts.storage,
        state: () => this.#sequence.stateAt(this.#onDisk),
        dayFrom: () => this.#dayFrom,
        daysKept: () => this.#days.settle(),
        log: parts.log,
      },
      entries.length,
    );
    this.#onDisk = this.#sequence.mark;
    if (trouble) this.#readOnlyFor(trouble);
    this.#commits = new Commits<Commit>(
      {
        write: (commits) => parts.storage.append(commits.flatMap((commit) => commit.entries)),
        written: (commits) => this.#publish(commits),
        failed: (error, lost) => this.#stop(error, lost),
        hangs: () => this.#hang(),
        goesOn: () => this.#goOn(),
        slowAfterMs: parts.slowDiskAfterMs,
      },
      MOST_IN_A_COMMIT,
    );
  }

  /** As it is on disk. */
  get board(): Board {
    return this.#onDisk.board;
  }

  get seq(): number {
    return this.#onDisk.seq;
  }

  /** Since when and why nothing can be written down; null: it can. */
  get readOnly(): Status['readOnly'] {
    return this.#readOnly;
  }

  /** The last entries there are, oldest first: about a day's. */
  get lastEntries(): readonly Entry[] {
    return this.#kept;
  }

  /** Those of the open day, oldest first, as far as they are known. Rejects when they cannot be read. */
  async dayEntries(): Promise<readonly Entry[]> {
    return this.#dayFrom === null ? [] : this.#parts.storage.entries(this.#dayFrom, this.seq);
  }

  /** All entries after `seq`; null when they are too many, or this hub has not come that far. */
  entriesAfter(seq: number): readonly Entry[] | null {
    const gap = this.#onDisk.seq - seq;
    return gap < 0 || gap > Math.min(MOST_TO_CATCH_UP, this.#kept.length)
      ? null
      : this.#kept.slice(this.#kept.length - gap);
  }

  /** Of these ops, those that are on disk. */
  landed(ids: readonly string[]): string[] {
    return ids.filter((id) => (this.#sequence.seqOf(id) ?? Infinity) <= this.#onDisk.seq);
  }

  /** Takes ops in order. False when one of them could not be reckoned with; those before it are taken. */
  take(ops: readonly Op[], role: Role, reply: Reply | null): boolean {
    if (this.#held) {
      this.#held.push(() => {
        if (!this.take(ops, role, reply)) reply?.notTaken();
      });
      return true;
    }
    if (this.#readOnly) {
      reply?.notTaken();
      return true;
    }
    const entries: Entry[] = [];
    const answers: Answer[] = [];
    let isWhole = true;
    for (const op of ops) {
      try {
        const { entry, outcome } = this.#sequence.accept(op, role, this.#parts.barnNow());
        if (entry) entries.push(entry);
        answers.push({ id: op.id, ...outcome });
      } catch (error) {
        // A bug in the domain. The sequence is as before this op; the hub lives on rather than meet it at each start.
        this.#parts.log(`Could not take a ${op.fact.kind}: ${String(error)}`);
        isWhole = false;
        break;
      }
    }
    this.#commits.add({ entries, mark: this.#sequence.mark, answers, reply });
    return isWhole;
  }

  /** A fact the hub itself brings in, by nobody. Resolves when everybody has been told, or it could not be written. */
  async bring(fact: OpFact): Promise<void> {
    const { barnNow, newId } = this.#parts;
    const op = { id: newId(), device: HUB_DEVICE, by: null, tappedAt: barnNow(), fact };
    await new Promise<void>((done) => {
      if (!this.take([op], 'coordinator', { answered: () => done(), notTaken: done })) done();
    });
  }

  /**
   * Takes these people out of memory and of everything on disk, under a new name for the run of numbers. Ops that come
   * meanwhile wait. Rejects when the disk did not take all of it; nothing answered is lost by that, and it can be asked
   * again. One at a time.
   */
  async erase(people: readonly Forgotten[], run: string): Promise<void> {
    const held: (() => void)[] = [];
    this.#held = held;
    try {
      const { storage } = this.#parts;
      await this.#commits.idle();
      if (this.#readOnly || !(await this.#days.settle()))
        throw new Error('the disk cannot be written just now');
      await storage.erase(people, run);
      this.#sequence.rewrite((board) => withoutAll(board, people));
      this.#kept = withoutAll(this.#kept, people);
      this.#onDisk = this.#sequence.mark;
      // A snapshot of how things stood before may have been on its way.
      await storage.snapshot(this.#sequence.stateAt(this.#onDisk), this.#dayFrom);
    } finally {
      this.#held = null;
      for (const go of held) go();
    }
  }

  /** Everything answered is on disk and in the snapshot when this resolves. */
  async close(): Promise<void> {
    this.#mending.stop();
    await this.#commits.idle();
    if (!this.#readOnly) await this.#snapshots.write();
    await this.#days.settle();
  }

  #publish(commits: readonly Commit[]): void {
    const entries = commits.flatMap((commit) => commit.entries);
    const { closed, dayFrom } = closedBy({ board: this.#onDisk.board, dayFrom: this.#dayFrom }, entries);
    this.#dayFrom = dayFrom;
    this.#days.add(closed);
    this.#onDisk = commits.at(-1)?.mark ?? this.#onDisk;
    if (entries.length > 0) {
      this.#kept.push(...entries);
      if (this.#kept.length >= KEPT_ENTRIES + DROPPED_AT_ONCE)
        this.#kept.splice(0, this.#kept.length - KEPT_ENTRIES);
      this.#parts.published(entries);
    }
    // Entries first: a tablet has its own op confirmed before it lets go of the tap.
    for (const { reply, answers } of commits) if (answers.length > 0) reply?.answered(answers);
    this.#snapshots.added(entries.length);
  }

  #stop(error: unknown, lost: readonly Commit[]): void {
    const { log, writableChanged } = this.#parts;
    log(`The disk could not be written, so no taps are taken: ${String(error)}`);
    this.#readOnlyFor(troubleOf(error));
    this.#sequence.rewind(
      this.#onDisk,
      lost.flatMap((commit) => commit.entries),
    );
    for (const { reply } of lost) reply?.notTaken();
    writableChanged();
  }

  /** It may still be written, so what waits for it stays as it is; trying the disk again would only wait as well. */
  #hang(): void {
    this.#parts.log('The disk does not come to an end with a write, so no more taps are taken.');
    this.#readOnly = { since: this.#parts.clock(), why: 'failing' };
    this.#parts.writableChanged();
  }

  #readOnlyFor(why: WriteTrouble): void {
    this.#readOnly = { since: this.#parts.clock(), why };
    this.#mending.begin();
  }

  #goOn(): void {
    this.#parts.log('The disk can be written again.');
    this.#readOnly = null;
    this.#parts.writableChanged();
  }
}
