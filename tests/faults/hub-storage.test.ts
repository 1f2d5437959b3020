/**
 * What every storage must do, run on memory and disk alike; then what only a disk can suffer. Crashes between two steps
 * are made by putting the files into the state such a crash leaves.
 */
import { copyFile, mkdir, readdir, readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Entry } from '#core/day/ops.ts';
import { Sequence, type SequenceState } from '#core/day/sequence.ts';
import { toLine } from '../../hub/storage/line.ts';
import { openDiskStorage, SNAPSHOT_NAME } from '../../hub/storage/disk.ts';
import { Memory, openMemoryStorage } from '../../hub/storage/memory.ts';
import type { Storage } from '../../hub/storage/storage.ts';
import { DATA_VERSION } from '../../hub/storage/version.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { tempFolder } from './hubProcess.ts';

/** Of a program to come. */
const NEWER = DATA_VERSION + 1;
const FIRST = { board: smallBoard(), journal: 'j1' };

let folder: string;
let remove: () => Promise<void>;

beforeEach(async () => {
  const temp = await tempFolder();
  folder = join(temp.path, 'barn');
  remove = temp.remove;
});
afterEach(() => remove());

const entry = (seq: number): Entry => ({
  seq,
  at: NOON + seq,
  id: `op${seq}`,
  device: 'd1',
  by: 'ada',
  tappedAt: NOON,
  facts: [{ kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] }],
  why: null,
});

const entries = (from: number, to: number): Entry[] =>
  Array.from({ length: to - from + 1 }, (_, i) => entry(from + i));

/** The state after entries 1 … seq. */
function stateAt(seq: number): SequenceState {
  const sequence = new Sequence({ board: FIRST.board, seq: 0, at: 0, seen: [] });
  for (const one of entries(1, seq)) sequence.replay(one);
  return sequence.state;
}

const seqs = (storage: Storage): number[] => storage.opened.entries.map((one) => one.seq);

const openDisk = (): Promise<Storage> => openDiskStorage(folder, FIRST, NOON);

