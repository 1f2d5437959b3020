/** A file of records reaches the disk whole or not at all, before it is answered, and can be taken back as one. */
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { TableRecord } from '#core/barn/barn.ts';
import type { Board } from '#core/day/board.ts';
import { IMPORT_BYTES, ImportStep } from '#core/wire/imports.ts';
import { openHub, type Hub } from '../../hub/main.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { Client } from './client.ts';
import { tempFolder } from './hubProcess.ts';

let folder: string;
let remove: () => Promise<void>;
let hub: Hub;

const open = async (): Promise<Hub> =>
  openHub({
    port: 0,
    host: '127.0.0.1',
    folder,
    clock: () => NOON,
    first: smallBoard(),
    open: true,
    log: () => {},
  });

beforeEach(async () => {
  const temp = await tempFolder();
  folder = join(temp.path, 'barn');
  remove = temp.remove;
  hub = await open();
});
afterEach(async () => {
  await hub.close();
  await remove();
});

const post = async (body: string): Promise<ImportStep[]> => {
  const answer = await fetch(`http://127.0.0.1:${hub.port}/imported`, { method: 'POST', body });
  const text = await answer.text();
  return text
    .trim()
    .split('\n')
    .map((line) => ImportStep.parse(JSON.parse(line)));
};

const board = async (): Promise<Board> => {
  const { client, welcome } = await Client.join(hub.port, { role: 'coordinator' });
  client.close();
  return welcome.board!;
};

const lessons = (count: number): TableRecord[] =>
  Array.from({ length: count }, (_, i) => ({
    table: 'planned',
    record: {
      id: `lesson${i}`,
      name: `Lesson ${i}`,
      date: '2026-06-01',
      time: '10:00',
      minutes: 45,
      arena: null,
      instructor: null,
      places: [],
    },
  }));

const body = (id: string, put: unknown, gone: unknown = []): string =>
  JSON.stringify({ id, by: null, fact: { kind: 'recordsImported', name: 'lessons.csv', put, gone } });

test('2,000 lessons are one entry, there after a restart, and taken back as one', async () => {
  const before = await board();
  const put = lessons(2000);
  const steps = await post(body('import1', put));
  expect(steps.filter(({ step }) => step !== 'received')).toEqual([
    { step: 'checked', records: 2000 },
    { step: 'written', seq: expect.any(Number) as number },
  ]);
  // Sent again, as after a lost answer: answered as the first time.
  expect((await post(body('import1', put))).at(-1)).toEqual(steps.at(-1));
  await hub.close();
  hub = await open();
  expect(Object.keys((await board()).barn.book.planned)).toHaveLength(2000);
  const gone = put.map(({ table, record }) => ({ table, id: record.id }));
  expect((await post(body('import2', [], gone))).at(-1)?.step).toBe('written');
  expect((await board()).barn).toEqual(before.barn);
});

test('one record that is none keeps all of it out', async () => {
  const before = await board();
  const broken = [...lessons(3), { table: 'planned', record: { id: 'x', name: 'X' } }];
  expect((await post(body('import1', broken))).at(-1)).toEqual({
    step: 'refused',
    code: 'malformed',
    why: null,
  });
  expect(await board()).toEqual(before);
});

test('what is still used today is not taken away, nor anything else of that file', async () => {
  const before = await board();
  const steps = await post(body('import1', lessons(1), [{ table: 'horses', id: 'fern' }]));
  expect(steps.at(-1)).toEqual({ step: 'refused', code: 'declined', why: { code: 'stillUsed' } });
  expect((await board()).barn).toEqual(before.barn);
});

test('a body that is too long is not read to its end', async () => {
  expect(
    (await post('x'.repeat(IMPORT_BYTES + 1)).catch(() => [])).at(-1) ?? { step: 'refused' },
  ).toMatchObject({
    step: 'refused',
  });
});
