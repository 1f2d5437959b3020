/**
 * A folder with anything wrong in it: cut at every byte, and with every bit of it turned, one at a time. A hub either starts
 * with the board of an intact beginning, and says and keeps what it cut off, or refuses and changes nothing.
 */
import { cp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Board } from '#core/day/board.ts';
import type { Entry, OpFact } from '#core/day/ops.ts';
import { Sequence } from '#core/day/sequence.ts';
import { StartError } from '../../hub/startError.ts';
import { openDiskStorage, SNAPSHOT_NAME } from '../../hub/storage/disk.ts';
import { readFolder, type Found } from '../../hub/storage/load.ts';
import { readLines } from '../../hub/storage/line.ts';
import type { Opened } from '../../hub/storage/storage.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { tempFolder } from './hubProcess.ts';

const FIRST = { board: smallBoard(), journal: 'j1' };

/** Another start has another name at hand. */
const AGAIN = { ...FIRST, journal: 'j2' };

const FACTS: readonly OpFact[][] = [
  [{ kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] }],
  [
    { kind: 'horsePulled', horse: 'moss', why: 'heat', hold: 'vet' },
    { kind: 'volunteerArrived', volunteer: 'cho' },
  ],
  [{ kind: 'stagesFinished', prep: 'fern.1', stages: ['coat'] }],
];

let folder: string;
let remove: () => Promise<void>;
/** Where each batch begins in the journal file, and where the last one ends. */
let starts: number[];
/** The board, and how many entries made it, after so many batches. */
let prefixes: { board: Board; seq: number }[];
let journal: string;
let whole: Buffer;

beforeEach(async () => {
  const temp = await tempFolder();
  folder = join(temp.path, 'barn');
  remove = temp.remove;
  const storage = await openDiskStorage(folder, FIRST, NOON);
  const sequence = new Sequence(storage.opened.state);
  journal = join(folder, 'journal-000000000001.log');
  starts = [];
  prefixes = [{ board: sequence.board, seq: 0 }];
  for (const [i, facts] of FACTS.entries()) {
    starts.push((await readFile(journal)).length);
    const batch = facts.flatMap((fact, k): Entry[] => {
      const op = { id: `op${i}-${k}`, device: 'd1', by: 'ines', tappedAt: NOON, fact };
      const { entry } = sequence.accept(op, 'coordinator', NOON + i);
      return entry ? [entry] : [];
    });
    await storage.append(batch);
    prefixes.push({ board: sequence.board, seq: sequence.seq });
  }
  await storage.close();
  whole = await readFile(journal);
  starts.push(whole.length);
});
afterEach(() => remove());

type Start = Pick<Opened, 'entries'> & { tornBytes: number };

const played = ({ entries }: Start): { board: Board; seq: number } => {
  const sequence = new Sequence({ board: FIRST.board, seq: 0, at: 0, seen: [] });
  for (const entry of entries) sequence.replay(entry);
  return { board: sequence.board, seq: sequence.seq };
};

const asStart = (found: Found | null): Start => {
  if (!found) throw new Error('nothing there');
  return { entries: found.entries, tornBytes: found.torn?.tail.bytes ?? 0 };
};

/** What a start makes of the folder as it is: nothing is changed by looking. */
const look = async (): Promise<Start | StartError> => {
  try {
    return asStart(await readFolder(folder, NOON));
  } catch (error) {
    if (error instanceof StartError) return error;
    throw error;
  }
};

const why = (start: Start | StartError): string =>
  start instanceof StartError ? start.message : 'it starts';

/** Batches that are whole in the first `size` bytes, and whether the last of those bytes ends one. */
const batchesIn = (size: number): number => starts.filter((start) => start <= size).length - 1;

