/**
 * People to be erased from a hub's folder. What is to be done stands in `erasing.json` before anything else happens, and goes
 * last; the next start finds it and does it to the end. Each file is there whole, as before or as after, at every moment.
 */
import { readdir, readFile, rm, unlink } from 'node:fs/promises';
import { join } from 'node:path';
import * as z from 'zod/mini';
import { Id } from '#core/barn/fields.ts';
import { withoutPerson, type Forgotten } from '#core/day/forget.ts';
import { codeOf } from '../startError.ts';
import { syncFolder, writeWhole } from './files.ts';
import { dayFrom, dayNames, DAYS_FOLDER } from './keptDay.ts';
import { readFolder, SNAPSHOT_NAME } from './load.ts';
import { seal, unseal } from './seal.ts';
import { beginSegment, readSegment, segmentName } from './segment.ts';
import { damaged } from './sealedFile.ts';
import { SnapshotFile } from './snapshot.ts';

const ERASING_NAME = 'erasing.json';

const Erasing = z.object({
  people: z.array(z.object({ id: Id, as: Id, names: z.array(z.string()) })),
});

/** Copies of old files, in which the person may stand. */
const COPIES = /^(version-\d+|torn-.*\.log|.*\.new)$/;

/** Whom the next start will erase. */
export async function erasingIn(folder: string): Promise<readonly Forgotten[]> {
  const path = join(folder, ERASING_NAME);
  try {
    const { data, isWhole } = unseal(await readFile(path, 'utf8'));
    if (!isWhole) throw damaged(path, 'checksum');
    return Erasing.parse(data).people;
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return [];
    throw error;
  }
}

/** On disk when this resolves. Nobody: the note goes. */
export async function noteErasing(folder: string, people: readonly Forgotten[]): Promise<void> {
  const path = join(folder, ERASING_NAME);
  if (people.length > 0) return writeWhole(path, seal({ people }));
  await unlink(path);
  await syncFolder(folder);
}

/**
 * Erases who is noted, a file a step; for a folder nobody writes to. `freshRun` names the run of numbers anew, so that no
 * tablet goes on from what it has. A folder of an older data version is left until it has been brought up to this one.
 */
export async function* erasingSteps(folder: string, freshRun: string, now: number): AsyncGenerator<string> {
  const people = await erasingIn(folder);
  if (people.length === 0) return;
  const erased = <T>(value: T): T => people.reduce((left, person) => withoutPerson(left, person), value);
  const found = await readFolder(folder, now);
  if (found && found.olderVersion !== null) return;
  if (found) {
    const { snapshot } = found;
    for (const from of found.segments) {
      const { batches } = await readSegment(join(folder, segmentName(from)), snapshot.journal);
      await beginSegment(folder, snapshot.journal, from, erased(batches));
      yield segmentName(from);
    }
    await new SnapshotFile(join(folder, SNAPSHOT_NAME)).write({ ...erased(snapshot), run: freshRun });
    yield SNAPSHOT_NAME;
  }
  const days = join(folder, DAYS_FOLDER);
  for (const name of await dayNames(days)) {
    const day = dayFrom(await readFile(join(days, name), 'utf8'));
    // What cannot be read cannot be cleared of anybody.
    if (day === 'damaged') await unlink(join(days, name));
    else await writeWhole(join(days, name), seal(erased(day)));
    yield name;
  }
  for (const name of await readdir(folder)) {
    if (!COPIES.test(name)) continue;
    await rm(join(folder, name), { recursive: true });
    yield name;
  }
  await noteErasing(folder, []);
  yield ERASING_NAME;
}
