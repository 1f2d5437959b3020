/**
 * People to be erased from a hub's folder. Who stands in `erasing.json` before anything else happens; the note goes last, and
 * a hub that starts and finds it does the rest. Each file is there whole, as before or as after, at every moment.
 */
import { readdir, readFile, rm, unlink } from 'node:fs/promises';
import { join } from 'node:path';
import * as z from 'zod/mini';
import { Id } from '#core/barn/fields.ts';
import { withoutAll, type Forgotten } from '#core/day/forget.ts';
import { codeOf } from '../startError.ts';
import { syncFolder, writeWhole } from './files.ts';
import { dayFrom, dayNames, DAYS_FOLDER, namesIn } from './keptDay.ts';
import { SNAPSHOT_NAME } from './load.ts';
import { seal, unseal } from './seal.ts';
import { beginSegment, readSegment, segmentFrom } from './segment.ts';
import { damaged } from './sealedFile.ts';
import { SnapshotFile } from './snapshot.ts';

const ERASING_NAME = 'erasing.json';

const Erasing = z.object({
  people: z.array(z.object({ id: Id, as: Id, names: z.array(z.string()) })),
});

/** Copies of old files, and what a crash has left of new ones, in which the person may stand. */
const COPIES = /^(version-\d+|torn-.*\.log|(journal|snapshot).*\.new)$/;
const LEFT_OVER = /\.new$/;

/** Who is still to be erased. */
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
 * Takes `people` out of a folder's records, a file a step, while nobody else writes to them. `run` names the run of numbers
 * anew. Doing it again changes nothing more.
 */
export async function* erasingSteps(
  folder: string,
  people: readonly Forgotten[],
  run: string,
): AsyncGenerator<string> {
  const snapshotFile = new SnapshotFile(join(folder, SNAPSHOT_NAME));
  const read = await snapshotFile.read();
  if (!read) return;
  const { snapshot } = read;
  for (const name of await readdir(folder)) {
    const from = segmentFrom(name);
    if (from === null) continue;
    const { batches } = await readSegment(join(folder, name), snapshot.journal);
    await beginSegment(folder, snapshot.journal, from, withoutAll(batches, people));
    yield name;
  }
  await snapshotFile.write({ ...withoutAll(snapshot, people), run });
  yield SNAPSHOT_NAME;
  const days = join(folder, DAYS_FOLDER);
  for (const name of await dayNames(days)) {
    const day = dayFrom(await readFile(join(days, name), 'utf8'));
    // What cannot be read cannot be cleared of anybody.
    if (day === 'damaged') await unlink(join(days, name));
    else await writeWhole(join(days, name), seal(withoutAll(day, people)));
    yield name;
  }
  yield* removeIn(folder, COPIES);
  yield* removeIn(days, LEFT_OVER);
}

async function* removeIn(folder: string, names: RegExp): AsyncGenerator<string> {
  for (const name of await namesIn(folder)) {
    if (!names.test(name)) continue;
    await rm(join(folder, name), { recursive: true });
    yield name;
  }
}
