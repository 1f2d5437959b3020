/**
 * WCAG 2.2 A and AA, by axe-core, on every screen and sheet, by day and by night, in both orientations: not one violation. What a
 * machine cannot see (names, keyboard, large text, high contrast) is walked in the files beside this one.
 */
import axeCore from 'axe-core';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { source } from '../reference/source.ts';
import { launch, LANDSCAPE, PORTRAIT } from './browser.ts';
import {
  AISLE_STATES,
  DESK_STATES,
  DOOR_STATES,
  OTHER_STATES,
  SeenBarns,
  show,
  tablet,
  throughTheGate,
  type Seen,
} from './seen.ts';

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
const COLOURS = { runOnly: { type: 'rule', values: ['color-contrast'] } };

type Violation = { id: string; nodes: { target: string[]; failureSummary: string }[] };
declare const axe: { run: (root: Document, options: unknown) => Promise<{ violations: Violation[] }> };

let browser: Browser;
const barns = new SeenBarns();

beforeAll(async () => {
  browser = await launch();
});
afterAll(async () => {
  await browser.close();
  await barns.clear();
});

async function violations(page: Page, rules: object): Promise<string[]> {
  const found = await page.evaluate(
    async (options) => (await axe.run(document, { ...options, resultTypes: ['violations'] })).violations,
    rules,
  );
  return found.flatMap(({ id, nodes }) =>
    nodes.map(
      ({ target, failureSummary }) => `${id}: ${target.join(' ')}: ${failureSummary.split('\n')[1] ?? ''}`,
    ),
  );
}

const drawn = (page: Page, theme: 'day' | 'night'): Promise<void> =>
  page.evaluate(async (one) => {
    document.documentElement.dataset['theme'] = one;
    for (let frame = 0; frame < 2; frame += 1) await new Promise(requestAnimationFrame);
  }, theme);

/** Both ways up; the night differs in its colours alone. */
async function everyWay(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.addScriptTag({ content: axeCore.source });
  const found: string[] = [];
  for (const viewport of [LANDSCAPE, PORTRAIT]) {
    await page.setViewportSize(viewport);
    await drawn(page, 'day');
    found.push(...(await violations(page, { runOnly: RULES })));
    await drawn(page, 'night');
    found.push(...(await violations(page, COLOURS)));
  }
  return found;
}

const WCAG = source('WCAG 2.2 A and AA, as axe-core tests them');
const STATES: readonly Seen[] = [...AISLE_STATES, ...DOOR_STATES, ...DESK_STATES, ...OTHER_STATES];

test.concurrent.each(STATES)('$name', WCAG, async (seen) => {
  const page = await tablet(browser, seen, LANDSCAPE, { theme: 'day' });
  try {
    expect(await show(page, await barns.url(seen), seen)).toBe(true);
    expect(await everyWay(page)).toEqual([]);
  } finally {
    await page.context().close();
  }
});

test(
  'through the gate: a first coordinator’s name and PIN, and unlocking',
  WCAG,
  async ({ expect: local }) => {
    const pair = OTHER_STATES.find(({ name }) => name === 'pair');
    if (!pair) throw new Error('no such state');
    const page = await tablet(browser, pair, LANDSCAPE, { theme: 'day' });
    try {
      await show(page, await barns.url(pair), pair);
      await local.poll(() => barns.code()).toMatch(/^\d{6}$/);
      const found: string[] = [];
      await throughTheGate(page, await barns.code(), async (name) => {
        found.push(...(await everyWay(page)).map((one) => `${name}: ${one}`));
      });
      expect(found).toEqual([]);
    } finally {
      await page.context().close();
    }
  },
);
