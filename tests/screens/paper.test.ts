/**
 * Day's end against the figures worked out by hand in tests/unit/ledger/day.test.ts, and the day on paper as a real
 * browser prints it: read back with pdfjs. Page sizes: ISO 216 A4 210 × 297 mm; US Letter 8.5 × 11 in (ANSI/ASME Y14.1).
 */
import Papa from 'papaparse';
import type { Browser, Page } from 'playwright';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import type { Board } from '#core/day/board.ts';
import type { Account } from '#core/ledger/account.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Fact } from '#core/day/ops.ts';
import { entry, horse, NOON } from '../properties/day-arbitraries.ts';
import { at, HAND_OPS, handBoard, played } from '../unit/ledger/handDay.ts';
import { Client } from '../faults/client.ts';
import { hang, LANDSCAPE, launch, PORTRAIT, tap, TestBarn } from './browser.ts';

const coordinator = { role: 'coordinator' } as const;
const POINTS_A_MM = 72 / 25.4;
/** Width and height in PDF points. */
const SIZES = { A4: [210 * POINTS_A_MM, 297 * POINTS_A_MM], Letter: [8.5 * 72, 11 * 72] } as const;

let browser: Browser;
let barn: TestBarn;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());
afterEach(() => barn.clear());

async function open(board: Board, screen: string, now: number): Promise<{ page: Page; errors: string[] }> {
  barn = new TestBarn(board, now);
  await barn.start();
  const hung = await hang(browser, barn.url, coordinator);
  await hung.page.locator('[data-screen="coordinator"]').waitFor();
  await hung.page.goto(`${barn.url}/${screen}`);
  await hung.page.locator(`[data-screen="${screen}"]`).waitFor();
  return hung;
}

/** Forty horses in four lessons of twelve, twelve, twelve and four places. */
function fullBoard(): Board {
  const names = Array.from({ length: 40 }, (_, i) => `Horse${String(i + 1).padStart(2, '0')}`);
  const places = names.map((name, i) => ({
    id: `p${i}`,
    rider: 'r1',
    horse: name.toLowerCase(),
    tack: 't1',
    leader: null,
    sideWalkers: [],
    cancelled: false,
  }));
  const facts: Fact[] = [
    ...names.map((name): Fact => ({
      kind: 'recordSaved',
      saved: { table: 'horses', record: horse(name.toLowerCase(), { name }) },
    })),
    ...[0, 12, 24, 36].map((from, n): Fact => ({
      kind: 'lessonAdded',
      lesson: {
        id: `F${n}`,
        name: `Full${n}`,
        start: NOON + (n + 3) * 3_600_000,
        minutes: 30,
        arena: null,
        instructor: null,
        cancelled: false,
        places: places.slice(from, from + 12),
      },
    })),
  ];
  const { barn: records } = handBoard();
  const start: Board = { ...handBoard(), day: { ...handBoard().day, lessons: {}, preps: {} }, barn: records };
  return facts.reduce((next, fact, i) => evolve(next, entry(i + 1, fact)), start);
}

type Printed = { width: number; height: number; text: string; inside: boolean };

async function printed(page: Page): Promise<Printed[]> {
  const data = new Uint8Array(await page.pdf({ preferCSSPageSize: true }));
  const loading = getDocument({ data, useSystemFonts: true });
  const pdf = await loading.promise;
  const pages: Printed[] = [];
  for (let n = 1; n <= pdf.numPages; n += 1) {
    const one = await pdf.getPage(n);
    const [, , width = 0, height = 0] = one.view;
    const items = (await one.getTextContent()).items.flatMap((item) => ('str' in item ? item : []));
    // Blanks between columns have no ink.
    const inside = items
      .filter(({ str }) => str.trim() !== '')
      .every(({ transform, width: wide, height: high }) => {
        const [x, y] = [Number(transform[4]), Number(transform[5])];
        return x >= 0 && y >= 0 && x + wide <= width + 0.5 && y + high <= height + 0.5;
      });
    pages.push({ width, height, text: items.map(({ str }) => str).join(' '), inside });
  }
  await loading.destroy();
  return pages;
}

