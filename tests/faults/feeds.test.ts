/** Calendar addresses, read by ical.js (RFC 5545): who has none reads nothing, and what changes counts up. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import ICAL from 'ical.js';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { FeedMade } from '#core/wire/feeds.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { openClocked, type ClockedHub } from './security/barn.ts';

let barn: ClockedHub;
const first = smallBoard();

beforeEach(async () => {
  barn = await openClocked({ open: true, clock: () => NOON, first });
});
afterEach(() => barn.close());

const ask = (path: string, method = 'GET', body?: object): Promise<Response> =>
  fetch(`http://127.0.0.1:${barn.hub.port}${path}`, { method, ...(body && { body: JSON.stringify(body) }) });
const make = async (of: object): Promise<FeedMade> =>
  FeedMade.parse(await (await ask('/feeds/', 'POST', { of, language: 'en' })).json());
const events = async (path: string): Promise<ICAL.Component[]> => {
  const text = await (await ask(path)).text();
  return new ICAL.Component(ICAL.parse(text) as never).getAllSubcomponents('vevent');
};
const lessons = { is: 'lessons', withRiders: false };

test('lessons without riders’ names; the secret is not in the file; a revoked or wrong address is none', async () => {
  const { id, path } = await make(lessons);
  const summaries = (await events(path)).map((one) => String(one.getFirstPropertyValue('summary')));
  expect(summaries).toEqual(Object.values(first.day.lessons).map(({ name }) => name));
  const text = await (await ask(path)).text();
  for (const { callName } of Object.values(first.barn.riders)) expect(text).not.toContain(callName);
  const secret = path.slice('/calendar/'.length, -'.ics'.length);
  expect(await readFile(join(barn.folder, 'feeds.json'), 'utf8')).not.toContain(secret);
  expect((await ask(`/calendar/${'A'.repeat(43)}.ics`)).status).toBe(404);
  barn = await barn.again();
  expect((await ask(path)).status).toBe(200);
  expect((await ask(`/feeds/${id}`, 'DELETE')).status).toBe(204);
  expect((await ask(path)).status).toBe(404);
});

test('the number of an event goes up when it changes, and only then', async () => {
  const { path } = await make(lessons);
  const sequences = async (): Promise<unknown[]> =>
    (await events(path)).map((one) => one.getFirstPropertyValue('sequence'));
  const before = await sequences();
  expect(await sequences()).toEqual(before);
  expect(new Set(before)).toEqual(new Set([0]));
  const teacher = Object.values(first.barn.staff).find(({ name }) => name.startsWith('Ines'))!;
  const put = [{ table: 'staff', record: { ...teacher, name: 'Maren' } }];
  const fact = { kind: 'recordsImported', name: 'a.csv', put, gone: [] };
  const steps = await (await ask('/imported', 'POST', { id: 'import1', by: null, fact })).text();
  expect(steps).toContain('written');
  const taught = Object.values(first.day.lessons).map((lesson) => (lesson.instructor === teacher.id ? 1 : 0));
  expect(taught).toContain(1);
  expect(await sequences()).toEqual(taught);
});