describe('a journal cut', () => {
  test('at any byte starts with all whole batches before it, and says how much was cut off; inside its first line it refuses', async () => {
    for (let size = 0; size < whole.length; size += 1) {
      const bytes = whole.subarray(0, size);
      const batches = batchesIn(size);
      const { lines, damage } = readLines(bytes);
      expect(lines).toHaveLength(batches + 1);
      const isBetween = size === 0 || size === starts[batches];
      expect(damage).toEqual(isBetween ? null : { atByte: batches < 0 ? 0 : starts[batches], tail: true });
      // The lines at every byte, the whole folder at every third: the board in it is read slowly.
      if (size % 3 > 0) continue;
      await writeFile(journal, bytes);
      const start = await look();
      if (batches < 0) {
        expect(why(start)).toContain(`${journal} is damaged at byte 0.`);
        expect(start).toBeInstanceOf(StartError);
      } else {
        expect(start).toMatchObject({ tornBytes: size - starts[batches]! });
        expect(played(start as Start)).toEqual(prefixes[batches]);
      }
    }
  });

  test('keeps what was cut off, goes on under a new name for its numbers, and is in order at the next start', async () => {
    // The first, a middle and the last byte of each batch, and none of it: a cut between two batches leaves no trace.
    const sizes = FACTS.flatMap((_, i) => {
      const [from, to] = [starts[i]!, starts[i + 1]!];
      return [from, from + 1, Math.floor((from + to) / 2), to - 1];
    });
    const intact = join(folder, '..', 'intact');
    await cp(folder, intact, { recursive: true });
    for (const size of sizes) {
      await cp(intact, folder, { recursive: true, force: true });
      await writeFile(journal, whole.subarray(0, size));
      const batches = batchesIn(size);
      const torn = size - starts[batches]!;
      const storage = await openDiskStorage(folder, AGAIN, NOON + size);
      const { opened } = storage;
      expect(played({ entries: opened.entries, tornBytes: 0 })).toEqual(prefixes[batches]);
      expect(opened.journal).toBe(torn > 0 ? 'j2' : 'j1');
      if (torn > 0) {
        expect(opened.torn).toMatchObject({ atByte: starts[batches], bytes: torn });
        const kept = await readFile(join(folder, opened.torn?.keptAs ?? ''));
        expect(kept.equals(whole.subarray(starts[batches], size))).toBe(true);
      } else expect(opened.torn).toBeNull();
      await storage.close();
      const again = await openDiskStorage(folder, { ...FIRST, journal: 'j3' }, NOON);
      expect(again.opened.torn).toBeNull();
      expect(again.opened.journal).toBe(opened.journal);
      expect(played({ entries: again.opened.entries, tornBytes: 0 })).toEqual(prefixes[batches]);
      await again.close();
    }
  });
});

test('any bit of the journal turned: refused with file and byte, or, in its last batch, cut off and said', async () => {
  for (let at = 0; at < whole.length; at += 1) {
    const batch = batchesIn(at);
    const isLast = batch === FACTS.length - 1;
    const from = batch < 0 ? 0 : starts[batch]!;
    for (let bit = 0; bit < 8; bit += 1) {
      const bytes = Buffer.from(whole);
      bytes[at]! ^= 1 << bit;
      const { lines, damage } = readLines(bytes);
      expect(lines).toHaveLength(batch + 1);
      expect(damage).toEqual({ atByte: from, tail: isLast });
      // Every bit of the lines; the whole folder for one bit of every third byte.
      if (bit !== at % 8 || at % 3 > 0) continue;
      await writeFile(journal, bytes);
      const start = await look();
      if (isLast) {
        expect(start).toMatchObject({ tornBytes: whole.length - from });
        expect(played(start as Start)).toEqual(prefixes[batch]);
      } else {
        expect(start).toBeInstanceOf(StartError);
        expect(why(start)).toContain(
          `${journal} is damaged at byte ${from}. Put the folder back from a backup`,
        );
      }
    }
  }
});

test('a bit of the snapshot turned, or all after it cut off: refused with the file', async () => {
  const path = join(folder, SNAPSHOT_NAME);
  const snapshot = await readFile(path);
  // Every thirteenth byte, another bit each time.
  for (let at = 0; at < snapshot.length; at += 13) {
    const bytes = Buffer.from(snapshot);
    bytes[at]! ^= 1 << (at % 8);
    await writeFile(path, bytes);
    const start = await look();
    expect(start, `byte ${at}`).toBeInstanceOf(StartError);
    expect(why(start)).toContain(path);
    await writeFile(path, snapshot.subarray(0, at));
    expect(await look()).toBeInstanceOf(StartError);
  }
});

test('a missing file is missed', async () => {
  const storage = await openDiskStorage(folder, FIRST, NOON);
  const sequence = new Sequence(storage.opened.state);
  for (const entry of storage.opened.entries) sequence.replay(entry);
  await storage.snapshot(sequence.state, 1);
  const op = { id: 'x', device: 'd1', by: 'ines', tappedAt: NOON, fact: FACTS[0]![0]! };
  await storage.append([sequence.accept(op, 'coordinator', NOON).entry!]);
  await storage.close();
  const names = (await readdir(folder)).filter((name) => name.startsWith('journal-')).sort();
  expect(names).toEqual(['journal-000000000001.log', 'journal-000000000005.log']);
  const last = await readFile(join(folder, names[1]!));
  await rm(join(folder, names[1]!));
  expect(why(await look())).toContain('record 5 is missing');
  await rm(join(folder, names[0]!));
  expect(why(await look())).toContain('record 5 is missing');
  await writeFile(join(folder, names[1]!), last);
  expect(asStart(await readFolder(folder, NOON)).entries.map(({ seq }) => seq)).toEqual([5]);
});
