/** The main job on three real pages over one hub: what one board is told, the others show. */
import type { Browser, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import type { Volunteer } from '#core/barn/people.ts';
import type { Board } from '#core/day/board.ts';
import type { TabletPlace } from '#core/day/places.ts';
import type { Fact } from '#core/day/ops.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { NOON, smallBoardAfter } from '../properties/day-arbitraries.ts';
import { hang, hold, launch, LANDSCAPE, PORTRAIT, tap, TestBarn } from './browser.ts';

let browser: Browser;
let barn: TestBarn;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

beforeEach(async () => {
  barn = new TestBarn(boardWithCho(), NOON);
  await barn.start();
});
afterEach(() => barn.clear());

/** The small barn with cho here too, who is careful and slow. */
function boardWithCho(): Board {
  const cho = {
    id: 'cho',
    name: 'cho',
    clearances: ['feet', 'coat', 'tack', 'experienced'],
    private: { pace: 1.6, usualHours: [] },
  } satisfies Volunteer;
  const facts: Fact[] = [
    { kind: 'recordSaved', saved: { table: 'volunteers', record: cho } },
    { kind: 'volunteerArrived', volunteer: 'cho' },
  ];
  return smallBoardAfter(...facts);
}

const aisle: TabletPlace = { role: 'aisle', stalls: [] };
const door: TabletPlace = { role: 'door', arena: null, metres: 8 };
const coordinator: TabletPlace = { role: 'coordinator' };

const tile = (page: Page, horse: string) => page.locator(`[data-screen="aisle"] [data-horse="${horse}"]`);

/** Finishes the next stage of a horse on an aisle page: all feet fine, and a name when asked for one. */
async function finish(page: Page, horse: string, person: string): Promise<void> {
  const mine = tile(page, horse);
  await mine.locator('[data-action="goOn"], [data-action="finish"]').first().waitFor();
  if (await mine.locator('[data-action="goOn"]').isVisible()) await tap(mine.locator('[data-action="goOn"]'));
  await tap(mine.locator('[data-action="finish"]'));
  const feet = page.locator('[data-dialog="feet"]');
  if ((await mine.getAttribute('data-status')) === 'notStarted') {
    await tap(feet.locator('[data-action="allFine"]'));
    await feet.locator('[data-action="confirmFeet"]').click({ delay: HELD_MS });
  }
  const allFine = page.locator('[data-action="allFine"]');
  const badge = page.locator(`[data-dialog] [data-person="${person}"]`);
  const undo = mine.locator('[data-action="undo"]');
  await allFine.or(badge).or(undo).first().waitFor();
  if (await allFine.isVisible()) {
    await tap(allFine);
    await hold(page.locator('[data-action="confirmFeet"]'));
    await badge.or(undo).first().waitFor();
  }
  if (await badge.isVisible()) await tap(badge);
}

/** What the tile says about who is or will be on the horse. */
async function who(page: Page, horse: string): Promise<string> {
  return (await tile(page, horse).locator('[data-fact="who"]').textContent()) ?? '';
}

/** Longer than the target that ends a feet check asks to be held. */
const HELD_MS = 900;

test('a tap in the aisle is on the door and at the coordinator', async () => {
  const [a, d, c] = await Promise.all([
    hang(browser, barn.url, aisle),
    hang(browser, barn.url, door),
    hang(browser, barn.url, coordinator),
  ]);
  expect(await a.page.evaluate(() => window.isSecureContext)).toBe(false);

  await d.page.locator('[data-lesson="L1"] >> nth=0').waitFor();
  await c.page.locator('[data-lane="ada"] .group', { hasText: 'fern' }).waitFor();

  for (const status of ['feetChecked', 'coatReady', 'tacked']) {
    await finish(a.page, 'fern', 'ada');
    await a.page.locator(`[data-horse="fern"][data-status="${status}"][data-pending="false"]`).waitFor();
  }
  await d.page.locator('[data-horse="fern"][data-word="ready"]').waitFor();
  // All of ada's work is done: no block is left on her lane.
  await expect.poll(() => c.page.locator('[data-lane="ada"] .group').count()).toBe(0);
  expect([a.errors, d.errors, c.errors]).toEqual([[], [], []]);
  await Promise.all([a, d, c].map(({ context }) => context.close()));
});

test('the door’s word changes when a horse becomes late', async () => {
  const { page, context } = await hang(browser, barn.url, door);
  await page.locator('[data-horse="fern"][data-word="onTime"]').waitFor();
  barn.pass(40 * MINUTE_MS);
  await page.locator('[data-horse="fern"][data-word="late"]').waitFor();
  await page.locator('[data-lesson="L1"][data-word="late"]').waitFor();
  await context.close();
});

test('a move by the coordinator shows its effect first, then changes the aisle’s tile', async () => {
  const [a, c] = await Promise.all([hang(browser, barn.url, aisle), hang(browser, barn.url, coordinator)]);
  await expect.poll(() => who(a.page, 'fern')).toContain('ada');

  await tap(c.page.locator('[data-lane="ada"] [data-action="openPerson"]'));
  await tap(c.page.locator('[data-dialog] [data-piece="fern.1:feet"]'));
  await tap(c.page.locator('[data-dialog] [data-person="cho"]'));
  await c.page.locator('[data-effect="fern.1"]').waitFor();
  // Shown, not done.
  expect(await who(a.page, 'fern')).toContain('ada');

  await tap(c.page.locator('[data-action="confirm"]'));
  await expect.poll(() => who(a.page, 'fern')).toContain('cho');
  await Promise.all([a, c].map(({ context }) => context.close()));
});

test('a pulled horse is on every board, and a reload returns to the same place and state', async () => {
  const [a, d, c] = await Promise.all([
    hang(browser, barn.url, aisle),
    hang(browser, barn.url, door),
    hang(browser, barn.url, coordinator),
  ]);
  await tap(c.page.locator('[data-panel="horses"]'));
  await tap(c.page.locator('[data-screen="coordinator"] [data-horse="moss"]'));
  await tap(c.page.locator('[data-why]').first());
  await tap(c.page.locator('[data-hold="farrier"]'));
  await tap(c.page.locator('[data-staff="ines"]'));
  await tap(c.page.locator('[data-action="confirm"]'));

  await a.page.locator('[data-horse="moss"][data-status="pulled"]').waitFor();
  await d.page.locator('[data-horse="moss"][data-word="pulled"]').waitFor();
  expect(await tile(a.page, 'moss').locator('[data-action="finish"]').count()).toBe(0);

  await Promise.all([a.page.reload(), d.page.reload(), c.page.reload()]);
  await a.page.locator('[data-horse="moss"][data-status="pulled"]').waitFor();
  await d.page.locator('[data-horse="moss"][data-word="pulled"]').waitFor();
  await c.page.locator('[data-screen="coordinator"]').waitFor();
  await Promise.all([a, d, c].map(({ context }) => context.close()));
});

test('undo takes a tap back within its ten seconds', async () => {
  const { page, context } = await hang(browser, barn.url, aisle);
  await finish(page, 'fern', 'ada');
  await page.locator('[data-horse="fern"][data-status="feetChecked"]').waitFor();
  await tap(tile(page, 'fern').locator('[data-action="undo"]'));
  await page.locator('[data-horse="fern"][data-status="notStarted"][data-pending="false"]').waitFor();
  await context.close();
});

test('hub stopped: pages say so and keep taps; started again: they come back by themselves, nothing lost', async () => {
  const [a, b] = await Promise.all([hang(browser, barn.url, aisle), hang(browser, barn.url, aisle)]);
  await finish(a.page, 'fern', 'ada');
  await b.page.locator('[data-horse="fern"][data-status="feetChecked"]').waitFor();

  await barn.stop();
  await a.page.locator('[data-band="away"]').waitFor();
  await finish(a.page, 'fern', 'ada');
  await a.page.locator('[data-horse="fern"][data-status="coatReady"][data-pending="true"]').waitFor();

  await barn.start();
  await a.page.locator('[data-horse="fern"][data-status="coatReady"][data-pending="false"]').waitFor();
  await b.page.locator('[data-horse="fern"][data-status="coatReady"]').waitFor();
  await expect.poll(() => a.page.locator('[data-band="away"]').count()).toBe(0);
  await Promise.all([a, b].map(({ context }) => context.close()));
});

test.each([LANDSCAPE, PORTRAIT])(
  'every screen fits $width × $height without sideways scrolling',
  async (viewport) => {
    for (const place of [aisle, door, coordinator]) {
      const { page, context } = await hang(browser, barn.url, place, viewport);
      await page.locator(`[data-screen="${place.role}"]`).waitFor();
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(over, place.role).toBeLessThanOrEqual(0);
      await context.close();
    }
  },
);

test('first visit: asks where the tablet hangs, and remembers', async () => {
  const { page, context } = await hang(browser, barn.url, null);
  await tap(page.locator('[data-hang="aisle"]'));
  await tap(page.locator('[data-stalls="all"]'));
  await tap(page.locator('[data-action="hang"]'));
  await tile(page, 'fern').waitFor();
  await page.goto(barn.url);
  await tile(page, 'fern').waitFor();
  await context.close();
});
