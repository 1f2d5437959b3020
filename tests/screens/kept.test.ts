/** Every screen looks as it did when its picture was kept. Bounds: common practice, no source; see the last test for what they tell apart. */
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launch, LANDSCAPE } from './browser.ts';
import { Darkroom, everyWay, hasOtherLetters, KEPT, LOOKED_AT_IN } from './kept.ts';
import { SeenBarns, show, tablet } from './seen.ts';

/**
 * Of the way from black to white: for the worst patch of a finger's size, and for all on average. On the machine that took
 * them pictures came to 0.05 and 0.004, with a wider face to 0.62 and 0.04.
 */
const MOST = { worst: 0.15, mean: 0.01 };
const MOST_WITH_OTHER_LETTERS = { worst: 0.75, mean: 0.06 };

type Apart = { readonly worst: number; readonly mean: number };
const isOff = (apart: Apart, most: Apart): boolean => apart.worst > most.worst || apart.mean > most.mean;

/** Forecasts and what is fetched after the first picture have come by then. */
const SETTLED_WITHIN_MS = 15_000;
const AGAIN_MS = 300;

let browser: Browser;
let darkroom: Darkroom;
const barns = new SeenBarns();

beforeAll(async () => {
  browser = await launch();
  darkroom = new Darkroom(browser);
});
afterAll(async () => {
  await browser.close();
  await barns.clear();
});

const WAYS = KEPT.flatMap((seen) => LOOKED_AT_IN.map((language) => ({ name: seen.name, language, seen })));

test.concurrent.each(WAYS)('$name, $language', async ({ seen, language }) => {
  const page = await tablet(browser, seen, LANDSCAPE, { theme: 'day', language });
  try {
    expect(await show(page, await barns.url(seen), seen)).toBe(true);
    const most = (await hasOtherLetters(page)) ? MOST_WITH_OTHER_LETTERS : MOST;
    const off: string[] = [];
    const hold = async (set: string): Promise<void> => {
      const until = performance.now() + SETTLED_WITHIN_MS;
      const look = async () => darkroom.apart(await page.screenshot(), set, seen);
      let apart = await look();
      while (isOff(apart, most) && performance.now() < until) {
        await page.waitForTimeout(AGAIN_MS);
        apart = await look();
      }
      if (isOff(apart, most)) off.push(`${set}: ${JSON.stringify(apart)}`);
    };
    // Looked at again until it is so, or should have been.
    await everyWay(page, language, hold, 0);
    expect(off).toEqual([]);
  } finally {
    await page.context().close();
  }
});

test('another screen, another theme, or a screen without its tiles is told apart', async () => {
  const [aisle, door] = ['aisle', 'door'].map((name) => KEPT.find((seen) => seen.name === name));
  if (!aisle || !door) throw new Error('no such screens');
  const page = await tablet(browser, aisle, LANDSCAPE, { theme: 'day' });
  await show(page, await barns.url(aisle), aisle);
  const set = 'en-day-1280x800';
  const apart = async (against: string, seen: typeof aisle): Promise<Apart> =>
    darkroom.apart(await page.screenshot(), against, seen);
  expect(await apart(set, door)).toSatisfy((one: Apart) => isOff(one, MOST_WITH_OTHER_LETTERS));
  expect(await apart('en-night-1280x800', aisle)).toSatisfy((one: Apart) =>
    isOff(one, MOST_WITH_OTHER_LETTERS),
  );
  await page.addStyleTag({ content: '[data-action="finish"] { visibility: hidden; }' });
  expect(await apart(set, aisle)).toSatisfy((one: Apart) => isOff(one, MOST));
  await page.context().close();
});
