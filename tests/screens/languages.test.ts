/** A tablet in Spanish, set by its language choice alone. Words from the project's own list: common practice, no source. */
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { AISLE_PAGE } from '#core/words/es/aisle.ts';
import { COORDINATOR_PAGE } from '#core/words/es/desk.ts';
import { STAGE_DONE } from '#core/words/es/common.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { hang, launch, LANDSCAPE, PORTRAIT, tap, TestBarn } from './browser.ts';
import { brokenWords } from './cutText.ts';
import { AISLE_STATES, OTHER_STATES, SeenBarns, show, tablet } from './seen.ts';

let browser: Browser;
const barn = new TestBarn(smallBoard(), NOON);
const barns = new SeenBarns();

beforeAll(async () => {
  browser = await launch();
  await barn.start();
});
afterAll(async () => {
  await browser.close();
  await barn.clear();
  await barns.clear();
});

const PLACES: readonly (readonly [TabletPlace, string])[] = [
  [{ role: 'aisle', stalls: [] }, AISLE_PAGE],
  [{ role: 'coordinator' }, COORDINATOR_PAGE],
];

test.each(PLACES)('%j speaks Spanish once it is chosen in the menu', async (place, title) => {
  const { page, context, errors } = await hang(browser, barn.url, place);
  await tap(page.locator('[data-action="menu"]'));
  expect(await page.getAttribute('html', 'lang')).toBe('en');
  await tap(page.locator('[data-language="es"]'));
  await page.waitForFunction((wanted) => document.title === wanted, title);
  expect(await page.getAttribute('html', 'lang')).toBe('es');
  if (place.role === 'aisle') await page.getByText(STAGE_DONE.feet).first().waitFor();
  expect(errors).toEqual([]);
  await context.close();
});

/** A page that was turned has been laid out anew by then. */
const TURNED_MS = 400;

const FULL = [...AISLE_STATES.slice(0, 2), ...OTHER_STATES.filter(({ name }) => name === 'print')];

test.each(FULL)('$name breaks no Spanish word', async (seen) => {
  const page = await tablet(browser, seen, LANDSCAPE, { language: 'es' });
  await show(page, await barns.url(seen), seen);
  const found: string[] = [];
  for (const viewport of [LANDSCAPE, PORTRAIT]) {
    await page.setViewportSize(viewport);
    await page.waitForTimeout(TURNED_MS);
    found.push(...(await brokenWords(page)));
  }
  expect(found).toEqual([]);
  await page.context().close();
});
