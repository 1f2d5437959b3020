/**
 * What the hub needs of a place that keeps its data: what was there, one more batch, a fresh start point. Everything
 * else in the hub knows only this; `tests/faults/hub-storage.test.ts` is what every implementation must pass.
 */
import type { Board } from '#core/day/board.ts';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import type { Forgotten } from '#core/day/forget.ts';
import type { Entry } from '#core/day/ops.ts';
import type { SequenceState } from '#core/day/sequence.ts';
import type { WriteTrouble } from '#core/wire/messages.ts';
import type { KeptDay } from './keptDay.ts';

/**
 * Bytes of an unfinished last write, cut off at start and kept aside. None of it was ever answered, unless the disk has
 * lost what it said it had.
 */
export type TornTail = {
  readonly file: string;
  readonly atByte: number;
  readonly bytes: number;
  readonly keptAs: string;
};

export type Opened = {
  /**
   * Names the run of sequence numbers. A new one after a tail was cut off: whoever has seen a number from the tail must
   * not take the entry that bears it next for the one they know.
   */
  readonly journal: string;
  /** The last snapshot. */
  readonly state: SequenceState;
  /** Everything after it, in order and without a gap. */
  readonly entries: readonly Entry[];
  /** The entry that opened the day of the snapshot; null: not known, or no day was open. */
  readonly dayFrom: number | null;
  readonly torn: TornTail | null;
  /** Why nothing can be appended until `mend` has resolved; null: it can. */
  readonly trouble: WriteTrouble | null;
};

export interface Storage {
  readonly opened: Opened;
  /**
   * Resolves when all of `entries` will be there after a power cut; a batch is there whole or not at all. Rejects when
   * that cannot be said; then nothing more is taken until `mend` has resolved.
   */
  append(entries: readonly Entry[]): Promise<void>;
  /**
   * After a failed append: takes away what was half-written, so that everything is as after the last append that
   * resolved, and makes sure that there is room. Rejects, to be tried again, while that cannot be done.
   */
  mend(): Promise<void>;
  /**
   * Makes `state`, which is on disk, the start point and lets go of entries that are neither after it nor from `dayFrom` on (null: of the
   * day nothing need be kept). A crash at any moment loses nothing.
   */
  snapshot(state: SequenceState, dayFrom: number | null): Promise<void>;
  /** Entries `from` … `to`, as far as they are kept: those of the open day are. */
  entries(from: number, to: number): Promise<Entry[]>;
  /** Puts a closed day by. One that is there already is left as it is. */
  keepDay(day: KeptDay): Promise<void>;
  /** The last `most` days put by, oldest first; `damaged` names those that cannot be read. */
  days(most: number): Promise<{ days: KeptDay[]; damaged: string[] }>;
  /**
   * Takes these people out of all that is kept, and names the run of sequence numbers `run` from now on, so that no tablet
   * goes on from what it has. What is appended meanwhile waits. Rejects when it could not be done to the end: then some of
   * it may be cleared, nothing else has changed, and it can be asked again.
   */
  erase(people: readonly Forgotten[], run: string): Promise<void>;
  /** Folder with a file for each of them, for a thread that reads them itself; null: they are kept in memory. */
  readonly daysFolder: string | null;
  /** Waits for what is under way and lets another hub have the data. */
  close(): Promise<void>;
}

/** What a storage begins with when there is nothing in it. */
export type Beginning = {
  readonly board: Board;
  /** A new name, for a run of sequence numbers that begins. */
  readonly journal: string;
};

export function firstState(board: Board): SequenceState {
  return { board, seq: 0, at: 0, seen: [] };
}

/** A beginning for a barn nobody has described yet. */
export function emptyBeginning(zone: string, journal: string): Beginning {
  return { board: emptyBoard('Our barn', zone), journal };
}
