/** Files of an older data version are copied aside before the first file of this version is written beside them. */
import { mkdir, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { copySynced, syncFolder } from './files.ts';
import { SNAPSHOT_NAME } from './load.ts';
import { segmentFrom } from './segment.ts';

/** Keeps snapshot and journal as they are now in `version-1` or whatever `version` it is. Safe to do again. */
export async function keepOlder(folder: string, version: number): Promise<void> {
  const aside = join(folder, `version-${version}`);
  await mkdir(aside, { recursive: true, mode: 0o700 });
  for (const name of await readdir(folder)) {
    if (name === SNAPSHOT_NAME || segmentFrom(name) !== null)
      await copySynced(join(folder, name), join(aside, name));
  }
  await syncFolder(aside);
  await syncFolder(folder);
}
