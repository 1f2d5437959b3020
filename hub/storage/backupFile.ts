/**
 * A barn in one file: lines of length, checksum and JSON as in the journal. The first line says what the file is, the last
 * how many lines there are, so that a file cut off anywhere is known for one. Between them one line is the whole state, and
 * each further one a day that is over.
 */
import { readFile } from 'node:fs/promises';
import * as z from 'zod/mini';
import { Instant } from '#core/barn/fields.ts';
import { StartError } from '../startError.ts';
import { KeptDay } from './keptDay.ts';
import { readLines, toLine } from './line.ts';
import { Snapshot } from './snapshot.ts';
import { snapshotToday, versionOf } from './version.ts';

const FORMAT = 'aisle-board backup 1';

const Head = z.looseObject({
  format: z.literal(FORMAT),
  /** Data version of what follows. */
  version: z.int(),
  madeAt: Instant,
  barn: z.string(),
});

const Tail = z.object({ lines: z.int() });

export type Backup = {
  /** When it was made, by that computer's clock; ms since 1970. */
  readonly madeAt: number;
  readonly snapshot: Snapshot;
  readonly days: readonly KeptDay[];
};

/** The file's bytes. */
export function toBackup({ madeAt, snapshot, days }: Backup): Buffer {
  const head = { format: FORMAT, version: snapshot.version, madeAt, barn: snapshot.board.barn.name };
  const lines = [head, snapshot, ...days];
  return Buffer.concat([...lines, { lines: lines.length + 1 }].map(toLine));
}

/** Reads and checks all of it. Throws StartError for a file that is no backup, not whole, damaged or newer than this program. */
export async function readBackup(path: string): Promise<Backup> {
  const { lines, damage } = readLines(await readFile(path));
  const [first, state, ...rest] = lines.map(({ value }) => value);
  const head = Head.safeParse(first);
  if (!head.success) throw new StartError(`${path} is no backup of an Aisle Board. Nothing was changed.`);
  const version = versionOf(path, head.data);
  const tail = Tail.safeParse(rest.pop());
  if (damage || version === null || !tail.success || tail.data.lines !== lines.length) {
    const where = damage ? `damaged at byte ${damage.atByte}` : 'not whole';
    throw new StartError(`${path} is ${where}. Take another backup. Nothing was changed.`);
  }
  try {
    const snapshot = Snapshot.parse(snapshotToday(version, state));
    return { madeAt: head.data.madeAt, snapshot, days: z.array(KeptDay).parse(rest) };
  } catch (error) {
    throw new StartError(`${path} cannot be read: its records make no sense. Nothing was changed.`, {
      cause: error,
    });
  }
}
