/**
 * One call for attention at a time on each board, the most urgent first, the others behind it; what is not shown as the call still
 * stands on its tile. For volunteers with a horse in hand one at a time is the project's own aim, well below what EEMUA 191 lets
 * an operator bear.
 */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Fact } from '#core/day/ops.ts';
import { entry, NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { hang, launch, tap, TestBarn } from './browser.ts';

let browser: Browser;
const barn = new TestBarn(troubled(), NOON);

beforeAll(async () => {
  browser = await launch();
  await barn.start();
});
afterAll(async () => {
  await browser.close();
  await barn.clear();
});

/** A sore heel on fern, a nail in sorrel's foot, and somebody at moss wants a hand. */
function troubled(): Board {
  const facts: Fact[] = [
    { kind: 'findingSeen', horse: 'fern', finding: { on: 'foot', foot: 'LF', kind: 'sore' }, words: '' },
    { kind: 'findingSeen', horse: 'sorrel', finding: { on: 'foot', foot: 'LF', kind: 'nail' }, words: '' },
    { kind: 'helpAsked', horse: 'moss', call: 'hand', to: null },
  ];
  return facts.reduce((board, fact, i) => evolve(board, entry(50 + i, fact)), smallBoard());
}

const calling = (page: Page) =>
  page
    .locator('[data-first], [data-band="readOnly"], [data-notice]')
    .evaluateAll((all) => all.map((one) => one.getAttribute('data-first') ?? 'other'));
const waiting = (page: Page) => page.locator('[data-alerts-waiting]').getAttribute('data-alerts-waiting');

test('door and desk show one and count the others; reading it by name brings the next', async () => {
  const [door, desk] = await Promise.all([
    hang(browser, barn.url, { role: 'door', arena: null, metres: 8 }),
    hang(browser, barn.url, { role: 'coordinator' }),
  ]);
  for (const { page } of [door, desk]) {
    await page.locator('[data-first="finding:sorrel"]').waitFor();
    expect(await calling(page)).toEqual(['finding:sorrel']);
    expect(Number(await waiting(page))).toBeGreaterThanOrEqual(2);
  }
  // All of them, in order, from the one target beside it.
  await tap(door.page.locator('[data-action="moreAlerts"]'));
  const listed = await door.page
    .locator('[data-dialog="alerts"] [data-alert-key]')
    .evaluateAll((all) => all.map((one) => one.getAttribute('data-alert-key')));
  expect(listed[0]).toBe('finding:sorrel');
  expect(listed.some((key) => key === 'finding:fern')).toBe(true);
  expect(await door.page.locator('[data-dialog="alerts"] [data-level]').count()).toBe(1);
  await tap(door.page.locator('[data-alert-key="finding:sorrel"]'));
  await tap(door.page.locator('[data-dialog="findings"] [data-reader="ines"]'));
  await door.page.locator('[data-alert="hand"]').waitFor();
  await desk.page.locator('[data-alert="hand"]').waitFor();
  expect((await calling(door.page)).length).toBe(1);
  expect([...door.errors, ...desk.errors]).toEqual([]);
  await Promise.all([door.context.close(), desk.context.close()]);
});

test('in the aisle the plate has the call, and each tile still says its own state', async () => {
  const { page, context, errors } = await hang(browser, barn.url, { role: 'aisle', stalls: [] });
  await page.locator('[data-alert="hand"]').waitFor();
  expect(await calling(page)).toHaveLength(1);
  await page.locator('[data-horse="moss"] [data-fact="call"]').waitFor();
  await page.locator('[data-horse="fern"] [data-advice]').waitFor();

  // Somebody comes: nothing calls any more, though the line stays until its end is said.
  await tap(page.locator('[data-alert="hand"]'));
  const sheet = page.locator('[data-dialog="call"], [data-dialog="alerts"]');
  await sheet.waitFor();
  if ((await sheet.getAttribute('data-dialog')) === 'alerts')
    await tap(sheet.locator('[data-alert-key]').first());
  await tap(page.locator('[data-names="comes"] [data-person="ada"]'));
  await page.locator('[data-alert="answered"], [data-alert="feetBy"]').first().waitFor();
  expect(errors).toEqual([]);
  await context.close();
});
