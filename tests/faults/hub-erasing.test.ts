/**
 * A person erased is in no byte of the hub's folder, whatever moment the power goes at, and what was done stays counted.
 * The rules are the project's own: common practice, no source.
 */
import { cp, mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { withRecords } from '#core/barn/tables.ts';
import type { Board } from '#core/day/board.ts';
import { namesOf, withoutPeople, withoutPerson, type Forgotten } from '#core/day/forget.ts';
import type { Entry, OpFact } from '#core/day/ops.ts';
import { Sequence } from '#core/day/sequence.ts';
import { openDiskStorage } from '../../hub/storage/disk.ts';
import { erasingSteps } from '../../hub/storage/erasing.ts';
import { dayFrom, keptDay } from '../../hub/storage/keptDay.ts';
import { forgetOldDays } from '../../hub/storage/retention.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { filesWith } from './filesWith.ts';
import { tempFolder } from './hubProcess.ts';

const NAME = 'Zebedee Quill';
const PERSON: Forgotten = { id: 'zebedee7', as: 'gone-abc', names: [NAME, 'Zebedee'] };

const small = smallBoard();
const zebedee = {
  table: 'volunteers',
  record: { ...small.barn.volunteers['ada']!, id: PERSON.id, name: NAME },
} as const;
const board: Board = { ...small, barn: withRecords(small.barn, [zebedee], []) };

const FACTS: readonly OpFact[] = [
  { kind: 'recordSaved', saved: zebedee },
  { kind: 'recordsImported', name: 'people.csv', put: [zebedee], gone: [] },
  { kind: 'volunteerArrived', volunteer: PERSON.id },
  { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] },
  { kind: 'horsePulled', horse: 'moss', why: 'zebedee saw it limp', hold: 'today' },
];
const entries: Entry[] = FACTS.map((fact, i) => ({
  seq: i + 1,
  at: NOON + i,
  id: `op${i + 1}`,
  device: 'd1',
  by: PERSON.id,
  tappedAt: NOON,
  facts: [fact],
  why: null,
}));

/** The board as it stands after `state` and its entries. */
const boardOf = (opened: {
  state: ConstructorParameters<typeof Sequence>[0];
  entries: readonly Entry[];
}): Board => {
  const sequence = new Sequence(opened.state);
  for (const entry of opened.entries) sequence.replay(entry);
  return sequence.state.board;
};

let folder: string;
let remove: () => Promise<void>;

beforeEach(async () => {
  const temp = await tempFolder();
  folder = join(temp.path, 'barn');
  remove = temp.remove;
  const storage = await openDiskStorage(folder, { board, journal: 'j1' }, NOON);
  await storage.append(entries.slice(0, 3));
  await storage.snapshot(
    {
      board: boardOf({ state: storage.opened.state, entries: entries.slice(0, 3) }),
      seq: 3,
      at: NOON,
      seen: [],
    },
    1,
  );
  await storage.append(entries.slice(3));
  const day = { ...board.day, date: '2026-05-10' };
  await storage.keepDay(keptDay({ day, from: 1, to: 5, rules: board.barn.rules }, entries));
  await storage.close();
  // Copies an upgrade and a cut-off tail have left.
  await mkdir(join(folder, 'version-1'));
  await writeFile(join(folder, 'version-1', 'snapshot.json'), NAME);
  await writeFile(join(folder, 'torn-2026.log'), NAME);
});
afterEach(() => remove());

const erased = async (at: string): Promise<Board> => {
  const running = await openDiskStorage(at, { board, journal: 'j9' }, NOON);
  await running.erase([PERSON], 'j2');
  // Another name for the run: no tablet goes on from what it has.
  expect(running.opened.journal).toBe('j2');
  await running.close();
  const storage = await openDiskStorage(at, { board, journal: 'j9' }, NOON);
  expect(storage.opened.journal).toBe('j2');
  const found = boardOf(storage.opened);
  const { days, damaged } = await storage.days(9);
  expect([days.length, damaged]).toEqual([1, []]);
  expect(days[0]?.entries).toHaveLength(5);
  await storage.close();
  return found;
};

describe('a person erased', () => {
  test('is in no byte of the folder, and everything else stands', async () => {
    expect((await filesWith(folder, NAME)).length).toBeGreaterThan(3);
    const before = boardOf({ state: { board, seq: 0, at: 0, seen: [] }, entries });
    const after = await erased(folder);
    expect(await filesWith(folder, 'zebedee', 'quill')).toEqual([]);
    expect(after).toEqual(withoutPerson(before, PERSON));
    // The work stays counted, under an id that is nobody's.
    const marks = (one: Board): number =>
      Object.values(one.day.preps).flatMap((prep) => prep.marks.feet).length;
    expect(marks(after)).toBe(marks(before));
    expect(JSON.stringify(after)).toContain('"by":"gone-abc"');
    expect(after.barn.volunteers[PERSON.id]).toBeUndefined();
    expect(after.barn.horses).toEqual(withoutPerson(before.barn.horses, PERSON));
  });

  test('a power cut after any step: the folder opens, and being asked again does the rest', async () => {
    const whole = `${folder}-whole`;
    await cp(folder, whole, { recursive: true });
    const expected = await erased(whole);
    let isDone = false;
    for (let cut = 0; !isDone; cut += 1) {
      const at = `${folder}-${cut}`;
      await cp(folder, at, { recursive: true });
      const steps = erasingSteps(at, [PERSON], 'j9');
      for (let i = 0; i < cut; i += 1) isDone = (await steps.next()).done ?? false;
      if (isDone) break;
      await steps.return(undefined);
      expect(await erased(at)).toEqual(expected);
      expect(await filesWith(at, 'zebedee', 'quill')).toEqual([]);
    }
    expect(isDone).toBe(true);
  });
});

test('a name somebody else bears too is not taken out of anybody’s words', () => {
  const horse = { ...board.barn.horses['fern']!, name: 'Zebedee' };
  const barn = withRecords(board.barn, [{ table: 'horses', record: horse }], []);
  expect(namesOf(board.barn, 'volunteers', PERSON.id)).toEqual([NAME, 'Zebedee']);
  expect(namesOf(barn, 'volunteers', PERSON.id)).toEqual([NAME]);
});

test('days older than the barn keeps them lose their people and keep their counts; younger ones do not change', async () => {
  const days = join(folder, 'days');
  const path = join(days, '2026-05-10.json');
  const text = await readFile(path, 'utf8');
  expect(await forgetOldDays(days, '2027-06-14', 400)).toEqual([]);
  expect(await readFile(path, 'utf8')).toBe(text);
  expect(await forgetOldDays(days, '2027-06-15', 400)).toEqual(['2026-05-10.json']);
  expect(await filesWith(days, PERSON.id, 'zebedee', 'quill', '"ada"')).toEqual([]);
  const kept = dayFrom(await readFile(path, 'utf8'));
  expect(kept !== 'damaged' && kept.entries.map(({ seq }) => seq)).toEqual([1, 2, 3, 4, 5]);
  expect(kept !== 'damaged' && Object.keys(kept.day.lessons)).toEqual(Object.keys(board.day.lessons));
  // Done once.
  expect(await forgetOldDays(days, '2027-06-16', 400)).toEqual([]);
  expect(withoutPeople(kept)).toEqual(kept);
});
