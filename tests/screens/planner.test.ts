/** What the planner says on real pages: a suggestion and what becomes of it, what-ifs, chances in words, extras. */
import type { Browser, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import type { Volunteer } from '#core/barn/people.ts';
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Fact } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { entry, NOON, smallBoardAfter } from '../properties/day-arbitraries.ts';
import { hang, launch, LANDSCAPE, PORTRAIT, tap, TestBarn } from './browser.ts';

const aisle: TabletPlace = { role: 'aisle', stalls: [] };
const door: TabletPlace = { role: 'door', arena: null, metres: 8 };
const coordinator: TabletPlace = { role: 'coordinator' };

let browser: Browser;
let barn: TestBarn;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());
afterEach(() => barn.clear());

/**
 * Two whole preparations of 23 min each are ada's alone, 42 min before the ramp; cho is here with nothing to do. By hand:
 * alone she needs 46 min and more, so one horse is late by 4 min and more; with a horse each both are ready 19 min early.
 */
const OVERLOADED = smallBoardAfter(
  { kind: 'volunteerArrived', volunteer: 'cho' },
  { kind: 'volunteerLeft', volunteer: 'ben' },
  {
    kind: 'workMoved',
    pieces: ['moss.1:feet', 'moss.1:coat', 'moss.1:tack'],
    to: 'ada',
    before: null,
  },
);
const ASKED = NOON + 3 * MINUTE_MS;

async function open(board: Board, at: number): Promise<void> {
  barn = new TestBarn(board, at);
  await barn.start();
}

async function who(page: Page, horse: string): Promise<string> {
  return (
    (await page.locator(`[data-screen="aisle"] [data-horse="${horse}"] [data-fact="who"]`).textContent()) ??
    ''
  );
}

const offer = (page: Page) => page.locator('[data-part="suggestion"]');

test('one person has too much: a suggestion, looked at, accepted, and the late lesson is on time', async () => {
  await open(OVERLOADED, ASKED);
  const [a, d, c] = await Promise.all([
    hang(browser, barn.url, aisle),
    hang(browser, barn.url, door),
    hang(browser, barn.url, coordinator),
  ]);
  await d.page.locator('[data-lesson="L1"][data-word="late"]').waitFor();
  expect(await d.page.locator('[data-chance]').first().getAttribute('data-chance')).toBe('doubtful');
  await offer(c.page).waitFor();

  await tap(c.page.locator('[data-action="lookAtSuggestion"]'));
  await c.page.locator('[data-dialog="suggestion"] [data-effect="L1"]').waitFor();
  await c.page.locator('[data-dialog="suggestion"] [data-effect="cho"]').waitFor();
  // Shown, not done.
  expect([await who(a.page, 'fern'), await who(a.page, 'moss')].join()).not.toContain('cho');

  await tap(c.page.locator('[data-action="acceptAll"]'));
  await expect
    .poll(async () => [await who(a.page, 'fern'), await who(a.page, 'moss')].join())
    .toContain('cho');
  await d.page.locator('[data-lesson="L1"][data-word="onTime"]').waitFor();
  await expect.poll(() => offer(c.page).count()).toBe(0);
  expect([a.errors, d.errors, c.errors]).toEqual([[], [], []]);
  await Promise.all([a, d, c].map(({ context }) => context.close()));
});

test('one move of several can be had by itself, its effect first', async () => {
  const place = { leader: null, sideWalkers: [], cancelled: false, rider: null, tack: 't1' };
  const dan: Volunteer = {
    id: 'dan',
    name: 'dan',
    clearances: ['feet', 'coat', 'tack', 'experienced'],
    private: { pace: 1, usualHours: [] },
  };
  const more: Fact[] = [
    { kind: 'recordSaved', saved: { table: 'volunteers', record: dan } },
    { kind: 'volunteerArrived', volunteer: 'dan' },
    {
      kind: 'lessonAdded',
      lesson: {
        id: 'L3',
        name: 'Third',
        start: NOON + 60 * MINUTE_MS,
        minutes: 30,
        arena: null,
        instructor: null,
        cancelled: false,
        places: [{ ...place, id: 'p1', horse: 'sorrel' }],
      },
    },
    {
      kind: 'workMoved',
      pieces: ['sorrel.1:feet', 'sorrel.1:coat', 'sorrel.1:tack'],
      to: 'ada',
      before: null,
    },
  ];
  await open(
    more.reduce((b, fact, i) => evolve(b, entry(70 + i, fact)), OVERLOADED),
    ASKED,
  );
  // Three horses for one person, two more people idle.
  const { page, context } = await hang(browser, barn.url, coordinator);
  await offer(page).waitFor();
  // One move leaves two horses with one person; the hub goes on looking and finds two.
  await expect.poll(() => offer(page).textContent()).toContain(' and give ');
  await tap(page.locator('[data-action="lookAtSuggestion"]'));
  await tap(page.locator('[data-option="2"]'));
  expect(await page.locator('[data-action="onlyThis"]').count()).toBe(2);
  await tap(page.locator('[data-action="onlyThis"]').first());
  await page.locator('[data-dialog="proposal"] [data-effect]').first().waitFor();
  await context.close();
});

