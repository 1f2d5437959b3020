/**
 * Text twice as large, set in the browser, and a glass of 320 CSS pixels: nothing is lost, nothing lies over anything else, and
 * a page moves one way only (WCAG 2.2, 1.4.4 and 1.4.10).
 */
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { source } from '../reference/source.ts';
import { launch, LANDSCAPE, PORTRAIT } from './browser.ts';
import { cutText } from './cutText.ts';
import {
  AISLE_STATES,
  DESK_STATES,
  DOOR_STATES,
  OTHER_STATES,
  SeenBarns,
  show,
  tablet,
  type Seen,
} from './seen.ts';

/** Of a letter where nobody set it otherwise, in CSS px. */
const USUAL_PX = 16;

/** 1280 CSS px wide at 400 %. */
const NARROW = { width: 320, height: 640 };

let browser: Browser;
const barns = new SeenBarns();

beforeAll(async () => {
  browser = await launch();
});
afterAll(async () => {
  await browser.close();
  await barns.clear();
});

const STATES: readonly Seen[] = [...AISLE_STATES, ...DOOR_STATES, ...DESK_STATES, ...OTHER_STATES];

/** How far the page, or the sheet over it, would have to be moved sideways. */
const SIDEWAYS = `[document.scrollingElement, ...document.querySelectorAll('dialog[open], main')]
  .map((one) => one.scrollWidth - one.clientWidth).filter((px) => px > 1)`;

test.concurrent.each(STATES)(
  '$name with letters twice as large',
  source('WCAG 2.2, 1.4.4 Resize Text'),
  async (seen) => {
    const page = await tablet(browser, seen, LANDSCAPE, { theme: 'day' });
    try {
      const chromium = await page.context().newCDPSession(page);
      await chromium.send('Page.setFontSizes', {
        fontSizes: { standard: 2 * USUAL_PX, fixed: 2 * USUAL_PX },
      });
      expect(await show(page, await barns.url(seen), seen)).toBe(true);
      expect(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe('32px');
      const found: string[] = [];
      for (const viewport of [LANDSCAPE, PORTRAIT]) {
        await page.setViewportSize(viewport);
        await page.waitForTimeout(300);
        found.push(...(await cutText(page, { withDots: true })).map((one) => `${viewport.width}: ${one}`));
        expect(await page.evaluate(SIDEWAYS)).toEqual([]);
      }
      expect(found).toEqual([]);
    } finally {
      await page.context().close();
    }
  },
);

/** A sheet of paper and a length in mm are as wide as they are: what needs two dimensions is excepted by 1.4.10 itself. */
const REFLOWING = [
  ...AISLE_STATES.slice(0, 2),
  ...DOOR_STATES.slice(0, 2),
  ...DESK_STATES.slice(0, 2),
  ...OTHER_STATES,
].filter(({ name }) => name !== 'print');

test.concurrent.each(REFLOWING)(
  '$name on a narrow glass',
  source('WCAG 2.2, 1.4.10 Reflow'),
  async (seen) => {
    const page = await tablet(browser, seen, NARROW, { theme: 'day' });
    try {
      expect(await show(page, await barns.url(seen), seen)).toBe(true);
      await page.waitForTimeout(300);
      expect(await page.evaluate(SIDEWAYS)).toEqual([]);
      expect(await cutText(page, { withDots: true })).toEqual([]);
    } finally {
      await page.context().close();
    }
  },
);
