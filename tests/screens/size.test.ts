/**
 * How much JavaScript a board waits for and what it never loads: a cheap tablet reads a kilobyte of it in some
 * milliseconds. Bytes, not times: they are the same on every machine. The budgets are the project's own; zod's cost in a
 * page was measured when it was left out.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Browser } from 'playwright';
import { instantAt } from '#core/time/zone.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { demoBoard, DEMO_START } from '../../demo/day.ts';
import { hang, launch, TestBarn } from './browser.ts';
import { noteScripts, sumOf } from './scripts.ts';

/** By the first picture, bytes after gzip. */
const BUDGETS: readonly [TabletPlace, string, number][] = [
  [{ role: 'aisle', stalls: [] }, '[data-screen="aisle"] [data-horse]', 70_000],
  [{ role: 'door', arena: null, metres: 6 }, '[data-screen="door"]', 93_600],
];

const DATE = '2026-06-13';
let browser: Browser;
let barn: TestBarn;

beforeAll(async () => {
  const board = demoBoard(DATE);
  barn = new TestBarn(board, instantAt({ date: DATE, time: DEMO_START }, board.barn.zone));
  [browser] = await Promise.all([launch(), barn.start()]);
});

afterAll(async () => {
  await browser.close();
  await barn.clear();
});

test.each(BUDGETS)(
  '%o: its first picture keeps to its bytes, and no zod ever comes',
  async (place, first, budget) => {
    const { page, context } = await hang(browser, 'about:blank', place);
    await noteScripts(page, first);
    await page.goto(barn.url);
    const had = await page.waitForFunction(() => window.scripts.first);
    const scripts = (await had.jsonValue()) ?? [];
    expect(scripts.length).toBeGreaterThan(5);
    expect(sumOf(scripts)).toBeLessThan(budget);

    // What comes after it by itself: how boards change, sheets, words.
    await page.waitForFunction((count) => window.scripts.so().length >= count + 2, scripts.length);
    await page.waitForLoadState('networkidle').catch(() => {});
    const texts = await page.evaluate(() =>
      Promise.all(
        window.scripts.so().map(async ({ name }) => ({ name, text: await (await fetch(name)).text() })),
      ),
    );
    // By the property in which each of its schemas keeps what it is.
    expect(texts.filter(({ text }) => /\._zod\b/.test(text)).map(({ name }) => name)).toEqual([]);
    await context.close();
  },
);

test('the mark by which zod is known is in the pages that do load it', async () => {
  const { page, context } = await hang(browser, 'about:blank', { role: 'coordinator' });
  await noteScripts(page, 'main');
  await page.goto(`${barn.url}/records`);
  await page.locator('main').first().waitFor();
  const texts = await page.evaluate(() =>
    Promise.all(window.scripts.so().map(async ({ name }) => await (await fetch(name)).text())),
  );
  expect(texts.some((text) => /\._zod\b/.test(text))).toBe(true);
  await context.close();
});
