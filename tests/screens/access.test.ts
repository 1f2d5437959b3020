/**
 * WCAG 2.2 A and AA, by axe-core, on every screen and its main sheets, by day and by night: not one violation. What a
 * machine cannot see (keyboard, names, large text, high contrast) is walked by hand below.
 */
import axeCore from 'axe-core';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { source } from '../reference/source.ts';
import { launch, LANDSCAPE, TestBarn } from './browser.ts';
import {
  AISLE_STATES,
  busyBarn,
  DESK_STATES,
  DOOR_STATES,
  OTHER_STATES,
  show,
  tablet,
  type Seen,
} from './seen.ts';

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

type Violation = { id: string; nodes: { target: string[]; failureSummary: string }[] };
declare const axe: { run: (root: Document, options: unknown) => Promise<{ violations: Violation[] }> };

let browser: Browser;
let barn: TestBarn;

beforeAll(async () => {
  browser = await launch();
  const { board, now } = busyBarn();
  barn = new TestBarn(board, now);
  await barn.start();
});
afterAll(async () => {
  await browser.close();
  await barn.clear();
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

const STATES: readonly Seen[] = [...AISLE_STATES, ...DOOR_STATES, ...DESK_STATES, ...OTHER_STATES];

test.concurrent.each(STATES)('$name', source('WCAG 2.2 A and AA, as axe-core tests them'), async (seen) => {
  const page = await tablet(browser, seen, LANDSCAPE, { theme: 'day' });
  try {
    expect(await show(page, barn.url, seen)).toBe(true);
    await page.addScriptTag({ content: axeCore.source });
    expect(await violations(page, { runOnly: RULES })).toEqual([]);
    // The night differs in its colours alone.
    await page.evaluate(async () => {
      document.documentElement.dataset['theme'] = 'night';
      for (let frame = 0; frame < 2; frame += 1) await new Promise(requestAnimationFrame);
    });
    expect(await violations(page, { runOnly: { type: 'rule', values: ['color-contrast'] } })).toEqual([]);
  } finally {
    await page.context().close();
  }
});
