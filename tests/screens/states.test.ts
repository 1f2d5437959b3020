/**
 * Every screen and sheet, opened once and looked at every way: WCAG 2.2 by axe-core by day and by night, both ways up; targets
 * and the gaps between them in mm; then with letters twice as large (1.4.4), and on a glass of 320 CSS px (1.4.10). What a
 * machine cannot see (names, keyboard, high contrast) is walked in the files beside this one.
 */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { source } from '../reference/source.ts';
import { axeFinds } from './axe.ts';
import { launch, LANDSCAPE, PORTRAIT } from './browser.ts';
import { cutText } from './cutText.ts';
import {
  AISLE_STATES,
  ALL_STATES,
  DESK_STATES,
  DOOR_STATES,
  OTHER_STATES,
  SeenBarns,
  show,
  tablet,
  throughTheGate,
  type Seen,
} from './seen.ts';
import { crowdedTargets, smallTargets } from './targets.ts';

/** Of a letter where nobody set it otherwise, in CSS px. */
const USUAL_PX = 16;

/** 1280 CSS px wide at 400 %. */
const NARROW = { width: 320, height: 640 };

/** A page that was turned has been laid out anew by then. */
const TURNED_MS = 300;

const WCAG = 'WCAG 2.2 A and AA, as axe-core tests them';
const TARGETS = 'Chen et al. 2013, Applied Ergonomics';
const LARGE = 'WCAG 2.2, 1.4.4 Resize Text';
const REFLOW = 'WCAG 2.2, 1.4.10 Reflow';

let browser: Browser;
const barns = new SeenBarns();

beforeAll(async () => {
  browser = await launch();
});
afterAll(async () => {
  await browser.close();
  await barns.clear();
});

/** How far the page, or the sheet over it, would have to be moved sideways. */
const SIDEWAYS = `[document.scrollingElement, ...document.querySelectorAll('[data-dialog], main')]
  .map((one) => one.scrollWidth - one.clientWidth).filter((px) => px > 1)
  .map((px) => 'sideways by ' + px + ' px')`;

const sideways = (page: Page): Promise<string[]> => page.evaluate(SIDEWAYS);

async function turned(page: Page, viewport: { width: number; height: number }): Promise<void> {
  await page.setViewportSize(viewport);
  await page.waitForTimeout(TURNED_MS);
}

async function lettersOf(page: Page, px: number): Promise<void> {
  const chromium = await page.context().newCDPSession(page);
  await chromium.send('Page.setFontSizes', { fontSizes: { standard: px, fixed: px } });
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe(`${px}px`);
}

/** For gloves on a wall; the coordinator's screens are held in a hand. */
const ON_A_WALL: readonly Seen[] = [...AISLE_STATES, ...DOOR_STATES];

/** A sheet of paper and a length in mm are as wide as they are: what needs two dimensions is excepted by 1.4.10 itself. */
const AS_WIDE_AS_IT_IS = ['print', 'glass'];
const REFLOWING: readonly Seen[] = [
  ...AISLE_STATES.slice(0, 2),
  ...DOOR_STATES.slice(0, 2),
  ...DESK_STATES.slice(0, 2),
  ...OTHER_STATES,
].filter(({ name }) => !AS_WIDE_AS_IT_IS.includes(name));

test.concurrent.each(ALL_STATES)('$name', source(WCAG, TARGETS, LARGE, REFLOW), async (seen) => {
  const page = await tablet(browser, seen, LANDSCAPE, { theme: 'day' });
  const found: string[] = [];
  const look = async (how: string, checks: readonly ((page: Page) => Promise<string[]>)[]): Promise<void> => {
    for (const check of checks) found.push(...(await check(page)).map((one) => `${how}: ${one}`));
  };
  const uncut = (one: Page): Promise<string[]> => cutText(one, { withDots: true });
  try {
    expect(await show(page, await barns.url(seen), seen)).toBe(true);
    for (const viewport of [LANDSCAPE, PORTRAIT]) {
      await turned(page, viewport);
      const onAWall = ON_A_WALL.includes(seen) ? [smallTargets, crowdedTargets] : [];
      await look(`${viewport.width} wide`, [...onAWall, axeFinds]);
    }
    if (REFLOWING.includes(seen)) {
      await turned(page, NARROW);
      await look('narrow', [sideways, uncut]);
    }
    // Set before the page is opened, as it is by whoever needs it.
    await lettersOf(page, 2 * USUAL_PX);
    expect(await show(page, await barns.url(seen), seen)).toBe(true);
    for (const viewport of [LANDSCAPE, PORTRAIT]) {
      await turned(page, viewport);
      await look(`large letters, ${viewport.width} wide`, [sideways, uncut]);
    }
    expect(found).toEqual([]);
  } finally {
    await page.context().close();
  }
});

test(
  'through the gate: a first coordinator’s name and PIN, and unlocking',
  source(WCAG),
  async ({ expect: local }) => {
    const pair = OTHER_STATES.find(({ name }) => name === 'pair');
    if (!pair) throw new Error('no such state');
    const page = await tablet(browser, pair, LANDSCAPE, { theme: 'day' });
    try {
      await show(page, await barns.url(pair), pair);
      await local.poll(() => barns.code()).toMatch(/^\d{6}$/);
      const found: string[] = [];
      await throughTheGate(page, await barns.code(), async (name) => {
        for (const viewport of [LANDSCAPE, PORTRAIT]) {
          await page.setViewportSize(viewport);
          found.push(...(await axeFinds(page)).map((one) => `${name}, ${viewport.width} wide: ${one}`));
        }
      });
      expect(found).toEqual([]);
    } finally {
      await page.context().close();
    }
  },
);
