/** What is held of a person is given out, and they are erased only by their name and when nobody needs them today. */
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { withRecords } from '#core/barn/tables.ts';
import type { TableRecord } from '#core/barn/barn.ts';
import { EraseAnswer } from '#core/wire/people.ts';
import { openHub, type Hub } from '../../hub/main.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { op } from './client.ts';
import { tempFolder } from './hubProcess.ts';
import { ask, firstCoordinator } from './pairing.ts';
import { openClocked } from './security/barn.ts';

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
const bytesOf = async (of: string): Promise<string> => {
  const files = (await readdir(of, { recursive: true, withFileTypes: true })).filter((one) => one.isFile());
  const texts = await Promise.all(files.map((one) => readFile(join(one.parentPath, one.name), 'latin1')));
  return texts.join('\n');
};

test('all that is held of a person, as one file', async () => {
  const answer = await fetch(at('riders/zq1'));
  expect(await answer.json()).toMatchObject({ record: { callName: 'Zebedee' }, days: [] });
  const table = await fetch(at('riders/zq1?as=csv'));
  expect(table.headers.get('content-disposition')).toContain('zq1.csv');
  expect(await table.text()).toMatch(
    /^Part,Date,From,Until,What,Details\r\n(.*\r\n)*Record,,,,callName,Zebedee\r\n/,
  );
  expect((await fetch(at('riders/nobody'))).status).toBe(404);
  expect((await fetch(at('horses/fern'))).status).toBe(404);
});

test('by name, at once off the board and out of every file', async () => {
  expect(await erase('riders/zq1', 'Zeb')).toEqual({ erased: false, why: 'otherName' });
  expect(await erase('riders/zq1', 'Zebedee')).toEqual({ erased: true, filesAt: 'now' });
  expect((await fetch(at('riders/zq1'))).status).toBe(404);
  expect(await bytesOf(folder)).not.toMatch(/zebedee|zq1/i);
  await hub.close();
  expect(await bytesOf(folder)).not.toMatch(/zebedee|zq1/i);
  hub = await open();
  expect((await fetch(at('riders/zq1'))).status).toBe(404);
});

test('who is in a lesson of today stays', async () => {
  const place = Object.values(small.day.lessons)
    .flatMap((lesson) => lesson.places)
    .find(({ rider }) => rider !== null)!;
  const { callName } = small.barn.riders[place.rider!]!;
  expect(await erase(`riders/${place.rider}`, callName)).toEqual({ erased: false, why: 'onToday' });
  await hub.close();
  expect(await bytesOf(folder)).toContain(callName);
  hub = await open();
});

test('of the staff PIN, calendar address and log go too, and the last coordinator stays', async () => {
  const barn = await openClocked();
  try {
    const { port } = barn.hub;
    const office = await firstCoordinator(port, await barn.code());
    const said = async (path: string, init: RequestInit = {}): Promise<Response> =>
      fetch(`http://127.0.0.1:${port}${path}`, { ...init, headers: { Cookie: office.cookie } });
    const erasing = async (path: string, confirm: string): Promise<unknown> =>
      (await said(path, { method: 'DELETE', body: JSON.stringify({ by: null, confirm }) })).json();
    const people: TableRecord[] = [
      { table: 'staff', record: { id: 'zelda9', name: 'Zelda', role: 'coordinator' } },
      { table: 'volunteers', record: { id: 'zq2', name: 'Zebedee', clearances: [] } },
    ];
    for (const saved of people) {
      await office.client.tapped(op(`save-${saved.table}`, { kind: 'recordSaved', saved }));
    }
    expect(await ask(office.client, { to: 'setPin', staff: 'zelda9', pin: '918273' })).toEqual({
      is: 'done',
    });
    for (const person of ['zq2', 'zelda9']) {
      const body = JSON.stringify({ of: { is: 'person', person }, language: 'en' });
      expect((await said('/feeds/', { method: 'POST', body })).status).toBe(200);
    }
    expect(await bytesOf(barn.folder)).toMatch(/"pins":\{[^}]*zelda9|zelda9[^}]*"salt"/);

    expect(await erasing('/people/volunteers/zq2', 'Zebedee')).toEqual({ erased: true, filesAt: 'now' });
    expect(await erasing('/people/staff/zelda9', 'Zelda')).toEqual({ erased: true, filesAt: 'now' });
    expect(await erasing(`/people/staff/${office.by}`, 'Ines')).toEqual({
      erased: false,
      why: 'lastCoordinator',
    });
    expect(await (await said('/feeds/')).json()).toEqual({ feeds: [] });
    await office.client.settled();
    expect(await bytesOf(barn.folder)).not.toMatch(/zelda|zebedee|zq2/i);
    // What was done stays in the log, by nobody who could be told.
    expect(await readFile(join(barn.folder, 'gate.log'), 'utf8')).toMatch(/"pinSet".*"whom":"hub-/);
  } finally {
    await barn.close();
  }
});
