/** WCAG 2.2 A and AA by axe-core, on a page as it stands. */
import axeCore from 'axe-core';
import type { Page } from 'playwright';

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
const COLOURS = { runOnly: { type: 'rule', values: ['color-contrast'] } };

type Violation = { id: string; nodes: { target: string[]; failureSummary: string }[] };
declare const axe: { run: (root: Document, options: unknown) => Promise<{ violations: Violation[] }> };

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

/** As it stands; the night differs in its colours alone. */
export async function axeFinds(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.addScriptTag({ content: axeCore.source });
  await drawn(page, 'day');
  const byDay = await violations(page, { runOnly: RULES });
  await drawn(page, 'night');
  const byNight = await violations(page, COLOURS);
  await drawn(page, 'day');
  return [...byDay, ...byNight];
}
