/** An empty barn to a running day by tables, and by a calendar; a broken file says where, and nothing of it is taken. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterEach, beforeEach, afterAll, beforeAll, expect, test } from 'vitest';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { readTable } from '#core/exchange/csv/table.ts';
import said from '../unit/exchange/broken/said.json' with { type: 'json' };
import { hang, launch, tap as press, TestBarn } from './browser.ts';

const BROKEN = join(import.meta.dirname, '../unit/exchange/broken');

let browser: Browser;
let barn: TestBarn;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());
beforeEach(async () => {
  taps = 0;
  // 2026-05-11 08:00 in Denver.
  barn = new TestBarn(emptyBoard('Larch Hill', 'America/Denver'), Date.UTC(2026, 4, 11, 14));
  await barn.start();
});
afterEach(() => barn.clear());

let taps = 0;
/** Counted: a file that is chosen is one too. */
const tap: typeof press = (target) => {
  taps += 1;
  return press(target);
};

type Answers = Readonly<Record<string, string>>;

/** Chooses a file and answers what it asks. */
async function choose(page: Page, name: string, text: string | Buffer, answers: Answers = {}): Promise<void> {
  const another = page.locator('[data-action="another"]');
  if (await another.isVisible()) await tap(another);
  taps += 1;
  await page.setInputFiles('input[type="file"]', { name, mimeType: 'text/plain', buffer: Buffer.from(text) });
  for (const [asks, answer] of Object.entries(answers)) {
    await tap(page.locator(`[data-asks="${asks}"] [data-answer="${answer}"]`));
  }
}

async function bring(page: Page, name: string, text: string | Buffer, answers: Answers = {}): Promise<void> {
  await choose(page, name, text, answers);
  await tap(page.locator('[data-action="take"]'));
  await page.locator('[data-fact="taken"]').waitFor();
}

const files = async () => {
  const desk = await hang(browser, barn.url, { role: 'coordinator' });
  await tap(desk.page.locator('[data-action="menu"]'));
  await tap(desk.page.locator('[data-action="files"]'));
  await desk.page.locator('[data-screen="files"]').waitFor();
  return desk;
};

const aisleShows = async (...names: string[]): Promise<string[]> => {
  const aisle = await hang(browser, barn.url, { role: 'aisle', stalls: [] });
  for (const name of names) {
    await aisle.page.locator('[data-screen="aisle"] [data-horse]', { hasText: name }).waitFor();
  }
  await aisle.context.close();
  return aisle.errors;
};

const HORSES = 'Caballo;Cuadra;Peso\r\nFern;1;500\r\nNiño;2;1.102\r\n';

test('tables bring an empty barn to a running day, and one is taken back', async () => {
  const begun = performance.now();
  const { page, context, errors } = await files();
  // A Spanish spreadsheet of some years ago: semicolons, Windows-1252, CRLF, and no unit said.
  await choose(page, 'caballos.csv', Buffer.from(HORSES, 'latin1'));
  await page.locator('[data-fact="encoding"], [data-asks="weightUnit"]').first().waitFor();
  await tap(page.locator('[data-answer="kg"]'));
  // 1.102 may be a thousand or one: said, and nothing taken.
  await page.locator('[data-problem]', { hasText: 'Row 3, column C (Peso)' }).waitFor();
  expect(await page.locator('[data-action="take"]').count()).toBe(0);
  await bring(page, 'caballos.csv', Buffer.from(HORSES.replace('1.102', '1102'), 'latin1'), {
    weightUnit: 'lb',
  });
  await bring(page, 'people.csv', 'volunteer,cleared for\nAda,feet; coat; tack; lead\n');
  await bring(page, 'riders.csv', 'rider,full name\nRobin,Robin Marsh\n');
  // Which of the two numbers is the month, only a person can say.
  const lessons = (start: string): string =>
    `date,start,minutes,lesson,rider,horse,leader\n11/05/2026,${start},45,First,Robin,Niño,Ada\n`;
  await bring(page, 'lessons.csv', lessons('11:00'), { dateOrder: 'dmy' });
  await tap(page.locator('[data-action="takeToday"]'));
  await page.locator('[data-action="takeToday"]').waitFor({ state: 'detached' });
  const aisle = await aisleShows('Niño');
  console.log(`set up by tables: ${taps} taps, ${Math.round((performance.now() - begun) / 1000)} s`);

  // The same table again brings nothing; another is taken back.
  await choose(page, 'people.csv', 'volunteer,cleared for\nAda,feet; coat; tack; lead\n');
  await page.locator('[data-fact="nothingNew"]').waitFor();
  await bring(page, 'more.csv', 'name\nBen\n', { kind: 'volunteers' });
  await tap(page.locator('[data-action="takeBack"]'));
  await page.locator('[data-stage="takenBack"]').waitFor();
  await tap(page.locator('[data-action="another"]'));
  const downloaded = page.waitForEvent('download');
  await tap(page.locator('[data-download="volunteers"]'));
  const path = await (await downloaded).path();
  const table = readTable(readFileSync(path, 'utf8').replace('\ufeff', ''));
  expect('rows' in table && table.rows.map(({ cells }) => cells[1])).toEqual(['Ada']);
  expect([errors, aisle]).toEqual([[], []]);
  await context.close();
});

