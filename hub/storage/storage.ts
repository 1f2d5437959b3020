/**
 * What the hub needs of a place that keeps its data: what was there, one more batch, a fresh start point. Everything
 * else in the hub knows only this; `tests/faults/storage.ts` is what every implementation must pass.
 */
import { emptyBoard, type Board } from '#core/day/board.ts';
import type { Entry } from '#core/day/ops.ts';
import type { SequenceState } from '#core/day/sequence.ts';

/** Bytes of an unfinished last write, cut off at start and kept aside. None of it was ever answered. */
export type TornTail = {
  readonly file: string;
  readonly atByte: number;
  readonly bytes: number;
  readonly keptAs: string;
};

export type Opened = {
  /** Names the run of sequence numbers. */
  readonly journal: string;
  /** The last snapshot. */
  readonly state: SequenceState;
  /** Everything after it, in order and without a gap. */
  readonly entries: readonly Entry[];
  readonly torn: TornTail | null;
};

export interface Storage {
  readonly opened: Opened;
  /**
   * Resolves when all of `entries` will be there after a power cut; a batch is there whole or not at all. Rejects when
   * that cannot be said; then nothing more may be appended.
   */
  append(entries: readonly Entry[]): Promise<void>;
  /** Makes `state` the start point and lets go of entries up to its seq. A crash at any moment loses nothing. */
  snapshot(state: SequenceState): Promise<void>;
  /** Waits for what is under way and lets another hub have the data. */
  close(): Promise<void>;
}

/** What a storage begins with when there is nothing in it. */
export type Beginning = {
  readonly board: Board;
  /** Name for the run of sequence numbers. */
  readonly journal: string;
};

export function firstState(board: Board): SequenceState {
  return { board, seq: 0, at: 0, seen: [] };
}

/** A beginning for a barn nobody has described yet. */
export function emptyBeginning(zone: string, journal: string): Beginning {
  return { board: emptyBoard('Our barn', zone), journal };
}