test('“not now” puts a suggestion away', async () => {
  await open(OVERLOADED, ASKED);
  const { page, context } = await hang(browser, barn.url, coordinator);
  await offer(page).waitFor();
  await tap(offer(page).locator('[data-action="notNow"]'));
  await expect.poll(() => offer(page).count()).toBe(0);
  // Forecasts go on coming; the same suggestion does not come back with them.
  await new Promise((done) => setTimeout(done, 7000));
  expect(await offer(page).count()).toBe(0);
  await context.close();
});

test('nothing is suggested while everything is on time', async () => {
  await open(smallBoardAfter({ kind: 'volunteerArrived', volunteer: 'cho' }), NOON - 30 * MINUTE_MS);
  const { page, context } = await hang(browser, barn.url, coordinator);
  await page.locator('[data-lane="ada"] .group').first().waitFor();
  await new Promise((done) => setTimeout(done, 4000));
  expect(await page.locator('[data-part="suggestion"], [data-part="noSuggestion"]').count()).toBe(0);
  await context.close();
});

test('nobody else is here: the board says whether anything better exists, and offers nothing', async () => {
  await open(
    smallBoardAfter(
      { kind: 'volunteerLeft', volunteer: 'ben' },
      { kind: 'workMoved', pieces: ['moss.1:feet', 'moss.1:coat', 'moss.1:tack'], to: 'ada', before: null },
      { kind: 'lessonCancelled', lesson: 'L2' },
    ),
    NOON + 20 * MINUTE_MS,
  );
  const { page, context } = await hang(browser, barn.url, coordinator);
  await page.locator('[data-part="noSuggestion"]').waitFor();
  expect(await offer(page).count()).toBe(0);
  await context.close();
});

test('who is behind has a block on their lane', async () => {
  await open(OVERLOADED, ASKED);
  const { page, context } = await hang(browser, barn.url, coordinator);
  await page.locator('[data-lane="ada"].behind .group').first().waitFor();
  await context.close();
});

test('what if somebody leaves, a lesson moves, a rider cancels: seen, and nothing is done', async () => {
  await open(OVERLOADED, ASKED);
  const { page, context } = await hang(browser, barn.url, coordinator);
  // A tablet's own clock is another month's: the board's shows barn time once the hub's is known.
  await page.locator('[data-fact="clock"]', { hasText: '13:0' }).waitFor();
  await tap(page.locator('[data-panel="whatIf"]'));
  const leave = async (): Promise<void> => {
    await page.locator('[data-dialog="proposal"] [data-action="confirm"]').waitFor();
    await tap(page.locator('[data-dialog="proposal"] [data-action="leave"]'));
  };

  await tap(page.locator('[data-choice="ada"]'));
  // An hour hence is too late to matter: back to half past one, in the middle of her work.
  for (let i = 0; i < 3; i += 1) await tap(page.locator('[data-step="less"]'));
  await page.locator('[data-stepper]', { hasText: '13:30' }).waitFor();
  await tap(page.locator('[data-action="look"]'));
  await page.locator('[data-effect]').first().waitFor();
  await leave();

  await tap(page.locator('[data-question="moves"]'));
  await tap(page.locator('[data-choice="L1"]'));
  await tap(page.locator('[data-step="more"]'));
  await tap(page.locator('[data-step="more"]'));
  await tap(page.locator('[data-action="look"]'));
  await page.locator('[data-effect="moss.1"]').waitFor();
  await leave();

  await tap(page.locator('[data-question="cancels"]'));
  await tap(page.locator('[data-choice="L1"]'));
  await tap(page.locator('[data-choice="p2"]'));
  await page.locator('[data-effect]').first().waitFor();
  await leave();

  // Moss still has its place: nothing was done.
  await tap(page.locator('[data-panel="hands"]'));
  await page.locator('[data-lane="ada"] .group', { hasText: 'moss' }).first().waitFor();
  await context.close();
});

test('time for mane and tail is said while the coat is under way, and for each horse in its detail', async () => {
  await open(
    evolve(
      evolve(
        smallBoardAfter(
          { kind: 'volunteerArrived', volunteer: 'cho' },
          { kind: 'lessonCancelled', lesson: 'L2' },
        ),
        {
          ...entry(80, { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] }),
          by: 'ada',
        },
      ),
      { ...entry(81, { kind: 'stageStarted', prep: 'fern.1', stage: 'coat' }), by: 'ada' },
    ),
    NOON + 2 * MINUTE_MS,
  );
  const { page, context } = await hang(browser, barn.url, aisle);
  const tile = page.locator('[data-screen="aisle"] [data-horse="fern"]');
  await tile.locator('[data-fact="extras"]').waitFor();
  await tap(tile.locator('[data-action="open"]'));
  await expect.poll(() => page.locator('[data-dialog] [data-fact="extras"]').textContent()).toContain('yes');
  await context.close();
});

test.each([LANDSCAPE, PORTRAIT])(
  'suggestion and what-if fit $width × $height without sideways scrolling',
  async (viewport) => {
    await open(OVERLOADED, ASKED);
    const { page, context } = await hang(browser, barn.url, coordinator, viewport);
    const over = () => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    await offer(page).waitFor();
    expect(await over()).toBeLessThanOrEqual(0);
    await tap(page.locator('[data-action="lookAtSuggestion"]'));
    expect(await over()).toBeLessThanOrEqual(0);
    await tap(page.locator('[data-dialog] [data-action="close"]'));
    await tap(page.locator('[data-panel="whatIf"]'));
    await tap(page.locator('[data-choice="ada"]'));
    expect(await over()).toBeLessThanOrEqual(0);
    await context.close();
  },
);
