/**
 * `npm run restore -- FILE --data DIR`: puts a barn back from a backup. Everything is checked, then written beside the old
 * folder, and only then takes its place; the old folder stays, under a name with date and time.
 */
import { randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { copyFile, mkdir, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { wallTimeAt } from '#core/time/zone.ts';
import { FEEDS_NAME } from './feeds.ts';
import { AUDIT_NAME } from './gate/audit.ts';
import { GATE_NAME } from './gate/gateFile.ts';
import { asOwner } from './owner.ts';
import { codeOf, runCommandLine, StartError } from './startError.ts';
import { readBackup, type Backup } from './storage/backupFile.ts';
import { lockFolder, SNAPSHOT_NAME } from './storage/disk.ts';
import { syncFolder } from './storage/files.ts';
import { DAYS_FOLDER, writeDay } from './storage/keptDay.ts';
import { beginSegment } from './storage/segment.ts';
import { photoFolder, PHOTOS_FOLDER } from './storage/photoFolder.ts';
import { SnapshotFile } from './storage/snapshot.ts';

const USAGE = 'Usage: npm run restore -- FILE --data DIR';

type Restored = { readonly backup: Backup; readonly oldFolder: string | null };

/**
 * Puts the backup at `file` into `data`/barn. `now` in ms names what was there. Throws StartError, with nothing changed,
 * when the backup is not good or a hub runs on the folder.
 */
export async function restore(file: string, data: string, now: number): Promise<Restored> {
  const backup = await readBackup(file).catch((error: unknown) => {
    if (error instanceof StartError) throw error;
    throw new StartError(`${file} cannot be read (${codeOf(error) || String(error)}).`, { cause: error });
  });
  const folder = join(data, 'barn');
  const isThere = existsSync(folder);
  const unlock = isThere ? await lockFolder(folder) : () => {};
  try {
    const fresh = freshFolder(folder);
    await rm(fresh, { recursive: true, force: true });
    await writeFresh(fresh, backup);
    if (isThere) await keepGate(folder, fresh);
    const oldFolder = isThere ? join(data, `barn-until-${stamp(now)}`) : null;
    if (oldFolder !== null) await rename(folder, oldFolder);
    await rename(fresh, folder);
    await syncFolder(data);
    return { backup, oldFolder };
  } finally {
    unlock();
  }
}

/**
 * Ends a restore that was cut off between its two renames, when the old barn was out of the way and the new one not yet in its
 * place. The snapshot is the last that is written into a new barn, so one that has it is whole. Answers whether it did.
 */
export async function finishRestore(folder: string): Promise<boolean> {
  const fresh = freshFolder(folder);
  if (existsSync(folder) || !existsSync(join(fresh, SNAPSHOT_NAME))) return false;
  await rename(fresh, folder);
  await syncFolder(dirname(folder));
  return true;
}

/** Where a barn is put together before it takes its place. */
function freshFolder(folder: string): string {
  return `${folder}.new`;
}

/**
 * Which tablets there are, the PINs and the calendar addresses are not the backup's but as they stand: a lost tablet must
 * not come back with it, and phones keep their calendars.
 */
async function keepGate(from: string, to: string): Promise<void> {
  for (const name of [GATE_NAME, AUDIT_NAME, FEEDS_NAME]) {
    if (existsSync(join(from, name))) await copyFile(join(from, name), join(to, name));
  }
  await syncFolder(to);
}

/** A new name for the journal, so that every tablet asks for the whole board again. */
async function writeFresh(folder: string, { snapshot, days, photos }: Backup): Promise<void> {
  const journal = randomUUID().replaceAll('-', '');
  await mkdir(folder, { recursive: true, mode: 0o700 });
  for (const day of days) await writeDay(join(folder, DAYS_FOLDER), day);
  const shelf = photoFolder(join(folder, PHOTOS_FOLDER));
  for await (const { name, bytes } of photos) await shelf.put(name, bytes);
  await beginSegment(folder, journal, snapshot.seq + 1);
  await new SnapshotFile(join(folder, SNAPSHOT_NAME)).write({ ...snapshot, journal, run: journal });
}

/** `2026-05-11T13-00-00-000Z`. */
function stamp(now: number): string {
  return new Date(now).toISOString().replaceAll(/[:.]/g, '-');
}

function readArguments(args: readonly string[]): { file: string; data: string } {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { data: { type: 'string' } },
      allowPositionals: true,
    });
    const [file, ...more] = positionals;
    if (file !== undefined && more.length === 0 && values.data !== undefined)
      return { file, data: values.data };
  } catch {
    // The usage says it all.
  }
  throw new StartError(USAGE);
}

async function main(args: readonly string[]): Promise<void> {
  const { file, data } = readArguments(args);
  const { backup, oldFolder } = await asOwner(data, () => restore(file, data, Date.now()));
  const { barn } = backup.snapshot.board;
  const { date, time } = wallTimeAt(backup.madeAt, barn.zone);
  console.log(`${barn.name} is as it was on ${date} at ${time}, in ${join(data, 'barn')}.`);
  if (oldFolder !== null) console.log(`What was there before is kept in ${oldFolder}.`);
}

if (import.meta.main) await runCommandLine(main);
