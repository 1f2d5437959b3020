/**
 * `npm run backup -- FILE [--data ./data]`: the barn as it is on disk, in one file. It reads the folder's files, so it needs
 * no running hub and no open door: who may not read the folder cannot make one. A hub may run and write meanwhile; what is
 * read is checked to be one whole state.
 */
import { open, readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { Sequence } from '#core/day/sequence.ts';
import { wallTimeAt } from '#core/time/zone.ts';
import { closedBy, openSince } from './days.ts';
import { codeOf, runCommandLine, StartError } from './startError.ts';
import { photosIn } from './photos.ts';
import { backupLines, type Backup, type Photo } from './storage/backupFile.ts';
import { syncFolder } from './storage/files.ts';
import { Journal } from './storage/journal.ts';
import { DAYS_FOLDER, keptDay, readDays, type KeptDay } from './storage/keptDay.ts';
import { readFolder, type Found } from './storage/load.ts';
import { photoFolder, PHOTOS_FOLDER } from './storage/photoFolder.ts';
import { toSnapshot } from './storage/snapshot.ts';

/** A hub may begin a new journal file between two reads of ours; then all is read again. */
const MOST_TRIES = 5;

const USAGE = 'Usage: npm run backup -- FILE [--data ./data]';

/** The barn in `folder` as it is on disk now. `now` in ms since 1970. Throws StartError when it cannot be read whole. */
export async function takeBackup(folder: string, now: number): Promise<Backup> {
  for (let tries = 1; ; tries += 1) {
    try {
      return await readOnce(folder, now);
    } catch (error) {
      if (tries === MOST_TRIES) throw error;
    }
  }
}

async function readOnce(folder: string, madeAt: number): Promise<Backup> {
  const found = await readFolder(folder, madeAt);
  if (!found) throw new StartError(`There is no barn in ${folder}. ${USAGE}`);
  const { snapshot, entries } = found;
  const sequence = new Sequence(snapshot);
  for (const entry of entries) sequence.replay(entry);
  // The day's earlier entries are not taken along: what they came to is in the board.
  const naming = { journal: snapshot.journal, run: snapshot.run, dayFrom: null };
  return {
    madeAt,
    snapshot: toSnapshot(naming, sequence.state),
    days: await pastDays(folder, found),
    photos: { [Symbol.asyncIterator]: () => readPhotos(folder, photosIn(sequence.board.barn)) },
  };
}

/** Those there are of these pictures, each read when its turn comes. */
async function* readPhotos(folder: string, names: ReadonlySet<string>): AsyncGenerator<Photo> {
  const shelf = photoFolder(join(folder, PHOTOS_FOLDER));
  for (const name of [...names].sort()) {
    const bytes = await shelf.get(name);
    if (bytes) yield { name, bytes };
  }
}

/** Those that are put by, and those that the hub was just about to. */
async function pastDays(folder: string, { snapshot, entries, segments }: Found): Promise<KeptDay[]> {
  const { days, damaged } = await readDays(join(folder, DAYS_FOLDER), Infinity);
  if (damaged[0] !== undefined) {
    throw new StartError(
      `${join(folder, DAYS_FOLDER, damaged[0])} is damaged. Move it aside, or put it back from an older backup, then try again.`,
    );
  }
  const { closed } = closedBy(openSince(snapshot, snapshot.dayFrom), entries);
  const missing = closed.filter(
    ({ day, from }) => !days.some((one) => one.date === day.date && one.from === from),
  );
  const journal = new Journal({ folder, name: snapshot.journal, segments, lastSeq: snapshot.seq });
  for (const one of missing) days.push(keptDay(one, await journal.entries(one.from, one.to)));
  return days;
}

/** Writes it where nothing is yet: into `path`, or under a name with date and time when that is a folder. */
export async function writeBackup(path: string, backup: Backup): Promise<{ path: string; bytes: number }> {
  const isFolder = await stat(path).then(
    (one) => one.isDirectory(),
    () => false,
  );
  const file = isFolder ? join(path, fileName(backup)) : path;
  let bytes = 0;
  try {
    const handle = await open(file, 'wx', 0o600);
    try {
      for await (const line of backupLines(backup)) {
        await handle.appendFile(line);
        bytes += line.length;
      }
      await handle.sync();
    } finally {
      await handle.close();
    }
    await syncFolder(join(file, '..'));
  } catch (error) {
    const why = codeOf(error);
    if (why === 'EEXIST') throw new StartError(`${file} is there already. Choose another name.`);
    throw new StartError(`${file} cannot be written (${why || String(error)}).`, { cause: error });
  }
  return { path: file, bytes };
}

export function fileName({ madeAt, snapshot }: Backup): string {
  const { date, time } = wallTimeAt(madeAt, snapshot.board.barn.zone);
  return `aisle-board-${date}-${time.replace(':', '')}.backup`;
}

function readArguments(args: readonly string[]): { file: string; folder: string } {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { data: { type: 'string' } },
      allowPositionals: true,
    });
    const [file, ...more] = positionals;
    if (file !== undefined && more.length === 0) return { file, folder: join(values.data ?? 'data', 'barn') };
  } catch {
    // The usage says it all.
  }
  throw new StartError(USAGE);
}

async function main(args: readonly string[]): Promise<void> {
  const { file, folder } = readArguments(args);
  await readdir(folder).catch((error: unknown) => {
    throw new StartError(`There is no barn in ${folder} (${codeOf(error)}). ${USAGE}`);
  });
  const backup = await takeBackup(folder, Date.now());
  const { path, bytes } = await writeBackup(file, backup);
  const { board } = backup.snapshot;
  console.log(
    `${board.barn.name} is in ${path} (${Math.ceil(bytes / 1024)} kB, ${backup.days.length} past days). ` +
      'It holds riders’ records: keep it where only the coordinator can get at it.',
  );
}

if (import.meta.main) await runCommandLine(main);