for (const size of ['A4', 'Letter'] as const) {
  test(`forty horses and lessons of twelve on ${size}: every one once, nothing cut`, async () => {
    const { page, errors } = await open(fullBoard(), 'print', at('13:00'));
    await page.locator(`input[value="${size}"]`).check();
    const pages = await printed(page);
    // By hand: (276 − 52) / 15 = 14 rows on A4, (258 − 52) / 15 = 13 on Letter: 3 and 4 pages for 40 horses; 4 lessons.
    expect(pages).toHaveLength(size === 'A4' ? 3 + 4 : 4 + 4);
    for (const [i, { width, height, inside, text }] of pages.entries()) {
      expect(Math.abs(width - SIZES[size][0])).toBeLessThan(1);
      expect(Math.abs(height - SIZES[size][1])).toBeLessThan(1);
      expect(inside).toBe(true);
      expect(text).toContain(`Page ${i + 1} of ${pages.length}`);
      expect(text).toContain('Printed');
    }
    const aisle = pages
      .slice(0, -4)
      .map(({ text }) => text)
      .join(' ');
    const lessons = pages.slice(-4).map(({ text }) => text);
    for (let n = 1; n <= 40; n += 1) {
      const name = `Horse${String(n).padStart(2, '0')}`;
      expect(aisle.split(name)).toHaveLength(2);
      expect(lessons.join(' ').split(name)).toHaveLength(2);
    }
    for (const [n, text] of lessons.entries()) expect(text).toContain(`Full${n}`);
    // What hangs in the aisle names no rider; no sheet has a full name, a need or a weight.
    expect(aisle).not.toContain('Robin');
    expect(lessons[0]).toContain('Robin');
    expect(pages.map(({ text }) => text).join(' ')).not.toMatch(/Robin Example|left side weak|48\.5|512/);
    expect(errors).toEqual([]);
  });
}

test('with the hub away a coordinator’s tablet still prints what it last knew', async () => {
  const { page } = await open(handBoard(), 'coordinator', at('13:00'));
  await page.waitForLoadState('networkidle');
  await barn.stop();
  await page.locator('[data-band="away"]').waitFor();
  await tap(page.locator('[data-action="menu"]'));
  await tap(page.locator('[data-action="paper"]'));
  await page.locator('[data-screen="print"]').waitFor();
  const pages = await printed(page);
  // One for the aisle, one each for two lessons.
  expect(pages).toHaveLength(1 + 2);
  expect(pages[0]?.text).toContain('fern');
});

test('what was ticked is typed back in one pass, and lands at its written times', async () => {
  const { page } = await open(handBoard(), 'print', at('16:00'));
  await tap(page.locator('[data-what="typeBack"]'));
  const cell = (prep: string, stage: string) =>
    page.locator(`tr[data-prep="${prep}"] input[data-stage="${stage}"]`);
  await cell('fern.1', 'feet').fill('1310');
  await cell('fern.1', 'coat').fill('25:00');
  expect(await page.locator('[data-action="writeDown"]').isDisabled()).toBe(true);
  await cell('fern.1', 'coat').fill('13:22');
  await cell('fern.1', 'tack').fill('x');
  await cell('fern.1', 'feet').press('Enter');
  expect(await page.evaluate(() => document.activeElement?.closest('tr')?.getAttribute('data-prep'))).toBe(
    'moss.1',
  );
  await page.locator('tr[data-prep="fern.1"] select').selectOption('ada');
  await tap(page.locator('[data-action="writeDown"]'));
  await page.locator('tr[data-prep="fern.1"] input[data-stage="feet"][placeholder*="13:10"]').waitFor();
  await page.locator('tr[data-prep="fern.1"] input[data-stage="coat"][placeholder*="13:22"]').waitFor();
  const fern = async (): Promise<unknown> =>
    page.evaluate(async () => {
      const answer = await fetch('/account?from=2026-05-11&until=2026-05-11');
      return ((await answer.json()) as { account: Account }).account.lessons[0]?.horses[0]?.unknown;
    });
  // The tack has no time, so nobody knows when Fern was ready.
  await expect.poll(fern).toBe('noTime');
});

