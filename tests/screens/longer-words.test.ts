/**
 * An invented language on the real screens: every text 40 % longer, lines running from right to left. Nothing may stick out of what it
 * stands in, in either orientation. 40 % is the project's own aim; the W3C's article on text size in translation gives more for short
 * texts (from memory).
 */
import type { Browser, BrowserContext, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { TabletPlace } from '#core/day/places.ts';
import { evolve } from '#core/day/evolve.ts';
import { instantAt } from '#core/time/zone.ts';
import { ENGLISH } from '#core/words/en/all.ts';
import { simulateDay } from '../../demo/simulate.ts';
import { invented, longer } from '../unit/words/pseudo.ts';
import { hang, launch, LANDSCAPE, PORTRAIT, tap, TestBarn } from './browser.ts';
import { cutText } from './cutText.ts';

/** A Saturday, so that no real day of anybody's is meant. */
const DATE = '2026-06-13';
const day = simulateDay({ seed: 1, date: DATE });
const now = instantAt({ date: DATE, time: '13:20' }, day.start.barn.zone);
const barn = new TestBarn(day.entries.filter((entry) => entry.at <= now).reduce(evolve, day.start), now);

const NAMES = new Set(
  (await Promise.all(Object.values(ENGLISH).map(async (load) => Object.keys(await load())))).flat(),
);

let browser: Browser;

beforeAll(async () => {
  browser = await launch();
  await barn.start();
});
afterAll(async () => {
  await browser.close();
  await barn.clear();
});

/**
 * A file of words says everything longer; the list of languages says that this one runs from right to left. Words stand in a built file
 * by their names, or all in one object with a getter a name.
 */
function translated(file: string): string {
  const exported = /export\s*\{([^}]*)\};?\s*$/.exec(file);
  const pairs = (exported?.[1] ?? '').split(',').map((one) => one.trim().split(/\s+as\s+/));
  const hasObject = [...NAMES].some((name) => file.includes(`${name}:()=>`));
  const said = hasObject || pairs.some(([own = '', name = own]) => NAMES.has(name));
  if (!exported || !said) return file.replaceAll(/direction:([`"'])ltr\1/g, 'direction:$1rtl$1');
  const made = pairs.map(([own = '', name = own], i) => {
    const isWords = NAMES.has(name) ? 'true' : `typeof ${own}==='object'`;
    return `const invented${i}=${isWords}?invented(${own}):${own};`;
  });
  const out = pairs.map(([own = '', name = own], i) => `invented${i} as ${name}`).join(',');
  const maker = `${longer.toString()};${invented.toString()};`;
  return `${file.slice(0, exported.index)};${maker}${made.join('')}export{${out}};`;
}

async function invent(context: BrowserContext): Promise<void> {
  await context.route('**/_app/immutable/**/*.js', async (route) => {
    // Only the browser knows the hub by its name.
    const { pathname } = new URL(route.request().url());
    const answer = await fetch(`http://127.0.0.1:${barn.port}${pathname}`);
    await route.fulfill({ contentType: 'text/javascript', body: translated(await answer.text()) });
  });
}

async function bothWays(page: Page, what: string): Promise<string[]> {
  const found: string[] = [];
  for (const size of [LANDSCAPE, PORTRAIT]) {
    await page.setViewportSize(size);
    await page.waitForTimeout(400);
    found.push(...(await cutText(page, { withDots: false })).map((one) => `${what} ${size.width}: ${one}`));
  }
  return found;
}

const PLACES: readonly TabletPlace[] = [
  { role: 'aisle', stalls: [] },
  { role: 'door', arena: null, metres: 8 },
  { role: 'coordinator' },
];

test.each(PLACES)('$role holds words 40 % longer, from right to left', async (place) => {
  const { page, context, errors } = await hang(browser, `${barn.url}/health`, place);
  await invent(context);
  await page.goto(barn.url);
  await page.locator(`[data-screen="${place.role}"]`).waitFor();
  expect(await page.getAttribute('html', 'dir')).toBe('rtl');
  // The first forecast brings most of the words.
  await page.locator('[data-word="tight"], [data-word="onTime"], [data-lane]').first().waitFor();
  const found = await bothWays(page, place.role);
  if (place.role === 'aisle') {
    await tap(page.locator('[data-horse="bramble"] [data-action="open"]'));
    found.push(...(await bothWays(page, 'horse')));
    await tap(page.locator('[data-help="fetch"]'));
    await page.locator('[data-help-page="fetch"]').waitFor();
    const long = page.locator('[data-action="length"]');
    if (await long.isVisible()) await tap(long);
    found.push(...(await bothWays(page, 'help')));
    const [title, close] = await Promise.all(
      ['h2', '[data-action="close"]'].map((one) => page.locator(`[data-dialog="help"] ${one}`).boundingBox()),
    );
    expect(close!.x).toBeLessThan(title!.x);
    await tap(page.locator('[data-step-of]').first());
    found.push(...(await bothWays(page, 'step')));
  }
  expect(found).toEqual([]);
  expect(errors).toEqual([]);
  await context.close();
});
