/** The snapshot file: the whole state at one sequence number, through lowdb. */
import { Low } from 'lowdb';
import * as z from 'zod/mini';
import { Id } from '#core/barn/fields.ts';
import { Board } from '#core/day/board.ts';
import { Reason } from '#core/day/ops.ts';
import type { SequenceState } from '#core/day/sequence.ts';
import { damaged, SealedFile, type Raw } from './sealedFile.ts';
import { DATA_VERSION, snapshotToday, versionOf } from './version.ts';

export const Snapshot = z.object({
  version: z.literal(DATA_VERSION),
  /** Binds the journal files to it. */
  journal: Id,
  /** Names the run of sequence numbers to tablets: the journal's name, or a newer one since a tail was cut off. */
  run: Id,
  seq: z.int().check(z.gte(0)),
  at: z.int().check(z.gte(0)),
  board: Board,
  seen: z.array(z.tuple([Id, z.object({ seq: z.int(), why: z.nullable(Reason) })])),
  /** The entry that opened the day. Its journal files are kept until the day is put by. */
  dayFrom: z.nullable(z.int()),
});
export type Snapshot = z.infer<typeof Snapshot>;

/** What of a snapshot is not the board's state. */
export type Naming = Pick<Snapshot, 'journal' | 'run' | 'dayFrom'>;

export function toSnapshot(naming: Naming, { board, seq, at, seen }: SequenceState): Snapshot {
  const answers = seen.map(([op, outcome]): Snapshot['seen'][number] => [op, outcome]);
  return { version: DATA_VERSION, ...naming, seq, at, board, seen: answers };
}

export class SnapshotFile {
  readonly path: string;
  readonly #file: SealedFile;
  readonly #low: Low<unknown>;

  constructor(path: string) {
    this.path = path;
    this.#file = new SealedFile(path);
    this.#low = new Low<unknown>(this.#file, null);
  }

  /** Null when there is none yet. Throws StartError for one that is damaged or newer than this program. */
  async read(): Promise<{ snapshot: Snapshot; version: number } | null> {
    await this.#low.read();
    const raw = this.#file.raw;
    // The board lives in memory elsewhere from here on.
    this.#low.data = null;
    this.#file.raw = null;
    return raw && fromRaw(this.path, raw);
  }

  /** Rejects, with the file as it was, for a board that could not be read back: better an old snapshot than none. */
  async write(snapshot: Snapshot): Promise<void> {
    Board.parse(snapshot.board);
    this.#low.data = snapshot;
    try {
      await this.#low.write();
    } finally {
      this.#low.data = null;
    }
  }
}

function fromRaw(path: string, { data, isWhole, isSealed }: Raw): { snapshot: Snapshot; version: number } {
  const version = versionOf(path, data);
  // Version 1 had no seal.
  if (version === null || (isSealed ? !isWhole : version > 1)) throw damaged(path, 'checksum');
  try {
    return { snapshot: Snapshot.parse(snapshotToday(version, data)), version };
  } catch (error) {
    throw damaged(path, error);
  }
}