test('day’s end: figures as worked out by hand, on the screen and in CSV read back', async () => {
  const { page, errors } = await open(handBoard(), 'end', at('17:00'));
  // The afternoon's taps come late, all at once, as from a tablet that was out of touch.
  expect(played(HAND_OPS).entries).toHaveLength(HAND_OPS.length);
  const { client } = await Client.join(barn.port, coordinator, 'd1');
  client.tap(...HAND_OPS);
  const { answers } = await client.next('answered');
  expect(answers.filter(({ why }) => why !== null)).toEqual([]);
  await page.reload();
  await page.locator('[data-state="there"] [data-table="horses"]').waitFor();
  const rows = async (table: string): Promise<string[][]> =>
    page
      .locator(`[data-table="${table}"] tbody tr`)
      .evaluateAll((all) => all.map((row) => [...row.children].map((one) => one.textContent?.trim() ?? '')));
  // tests/unit/ledger/day.test.ts: 30 + 30 in lessons, 15 waiting; sorrel 30.
  expect((await rows('horses')).map((row) => row.slice(0, 4))).toEqual([
    ['fern', '2', '60', '15'],
    ['moss', '2', '60', '15'],
    ['sorrel', '1', '30', '0'],
  ]);
  // Turned, each plot is as wide as its place again.
  await page.setViewportSize(PORTRAIT);
  await expect
    .poll(() =>
      page
        .locator('.plot')
        .evaluateAll((all) => all.map((one) => (one.firstElementChild?.clientWidth ?? 0) - one.clientWidth)),
    )
    .toEqual([0, 0]);
  await page.setViewportSize(LANDSCAPE);

  // Moss 13:49 against 13:45 makes the first lesson 4 min late; sorrel was never tacked by a tap.
  expect(await page.locator('[data-part="summary"]').textContent()).toContain(
    '0 on time, 1 late, 1 not known',
  );
  const people = await rows('people');
  // ada's stay is open: the day is under way until 17:00, so 13:00–17:00 = 240. ben 13:02–14:35 = 93, cho 14:00–15:20 = 80.
  expect(people.map(([who, minutes]) => [who, String(Math.floor(Number(minutes)))])).toEqual([
    ['ada', '240'],
    ['ben', '93'],
    ['cho', '80'],
  ]);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    tap(page.locator('[data-csv="people"]')),
  ]);
  const stream = await download.createReadStream();
  const text = Buffer.concat(await stream.toArray()).toString('utf8');
  const parsed = Papa.parse(text.replace('\uFEFF', '').trimEnd(), {
    delimiter: ',',
    newline: '\r\n',
    quoteChar: '"',
  });
  expect(parsed.errors).toEqual([]);
  expect(parsed.data.slice(1)).toEqual(people);
  expect(text).toContain('\r\n');

  // Ada's going home, put right: 13:00–15:40 = 160.
  await page.locator('[data-part="correct"] summary').click();
  await page.locator('select[name="volunteer"]').selectOption('ada');
  await page.locator('select[name="stay"]').selectOption('hand0');
  await page.locator('input[name="came"]').fill('13:00');
  await page.locator('input[name="left"]').fill('1540');
  await page.locator('input[name="why"]').fill('forgot');
  await page.locator('select[name="by"]').selectOption('ines');
  await tap(page.locator('[data-action="addCorrection"]'));
  await page.locator('[data-table="corrections"]').waitFor();
  expect((await rows('people'))[0]?.slice(0, 2)).toEqual(['ada', '160']);
  expect((await rows('stays')).find((row) => row[1] === 'ada')?.at(-1)).toContain('forgot');
  const correct = async (about: string, fill: () => Promise<void>): Promise<void> => {
    const before = (await rows('corrections')).length;
    await tap(page.locator(`[data-correct="${about}"]`));
    await fill();
    await page.locator('input[name="why"]').fill('seen');
    await page.locator('select[name="by"]').selectOption('ines');
    await tap(page.locator('[data-action="addCorrection"]'));
    await expect.poll(async () => (await rows('corrections')).length).toBe(before + 1);
  };
  // Fern went only 12 min of the first lesson: 12 + 30.
  await correct('ride', async () => {
    await page.locator('select[name="lesson"]').selectOption('L1');
    await page.locator('select[name="horse"]').selectOption('fern');
    await page.locator('input[name="minutes"]').fill('12');
  });
  expect((await rows('horses'))[0]?.slice(0, 3)).toEqual(['fern', '2', '42']);
  // Moss was tacked at 13:40, not 13:49: the first lesson was on time.
  await correct('stage', async () => {
    await page.locator('select[name="prep"]').selectOption('moss.1');
    await page.locator('select[name="stage"]').selectOption('tack');
    expect(await page.locator('input[name="at"]').inputValue()).toBe('13:49');
    await page.locator('input[name="at"]').fill('1340');
  });
  expect(await page.locator('[data-part="summary"]').textContent()).toContain('1 on time, 0 late');
  expect((await rows('corrections')).at(-1)?.[3]).toContain('13:49');
  // Sorrel's tack was ticked on paper at 14:20, before its ramp time of 14:30.
  await correct('paper', async () => {
    await page.locator('tr[data-prep="sorrel.1"] input[data-stage="tack"]').fill('14:20');
  });
  expect(await page.locator('[data-part="summary"]').textContent()).toContain('0 not known');
  expect(await page.locator('canvas').count()).toBe(2);
  const outside = (await printed(page)).filter(({ inside }) => !inside);
  expect(outside).toEqual([]);
  expect(errors).toEqual([]);
});
