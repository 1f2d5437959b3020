/** What is held of a person is given out, and they are erased only by their name and when nobody needs them today. */
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { withRecords } from '#core/barn/tables.ts';
import { EraseAnswer } from '#core/wire/people.ts';
import { openHub, type Hub } from '../../hub/main.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { tempFolder } from './hubProcess.ts';

const small = smallBoard();
const quill = {
  table: 'riders',
  record: { ...small.barn.riders[Object.keys(small.barn.riders)[0]!]!, id: 'zq1', callName: 'Zebedee' },
} as const;
const first = { ...small, barn: withRecords(small.barn, [quill], []) };

let folder: string;
let remove: () => Promise<void>;
let hub: Hub;
const open = (): Promise<Hub> =>
  openHub({ open: true, port: 0, host: '127.0.0.1', folder, clock: () => NOON, first, log: () => {} });

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

const at = (path: string): string => `http://127.0.0.1:${hub.port}/people/${path}`;
const erase = async (path: string, confirm: string): Promise<EraseAnswer> => {
  const body = JSON.stringify({ by: null, confirm });
  return EraseAnswer.parse(await (await fetch(at(path), { method: 'DELETE', body })).json());
};
const bytes = async (): Promise<string> => {
  const files = (await readdir(folder, { recursive: true, withFileTypes: true })).filter((one) =>
    one.isFile(),
  );
  const texts = await Promise.all(files.map((one) => readFile(join(one.parentPath, one.name), 'latin1')));
  return texts.join('\n');
};

test('all that is held of a person, as one file', async () => {
  const answer = await fetch(at('riders/zq1'));
  expect(await answer.json()).toMatchObject({ record: { callName: 'Zebedee' }, days: [] });
  expect((await fetch(at('riders/nobody'))).status).toBe(404);
  expect((await fetch(at('horses/fern'))).status).toBe(404);
});

test('by name, at once off the board, and with the next start out of every file', async () => {
  expect(await erase('riders/zq1', 'Zeb')).toEqual({ erased: false, why: 'otherName' });
  expect(await erase('riders/zq1', 'Zebedee')).toEqual({ erased: true, filesAt: 'nextStart' });
  expect((await fetch(at('riders/zq1'))).status).toBe(404);
  await hub.close();
  expect(await bytes()).toContain('Zebedee');
  hub = await open();
  expect(await bytes()).not.toMatch(/zebedee|zq1/i);
});

test('who is in a lesson of today stays', async () => {
  const place = Object.values(small.day.lessons)
    .flatMap((lesson) => lesson.places)
    .find(({ rider }) => rider !== null)!;
  const { callName } = small.barn.riders[place.rider!]!;
  expect(await erase(`riders/${place.rider}`, callName)).toEqual({ erased: false, why: 'onToday' });
  await hub.close();
  expect(await bytes()).toContain(callName);
  hub = await open();
});
