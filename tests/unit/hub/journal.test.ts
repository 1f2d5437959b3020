/** The journal's files when something fails halfway: nothing that was half done may stand in the way of what comes after. */
import { mkdir, mkdtemp, readdir, readFile, rm, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Entry } from '#core/day/ops.ts';
import { Journal } from '../../../hub/storage/journal.ts';
import { beginSegment, cutTo, segmentName } from '../../../hub/storage/segment.ts';
import { NOON } from '../../properties/day-arbitraries.ts';

let folder: string;
let journal: Journal;

const entry = (seq: number): Entry => ({
  seq,
  at: NOON,
  id: `op${seq}`,
  device: 'd1',
  by: null,
  tappedAt: NOON,
  facts: [],
  why: { code: 'nothingToUndo' },
});
const seqs = async (): Promise<number[]> => (await journal.entries(1, 99)).map(({ seq }) => seq);
const names = async (): Promise<string[]> => (await readdir(folder)).sort();

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'aisle-board-'));
  await beginSegment(folder, 'j1', 1);
  journal = new Journal({ folder, name: 'j1', segments: [1], lastSeq: 0 });
  await journal.open([]);
  await journal.append([entry(1), entry(2)]);
});
afterEach(async () => {
  await journal.close();
  await rm(folder, { recursive: true });
});

test('a new file that cannot be begun stops the journal until it is mended, and leaves nothing behind', async () => {
  // A folder where the temp file should be: a failure that goes away, as root meets it too.
  const way = join(folder, `${segmentName(3)}.new`);
  await mkdir(way);
  await expect(journal.turnOver()).rejects.toThrow('EISDIR');
  await expect(journal.append([entry(3)])).rejects.toThrow('EISDIR');
  await rm(way, { recursive: true });
  await journal.mend();
  expect(await names()).toEqual([segmentName(1)]);
  await journal.append([entry(3)]);
  expect(await seqs()).toEqual([1, 2, 3]);
  await journal.turnOver();
  await journal.append([entry(4)]);
  expect(await names()).toEqual([segmentName(1), segmentName(4)]);
  expect(await seqs()).toEqual([1, 2, 3, 4]);
});

test('what was to be done first is tried again until it is done, in order', async () => {
  await journal.close();
  const done: string[] = [];
  let isFull = true;
  const again = new Journal({ folder, name: 'j1', segments: [1], lastSeq: 2 });
  const amends = [
    async () => void done.push('first'),
    async () => {
      if (isFull) throw new Error('full');
      done.push('second');
    },
  ];
  await expect(again.open(amends)).rejects.toThrow('full');
  await expect(again.append([entry(3)])).rejects.toThrow('full');
  await expect(again.mend()).rejects.toThrow('full');
  isFull = false;
  await again.mend();
  expect(done).toEqual(['first', 'second']);
  await again.append([entry(3)]);
  expect((await again.entries(1, 9)).map(({ seq }) => seq)).toEqual([1, 2, 3]);
  await again.close();
});

test('a file is cut back to what was written, and one that has lost some of it is left alone', async () => {
  const path = join(folder, segmentName(1));
  const whole = await readFile(path);
  await writeFile(path, Buffer.concat([whole, Buffer.from('000001f4 0badc0de [{')]));
  await cutTo(path, whole.length);
  expect((await readFile(path)).equals(whole)).toBe(true);
  await truncate(path, whole.length - 5);
  await expect(cutTo(path, whole.length)).rejects.toThrow(`has ${whole.length - 5} bytes`);
  expect((await readFile(path)).equals(whole.subarray(0, -5))).toBe(true);
});
