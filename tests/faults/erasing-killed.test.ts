/**
 * A hub killed while it clears its files of somebody: the next start does the rest, and every answered tap is there. The rules
 * are the project's own: common practice, no source.
 */
import { existsSync, statSync } from 'node:fs';
import { cp, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { withRecords } from '#core/barn/tables.ts';
import { dateAfter } from '#core/time/dates.ts';
import { openDiskStorage } from '../../hub/storage/disk.ts';
import { keptDay } from '../../hub/storage/keptDay.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { Client, op } from './client.ts';
import { filesWith } from './filesWith.ts';
import { HubProcess, tempFolder } from './hubProcess.ts';

const NAME = 'Zebedee Quill';
const DAYS = 12;
const LAST_DAY = '2026-05-10';

const small = smallBoard();
const record = { ...small.barn.volunteers['ada']!, id: 'zebedee7', name: NAME };
const board = { ...small, barn: withRecords(small.barn, [{ table: 'volunteers', record }], []) };

let whole: string;
let remove: () => Promise<void>;
const dayFile = (data: string, back: number): string =>
  join(data, 'barn', 'days', `${dateAfter(LAST_DAY, -back)}.json`);

beforeAll(async () => {
  const temp = await tempFolder();
  remove = temp.remove;
  whole = join(temp.path, 'whole');
  const storage = await openDiskStorage(join(whole, 'barn'), { board, journal: 'j1' }, NOON);
  for (let back = 0; back < DAYS; back += 1) {
    const day = { ...board.day, date: dateAfter(LAST_DAY, -back) };
    const seen = { kind: 'volunteerArrived' as const, volunteer: record.id };
    const entry = { at: NOON, device: 'd1', by: record.id, tappedAt: NOON, facts: [seen], why: null };
    const entries = [{ ...entry, seq: back + 1, id: `op${back}` }];
    await storage.keepDay(keptDay({ day, from: 1, to: 1, rules: board.barn.rules }, entries));
  }
  await storage.close();
});
afterAll(() => remove());

const turn = (): Promise<void> => new Promise((done) => setImmediate(done));

/** How far it had come when it was killed; `oldest` files of days are written first. */
test.each([
  ['the list is written', 0],
  ['half of the days are', DAYS / 2],
  ['all of the days are', DAYS],
] as const)('killed when %s', async (_when, cleared) => {
  const data = join(whole, '..', `killed-${cleared}`);
  await cp(whole, data, { recursive: true });
  const before = Array.from({ length: DAYS }, (_, back) => statSync(dayFile(data, back)).ino);
  const hub = await HubProcess.start(data);
  const { client } = await Client.join(hub.port, { role: 'coordinator' });
  const answered: string[] = [];
  let isOver = false;
  const tapping = (async () => {
    for (let i = 0; !isOver; i += 1) {
      const stall = { id: `s-${i}`, name: `${i}`, metres: 1 };
      const saved = { table: 'stalls' as const, record: stall };
      answered.push((await client.tapped(op(stall.id, { kind: 'recordSaved', saved }))).id);
    }
  })().catch(() => {});
  while (answered.length < 5) await turn();
  const body = JSON.stringify({ by: null, confirm: NAME });
  const asked = fetch(`http://127.0.0.1:${hub.port}/people/volunteers/${record.id}`, {
    method: 'DELETE',
    body,
  });
  asked.catch(() => {});
  const isNoted = (): boolean => existsSync(join(data, 'barn', 'erasing.json'));
  // Files are written anew under their names, so each one that is done is another file.
  const done = (): number => before.filter((ino, back) => statSync(dayFile(data, back)).ino !== ino).length;
  let isUnderWay = false;
  while (!isUnderWay || done() < cleared) {
    await turn();
    isUnderWay ||= isNoted();
  }
  await hub.end('SIGKILL');
  isOver = true;
  await tapping;
  expect(done()).toBeGreaterThanOrEqual(cleared);
  if (cleared < DAYS) expect(await filesWith(data, 'zebedee')).not.toEqual([]);

  const next = await HubProcess.start(data);
  const { welcome } = await Client.join(next.port, { role: 'coordinator' });
  expect(await filesWith(data, 'zebedee')).toEqual([]);
  expect(isNoted()).toBe(false);
  expect(Object.keys(welcome.board?.barn.stalls ?? {})).toEqual(expect.arrayContaining(answered));
  expect(welcome.board?.barn.volunteers[record.id]).toBeUndefined();
  expect((await readdir(join(data, 'barn', 'days'))).length).toBeGreaterThanOrEqual(DAYS);
  await next.end('SIGTERM');
  expect(await filesWith(data, 'zebedee')).toEqual([]);
});
