/** When a snapshot is due, and that one which fails costs nothing but time. */
import type { SequenceState } from '#core/day/sequence.ts';
import type { Storage } from './storage/storage.ts';

/** Entries between two snapshots: a start then reads at most this many, a few ms of work. */
export const SNAPSHOT_EVERY = 500;

type SnapshotsParts = {
  readonly storage: Pick<Storage, 'snapshot'>;
  /** How things stand on disk. */
  readonly state: () => SequenceState;
  readonly dayFrom: () => number | null;
  /** Whether every closed day is put by: one that is not needs its journal files. */
  readonly daysKept: () => Promise<boolean>;
  readonly log: (line: string) => void;
};

export class Snapshots {
  readonly #parts: SnapshotsParts;
  #since: number;

  /** `since`: entries after the last one. */
  constructor(parts: SnapshotsParts, since: number) {
    this.#parts = parts;
    this.#since = since;
  }

  /** So many more entries are on disk. */
  added(entries: number): void {
    this.#since += entries;
    if (this.#since >= SNAPSHOT_EVERY) void this.write();
  }

  /** Unless there is nothing new. Never rejects. */
  async write(): Promise<void> {
    if (this.#since === 0) return;
    this.#since = 0;
    const { storage, state, dayFrom, daysKept, log } = this.#parts;
    try {
      if (await daysKept()) await storage.snapshot(state(), dayFrom());
    } catch (error) {
      // Nothing is lost: the journal keeps what the snapshot would have held.
      log(`Could not write a snapshot: ${String(error)}`);
    }
  }
}