describe.each([
  [
    'memory',
    () => {
      const memory = new Memory();
      return async () => openMemoryStorage(memory, FIRST);
    },
  ],
  ['disk', () => openDisk],
] as const)('storage in %s', (_name, medium) => {
  let open: () => Promise<Storage>;
  beforeEach(() => {
    open = medium();
  });

  test('begins with the board it is given, and keeps that beginning', async () => {
    const storage = await open();
    expect(storage.opened).toMatchObject({ journal: 'j1', entries: [], torn: null });
    expect(storage.opened.state).toEqual({ board: FIRST.board, seq: 0, at: 0, seen: [] });
    await storage.close();
    const again = await open();
    expect(again.opened.state.board).toEqual(FIRST.board);
    await again.close();
  });

  test('gives back what was appended, in order and equal', async () => {
    const storage = await open();
    await storage.append(entries(1, 3));
    await storage.append([]);
    await Promise.all([storage.append(entries(4, 4)), storage.append(entries(5, 9))]);
    await storage.close();
    const again = await open();
    expect(again.opened.entries).toEqual(entries(1, 9));
    await again.close();
  });

  test('gives back only what came after the snapshot', async () => {
    const storage = await open();
    await storage.append(entries(1, 5));
    await storage.snapshot(stateAt(5), null);
    await storage.append(entries(6, 7));
    await storage.close();
    const again = await open();
    expect(again.opened.state).toEqual(stateAt(5));
    expect(seqs(again)).toEqual([6, 7]);
    await again.close();
  });

  test('takes a snapshot with nothing after it, also twice', async () => {
    const storage = await open();
    await storage.append(entries(1, 6));
    await storage.snapshot(stateAt(6), null);
    await storage.close();
    const again = await open();
    expect(again.opened.state.seq).toBe(6);
    expect(seqs(again)).toEqual([]);
    await again.snapshot(stateAt(6), null);
    await again.close();
    const third = await open();
    expect(seqs(third)).toEqual([]);
    await third.append(entries(7, 7));
    await third.close();
    const fourth = await open();
    expect(seqs(fourth)).toEqual([7]);
    await fourth.close();
  });

  test('takes a snapshot that lies behind the journal, and keeps all that came after it', async () => {
    const storage = await open();
    await storage.append(entries(1, 5));
    await storage.snapshot(stateAt(4), null);
    await storage.append(entries(6, 6));
    await storage.close();
    const again = await open();
    expect(again.opened.state.seq).toBe(4);
    expect(seqs(again)).toEqual([5, 6]);
    await again.close();
  });

  test('erases a person everywhere, and takes appends while it does', async () => {
    const storage = await open();
    await storage.append(entries(1, 3));
    await storage.snapshot(stateAt(3), 1);
    await storage.append(entries(4, 5));
    const under = storage.erase([{ id: 'ada', as: 'gone-1', names: ['ada'] }], 'j2');
    await storage.append([{ ...entry(6), by: 'ben' }]);
    await under;
    expect(storage.opened.journal).toBe('j2');
    await storage.append([{ ...entry(7), by: 'ben' }]);
    await storage.close();
    const again = await open();
    expect(again.opened.journal).toBe('j2');
    expect(again.opened.entries.map(({ seq, by }) => [seq, by])).toEqual([
      [4, 'gone-1'],
      [5, 'gone-1'],
      [6, 'ben'],
      [7, 'ben'],
    ]);
    expect((await again.entries(1, 7)).map(({ seq }) => seq)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(JSON.stringify([again.opened, await again.entries(1, 7)])).not.toContain('"ada"');
    await again.close();
  });

  test('takes appends while a snapshot is under way', async () => {
    const storage = await open();
    await storage.append(entries(1, 3));
    const under = storage.snapshot(stateAt(3), null);
    await storage.append(entries(4, 5));
    await under;
    await storage.append(entries(6, 6));
    await storage.close();
    const again = await open();
    expect(again.opened.state.seq).toBe(3);
    expect(seqs(again)).toEqual([4, 5, 6]);
    await again.close();
  });
});

describe('a disk', () => {
  const journals = async (): Promise<string[]> =>
    (await readdir(folder)).filter((name) => name.startsWith('journal-')).sort();
  const lastJournal = async (): Promise<string> => join(folder, (await journals()).at(-1) ?? '');
  const written = async (...batches: Entry[][]): Promise<void> => {
    const storage = await openDisk();
    for (const batch of batches) await storage.append(batch);
    await storage.close();
  };
  /** Everything in the folder, to see that a refusal has changed nothing. */
  const contents = async (): Promise<Record<string, string>> =>
    Object.fromEntries(
      await Promise.all(
        (await readdir(folder))
          .sort()
          .map(async (name) => [name, await readFile(join(folder, name), 'base64')] as const),
      ),
    );

  test('cut anywhere in its last batch has all batches before it, and says and keeps what was cut', async () => {
    await written(entries(1, 3), entries(4, 6));
    const path = await lastJournal();
    const whole = await readFile(path);
    const last = toLine(entries(4, 6));
    const start = whole.length - last.length;
    for (const extra of [1, 5, 17, 18, 40, last.length - 2, last.length - 1]) {
      await writeFile(path, whole.subarray(0, start + extra));
      const storage = await openDisk();
      expect(seqs(storage)).toEqual([1, 2, 3]);
      expect(storage.opened.torn).toMatchObject({ atByte: start, bytes: extra });
      const kept = await readFile(join(folder, storage.opened.torn?.keptAs ?? ''));
      expect(kept.equals(whole.subarray(start, start + extra))).toBe(true);
      expect((await stat(path)).size).toBe(start);
      await storage.append(entries(4, 4));
      await storage.close();
      const again = await openDisk();
      expect(seqs(again)).toEqual([1, 2, 3, 4]);
      expect(again.opened.torn).toBeNull();
      await again.close();
    }
  });

  test('with a changed byte before its end refuses, names file and byte, and changes nothing', async () => {
    await written(entries(1, 3), entries(4, 6), entries(7, 9));
    const path = await lastJournal();
    const bytes = await readFile(path);
    const lengths = [entries(1, 3), entries(4, 6), entries(7, 9)].map((batch) => toLine(batch).length);
    const head = bytes.length - lengths.reduce((a, b) => a + b, 0);
    const middle = head + (lengths[0] ?? 0);
    bytes[middle + 60]! ^= 1;
    await writeFile(path, bytes);
    const before = await contents();
    await expect(openDisk()).rejects.toThrow(`${path} is damaged at byte ${middle}`);
    expect(await contents()).toEqual(before);
  });

  test('with a batch missing from the middle refuses', async () => {
    await written(entries(1, 3), entries(4, 6), entries(7, 9));
    const path = await lastJournal();
    const bytes = await readFile(path);
    const gone = toLine(entries(4, 6));
    const at = bytes.indexOf(gone);
    await writeFile(path, Buffer.concat([bytes.subarray(0, at), bytes.subarray(at + gone.length)]));
    await expect(openDisk()).rejects.toThrow('record 4 is missing');
  });

  test('after a crash between new journal and snapshot has everything', async () => {
    const storage = await openDisk();
    await storage.append(entries(1, 5));
    await copyFile(join(folder, SNAPSHOT_NAME), join(folder, 'older'));
    await copyFile(await lastJournal(), join(folder, 'journal-kept'));
    await storage.snapshot(stateAt(5), null);
    await storage.append(entries(6, 7));
    await storage.close();
    // The snapshot was not written yet, so the old files are both still there.
    await copyFile(join(folder, 'older'), join(folder, SNAPSHOT_NAME));
    await copyFile(join(folder, 'journal-kept'), join(folder, 'journal-000000000001.log'));
    const again = await openDisk();
    expect(again.opened.state.seq).toBe(0);
    expect(seqs(again)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    await again.close();
  });

  test('after a crash between snapshot and the end of the old journal skips what the snapshot has', async () => {
    const storage = await openDisk();
    await storage.append(entries(1, 5));
    await copyFile(await lastJournal(), join(folder, 'kept'));
    await storage.snapshot(stateAt(5), null);
    await storage.append(entries(6, 7));
    await storage.close();
    await copyFile(join(folder, 'kept'), join(folder, 'journal-000000000001.log'));
    const again = await openDisk();
    expect(again.opened.state.seq).toBe(5);
    expect(seqs(again)).toEqual([6, 7]);
    await again.snapshot(stateAt(7), null);
    expect(await journals()).toEqual(['journal-000000000008.log']);
    await again.close();
  });

  test('with a half-written snapshot beside the whole one uses the whole one', async () => {
    await written(entries(1, 2));
    await writeFile(join(folder, `${SNAPSHOT_NAME}.new`), '{"version":1,"jour');
    const again = await openDisk();
    expect(seqs(again)).toEqual([1, 2]);
    await again.close();
  });

  test('keeps its old snapshot rather than write one that could not be read back', async () => {
    const storage = await openDisk();
    await storage.append(entries(1, 2));
    const { board, ...rest } = stateAt(2);
    const broken = { ...board, barn: { ...board.barn, zone: 'Nowhere/At all' } };
    await expect(storage.snapshot({ ...rest, board: broken }, null)).rejects.toThrow();
    await storage.append(entries(3, 3));
    await storage.close();
    const again = await openDisk();
    expect(again.opened.state.seq).toBe(0);
    expect(seqs(again)).toEqual([1, 2, 3]);
    await again.close();
  });

  test('keeps only what is needed after many snapshots', async () => {
    const storage = await openDisk();
    for (let seq = 1; seq <= 20; seq += 1) {
      await storage.append(entries(seq, seq));
      await storage.snapshot(stateAt(seq), null);
    }
    expect(await journals()).toEqual(['journal-000000000021.log']);
    await storage.close();
  });

  test.each([
    [
      'snapshot',
      async () => {
        const path = join(folder, SNAPSHOT_NAME);
        await writeFile(
          path,
          (await readFile(path, 'utf8')).replace(`"version":${DATA_VERSION}`, `"version":${NEWER}`),
        );
      },
    ],
    [
      'journal',
      async () => {
        await writeFile(await lastJournal(), toLine({ version: NEWER, journal: 'j1', from: 1, more: true }));
      },
    ],
  ])('with a newer %s refuses in one sentence and changes nothing', async (_what, change) => {
    await written(entries(1, 2));
    await change();
    const before = await contents();
    await expect(openDisk()).rejects.toThrow(/newer Aisle Board \(data version \d+/);
    expect(await contents()).toEqual(before);
  });

  test.each([
    [
      'a damaged snapshot',
      async () => writeFile(join(folder, SNAPSHOT_NAME), '{"version":1,"board":'),
      'damaged',
    ],
    [
      'a snapshot that is no board',
      async () =>
        writeFile(
          join(folder, SNAPSHOT_NAME),
          '{"version":1,"journal":"j1","seq":0,"at":0,"board":{},"seen":[]}',
        ),
      'damaged',
    ],
    [
      'a journal of other records',
      async () => writeFile(await lastJournal(), toLine({ version: 1, journal: 'j2', from: 1 })),
      'other records',
    ],
  ])('with %s refuses and changes nothing', async (_what, change, words) => {
    await written(entries(1, 2));
    await change();
    const before = await contents();
    await expect(openDisk()).rejects.toThrow(words);
    expect(await contents()).toEqual(before);
  });

  test('with a journal but no snapshot refuses', async () => {
    await mkdir(folder);
    await writeFile(join(folder, 'journal-000000000001.log'), toLine({ version: 1, journal: 'j1', from: 1 }));
    await expect(openDisk()).rejects.toThrow('is missing');
  });

  test('in use refuses a second hub, and takes one when the first has gone', async () => {
    const one = await openDisk();
    await expect(openDisk()).rejects.toThrow('Another hub is already running');
    await one.append(entries(1, 1));
    await one.close();
    const two = await openDisk();
    expect(seqs(two)).toEqual([1]);
    await two.close();
  });

  test('is for its owner’s eyes only', async () => {
    await written(entries(1, 2));
    for (const name of [SNAPSHOT_NAME, ...(await journals())]) {
      expect((await stat(join(folder, name))).mode & 0o077).toBe(0);
    }
    expect((await stat(folder)).mode & 0o077).toBe(0);
  });

  test('whose folder cannot be made says so in one sentence', async () => {
    await writeFile(folder, 'a file where the folder should be');
    await expect(openDisk()).rejects.toThrow(/cannot be written \((EEXIST|ENOTDIR)\)/);
  });
});
