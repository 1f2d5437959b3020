/**
 * A barn in one file: lines of length, checksum and JSON as in the journal. The first line says what the file is, the last
 * how many lines there are, so that a file cut off anywhere is known for one. Between them one line is the whole state, and
 * each further one a day that is over or a picture.
 */
import { readFile } from 'node:fs/promises';
import * as z from 'zod/mini';
import { PhotoName } from '#core/barn/horse.ts';
import { Instant } from '#core/barn/fields.ts';
import { StartError } from '../startError.ts';
import { KeptDay } from './keptDay.ts';
import { readLines, toLine } from './line.ts';
import { photoName } from './photoFolder.ts';
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

export type Photo = { readonly name: string; readonly bytes: Buffer };

const PhotoLine = z.object({ photo: PhotoName, base64: z.string() });

export type Backup = {
  /** When it was made, by that computer's clock; ms since 1970. */
  readonly madeAt: number;
  readonly snapshot: Snapshot;
  readonly days: readonly KeptDay[];
  /** Those the records name, one after the other. */
  readonly photos: Iterable<Photo> | AsyncIterable<Photo>;
};

/** The file's bytes, line by line: never more than one day or picture is held as text. */
export async function* backupLines({ madeAt, snapshot, days, photos }: Backup): AsyncGenerator<Buffer> {
  const head = { format: FORMAT, version: snapshot.version, madeAt, barn: snapshot.board.barn.name };
  let lines = 0;
  for (const one of [head, snapshot, ...days]) {
    yield toLine(one);
    lines += 1;
  }
  for await (const { name, bytes } of photos) {
    yield toLine({ photo: name, base64: bytes.toString('base64') });
    lines += 1;
  }
  yield toLine({ lines: lines + 1 });
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
    const isPhoto = (line: unknown): boolean => PhotoLine.safeParse(line).success;
    return {
      madeAt: head.data.madeAt,
      snapshot,
      days: z.array(KeptDay).parse(rest.filter((line) => !isPhoto(line))),
      photos: rest.filter(isPhoto).map(asPhoto),
    };
  } catch (error) {
    throw new StartError(`${path} cannot be read: its records make no sense. Nothing was changed.`, {
      cause: error,
    });
  }
}

/** Throws for a picture that is not the one it is called. */
function asPhoto(line: unknown): Photo {
  const { photo, base64 } = PhotoLine.parse(line);
  const bytes = Buffer.from(base64, 'base64');
  if (photoName(bytes) !== photo) throw new Error(`the picture ${photo} is another one`);
  return { name: photo, bytes };
}