/** Lines of RFC 5545, written by hand. */
const calendar = (...events: string[][]): string =>
  [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Somebody//EN',
    ...events.flatMap((lines) => ['BEGIN:VEVENT', 'DTSTAMP:20260501T000000Z', ...lines, 'END:VEVENT']),
    'END:VCALENDAR',
    '',
  ].join('\r\n');

test('calendars bring lessons and shifts, with a horse and a person there', async () => {
  const begun = performance.now();
  const { page, context, errors } = await files();
  await bring(page, 'horses.csv', 'horse,stall\nFern,1\n');
  await bring(page, 'people.csv', 'volunteer,cleared for\nAda,feet; coat; tack; lead\n');
  const shift = calendar(['UID:shift1', 'DTSTART:20260511T150000Z', 'DTEND:20260511T190000Z', 'SUMMARY:Ada']);
  await bring(page, 'shifts.ics', shift);
  const lesson = calendar([
    'UID:lesson1',
    'DTSTART;TZID=America/Denver:20260511T110000',
    'DTEND;TZID=America/Denver:20260511T114500',
    'RRULE:FREQ=WEEKLY;BYDAY=MO',
    'SUMMARY:Mondays',
    'DESCRIPTION:Horse: Fern\\; Leader: Ada',
  ]);
  await bring(page, 'lessons.ics', lesson, { of: 'lessons' });
  await tap(page.locator('[data-action="takeToday"]'));
  await page.locator('[data-action="takeToday"]').waitFor({ state: 'detached' });
  const running = await aisleShows('Fern');
  console.log(`set up by calendar: ${taps} taps, ${Math.round((performance.now() - begun) / 1000)} s`);
  expect([errors, running]).toEqual([[], []]);
  await context.close();
});

test('a broken file says its row and column, and nothing of it is taken', async () => {
  const { page, context, errors } = await files();
  const before = await barn.taken();
  await choose(page, 'horses.csv', 'horse,stall,weight (kg)\nFern,1,abc\nMoss,2,480\n');
  await page.locator('[data-problem]', { hasText: 'Row 2, column C (weight)' }).waitFor();
  await choose(page, 'lessons.ics', 'BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n');
  await page.locator('[data-problem]', { hasText: 'Line 2' }).waitFor();
  await choose(page, 'book.csv', Buffer.from([0xff, 0xfe, 0x41]));
  await page.locator('[data-fact="failed"]').waitFor();
  expect(await page.locator('[data-action="take"]').count()).toBe(0);
  expect(await barn.taken()).toBe(before);
  expect(errors).toEqual([]);
  await context.close();
});

test('broken files of many kinds are told on the page as they are told in words', async () => {
  const { page, context, errors } = await files();
  await bring(page, 'horses.csv', 'horse,stall,weight (kg)\nFern,1,500\nMoss,2,480\n');
  const before = await barn.taken();
  const samples = [1, 3, 4, 5, 6, 7, 9, 10, 11, 13, 23, 25, 32, 33, 34, 36];
  for (const { file, said: sentences } of said.filter((one) =>
    samples.includes(Number(one.file.slice(0, 2))),
  )) {
    await choose(page, file, readFileSync(join(BROKEN, file)));
    if (file.endsWith('.ics')) {
      const asks = page.locator('[data-asks="of"] [data-answer="lessons"]');
      await asks.or(page.locator('[data-problem]')).first().waitFor();
      if (await asks.isVisible()) await tap(asks);
    }
    await page.locator('[data-problem]').first().waitFor();
    expect([file, await page.locator('[data-problem]').allTextContents()]).toEqual([file, sentences]);
    expect(await page.locator('[data-action="take"]').count()).toBe(0);
  }
  expect(await barn.taken()).toBe(before);
  expect(errors).toEqual([]);
  await context.close();
});

test('a calendar address is made, shown once, followed, and taken back', async () => {
  const { page } = await files();
  await tap(page.locator('[data-make="lessons"]'));
  const address = (await page.locator('[data-fact="made"] .address').textContent()) ?? '';
  const followed = address.replace(/\/\/[^/]+/, `//127.0.0.1:${barn.port}`);
  const text = await (await fetch(followed)).text();
  expect(text).toMatch(/^BEGIN:VCALENDAR\r\n/);
  expect(await page.locator('[data-feed]').count()).toBe(1);
  await tap(page.locator('[data-revoke]'));
  await page.locator('[data-feed]').waitFor({ state: 'detached' });
  expect((await fetch(followed)).status).toBe(404);
});
