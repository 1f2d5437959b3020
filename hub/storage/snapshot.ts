/** The snapshot file: the whole state at one sequence number, through lowdb with an adapter that survives a power cut. */
import { readFile } from 'node:fs/promises';
import { Low, type Adapter } from 'lowdb';
import * as z from 'zod/mini';
import { Id } from '#core/barn/basics.ts';
import { Board } from '#core/day/board.ts';
import { Reason } from '#core/day/ops.ts';
import { codeOf, StartError } from '../startError.ts';
import { writeWhole } from './files.ts';

/** Version of what is on disk, snapshot and journal alike. Goes up when an older hub could not read it any more. */
export const DATA_VERSION = 1;

export const Snapshot = z.object({
  version: z.literal(DATA_VERSION),
  journal: Id,
  seq: z.int().check(z.gte(0)),
  at: z.int().check(z.gte(0)),
  board: Board,
  seen: z.array(z.tuple([Id, z.object({ seq: z.int(), why: z.nullable(Reason) })])),
});
export type Snapshot = z.infer<typeof Snapshot>;

const Versioned = z.object({ version: z.int() });

/** A file of JSON for lowdb, written whole or not at all. Null: there is none. */
class JsonFile implements Adapter<unknown> {
  readonly #path: string;

  constructor(path: string) {
    this.#path = path;
  }

  async read(): Promise<unknown> {
    try {
      return JSON.parse(await readFile(this.#path, 'utf8'));
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return null;
      throw damaged(this.#path, error);
    }
  }

  async write(data: unknown): Promise<void> {
    await writeWhole(this.#path, JSON.stringify(data));
  }
}

export class SnapshotFile {
  readonly #path: string;
  readonly #low: Low<unknown>;

  constructor(path: string) {
    this.#path = path;
    this.#low = new Low<unknown>(new JsonFile(path), null);
  }

  /** Null when there is none yet. Throws StartError for one that is damaged or newer than this program. */
  async read(): Promise<Snapshot | null> {
    await this.#low.read();
    if (this.#low.data === null) return null;
    refuseNewer(this.#path, this.#low.data);
    const parsed = Snapshot.safeParse(this.#low.data);
    // The board lives in memory elsewhere from here on.
    this.#low.data = null;
    if (!parsed.success) throw damaged(this.#path, parsed.error);
    return parsed.data;
  }

  /** Rejects, with the file as it was, for a board that could not be read back: better an old snapshot than none. */
  async write(snapshot: Snapshot): Promise<void> {
    Board.parse(snapshot.board);
    this.#low.data = snapshot;
    await this.#low.write();
    this.#low.data = null;
  }
}

/** Throws StartError when `data` carries a version this program does not know yet. */
export function refuseNewer(path: string, data: unknown): void {
  const known = Versioned.safeParse(data);
  if (!known.success || known.data.version <= DATA_VERSION) return;
  throw new StartError(
    `${path} was written by a newer Aisle Board (data version ${known.data.version}, this program reads up to ${DATA_VERSION}). ` +
      'Start the newer program instead. Nothing was changed.',
  );
}

function damaged(path: string, why: unknown): StartError {
  return new StartError(
    `${path} is damaged and cannot be read. Put the folder back from a backup, or move it aside to begin anew. Nothing was changed.`,
    { cause: why },
  );
}
