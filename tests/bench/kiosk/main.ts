/**
 * An aisle tablet of the demo barn in a real Chromium, its processor slowed six times, while 20 ops a second come in from
 * elsewhere. `jsGzKb` is what had come by the first tile, `jsLaterGzKb` what the page fetched after it by itself. The heap's
 * growth is measured over a run of some minutes at most and scaled to an hour: `heapSeconds` says how long it was.
 *
 *   npm run bench -- kiosk [--seconds N] [--json]
 */
import { parseArgs } from 'node:util';
import type { CDPSession, Page } from 'playwright';
import type { Board } from '#core/day/board.ts';
import { instantAt } from '#core/time/zone.ts';
import { demoBoard, DEMO_START } from '../../../demo/day.ts';
import { hang, hold, launch, TestBarn } from '../../screens/browser.ts';
import { noteScripts, sumOf } from '../../screens/scripts.ts';
import { slope, type Point } from '../slope.ts';
import { stream } from './stream.ts';

const SLOWER = 6;
const OPS_A_SECOND = 20;
const DATE = '2026-06-13';
const DEFAULT_SECONDS = 60;
/** Compiling and caches settle in this time, before the heap is looked at. */
const SETTLING_MS = 5000;
const HEAP_EVERY_MS = 5000;
const TAPS = 100;
const BETWEEN_TAPS_MS = 600;

type Seen = { clicks: number[]; longTasks: number };
declare global {
  interface Window {
    seen: Seen;
  }
}

export async function main(args: string[]): Promise<number> {
  const { values } = parseArgs({ args, options: { seconds: { type: 'string' }, json: { type: 'boolean' } } });
  const seconds = Number(values.seconds ?? DEFAULT_SECONDS);
  if (!(seconds >= 20)) {
    console.error('--seconds takes a number from 20 up');
    return 2;
  }
  const figures = await measure(seconds);
  console.log(JSON.stringify(figures, null, values.json === true ? 0 : 2));
  return 0;
}

async function measure(seconds: number) {
  const morning = demoBoard(DATE);
  const start = instantAt({ date: DATE, time: DEMO_START }, morning.barn.zone);
  const board = withAllHere(morning, start);
  const barn = new TestBarn(board, start);
  await barn.start();
  const browser = await launch();
  try {
    const { page, context } = await hang(browser, 'about:blank', { role: 'aisle', stalls: [] });
    const cdp = await context.newCDPSession(page);
    await cdp.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    await noteScripts(page, '[data-screen="aisle"] [data-horse]');
    await page.addInitScript(watch);
    await page.goto(barn.url);
    await page.locator('[data-screen="aisle"] [data-horse]').first().waitFor({ timeout: 60_000 });
    await page.waitForFunction(() => window.scripts.first !== null);
    const { firstTileMs, first } = await page.evaluate(() => ({
      firstTileMs: window.scripts.at,
      first: window.scripts.first ?? [],
    }));
    const jsGzKb = sumOf(first) / 1000;

    const horse = await checkFeet(page);
    const preps = Object.values(board.day.preps).filter((prep) => prep.horse !== horse);
    const ids = preps.map(({ id }) => id);
    const others = stream(barn.port, ids, () => start, OPS_A_SECOND);
    await page.waitForTimeout(SETTLING_MS);
    const jsLaterGzKb = sumOf(await page.evaluate(() => window.scripts.so())) / 1000 - jsGzKb;
    await page.evaluate(() => {
      window.seen.longTasks = 0;
      window.seen.clicks = [];
    });
    const watched = performance.now();
    await tapAround(page, `[data-horse="${horse}"]`);
    const { clicks, longTasks } = await page.evaluate(() => window.seen);
    const longTasksSeconds = Math.round((performance.now() - watched) / 1000);
    const domNodes = await page.evaluate(() => document.querySelectorAll('*').length);
    const heapKbPerHour = await heapSlope(page, cdp, seconds * 1000);
    const opsSent = others.stop();
    return {
      cpuSlower: SLOWER,
      jsGzKb: rounded(jsGzKb, 1),
      jsLaterGzKb: rounded(jsLaterGzKb, 1),
      firstTileMs: Math.round(firstTileMs ?? NaN),
      taps: clicks.length,
      tapToPaintP50Ms: Math.round(quantile(clicks, 0.5)),
      tapToPaintP98Ms: Math.round(quantile(clicks, 0.98)),
      longTasksOver50: longTasks,
      longTasksSeconds,
      domNodes,
      heapKbPerHour: Math.round(heapKbPerHour),
      heapSeconds: seconds,
      opsSent,
    };
  } finally {
    await browser.close();
    await barn.clear();
  }
}

function withAllHere(board: Board, since: number): Board {
  const hands = Object.entries(board.day.hands).map(([id, one]) => [
    id,
    { ...one, presence: { ...one.presence, state: 'here', since } as const },
  ]);
  return { ...board, day: { ...board.day, hands: Object.fromEntries(hands) } };
}

/** Runs in the page, before it: notes every click until its paint (Event Timing) and long tasks. */
function watch(): void {
  const seen: Seen = { clicks: [], longTasks: 0 };
  window.seen = seen;
  new PerformanceObserver((list) => {
    for (const one of list.getEntries()) if (one.name === 'click') seen.clicks.push(one.duration);
  }).observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit);
  new PerformanceObserver((list) => (seen.longTasks += list.getEntries().length)).observe({
    type: 'longtask',
  });
}

/** On a horse with its feet checked, by somebody who gave a name: what a volunteer taps most, and the largest sheet. */
async function tapAround(page: Page, tile: string): Promise<void> {
  for (let i = 0; i < TAPS; i += 4) {
    await tap(page, `${tile} [data-action="finish"][data-stage="coat"]`);
    await tap(page, `${tile} [data-action="undo"]`);
    await tap(page, `${tile} [data-action="open"]`);
    await tap(page, '[data-dialog] [data-action="close"]');
  }
}

/** By the mouse itself: a driver's own click asks the page where it would land, and the page pays for it. */
async function tap(page: Page, selector: string): Promise<void> {
  const target = page.locator(selector).first();
  await target.waitFor();
  await page.waitForTimeout(BETWEEN_TAPS_MS);
  const box = await target.boundingBox();
  if (!box) throw new Error(`${selector} is not on the page`);
  await page.mouse.click(box.x + box.width / 2, box.y + Math.min(box.height, 40) / 2);
}

/** Somebody checks the feet of the first horse: its id. */
async function checkFeet(page: Page): Promise<string> {
  const horse = await page
    .locator('[data-horse]:has([data-action="finish"])')
    .first()
    .getAttribute('data-horse');
  await tap(page, `[data-horse="${horse}"] [data-action="finish"][data-stage="feet"]`);
  await tap(page, '[data-dialog="feet"] [data-action="allFine"]');
  await hold(page.locator('[data-dialog="feet"] [data-action="confirmFeet"]'));
  await tap(page, '[data-dialog="who"] [data-person]');
  await page.locator('[data-action="undo"]').waitFor({ state: 'detached', timeout: 30_000 });
  return horse ?? '';
}

/** Growth of what is left after collection, by least squares over samples, scaled to an hour; kB of 1,000 bytes. */
async function heapSlope(page: Page, cdp: CDPSession, forMs: number): Promise<number> {
  await cdp.send('Performance.enable');
  const zero = performance.now();
  const samples: Point[] = [];
  while (performance.now() - zero < forMs) {
    await cdp.send('HeapProfiler.collectGarbage');
    const { metrics } = await cdp.send('Performance.getMetrics');
    const bytes = metrics.find(({ name }) => name === 'JSHeapUsedSize')?.value ?? NaN;
    samples.push({ at: (performance.now() - zero) / 3_600_000, kb: bytes / 1000 });
    await page.waitForTimeout(HEAP_EVERY_MS);
  }
  return slope(samples);
}

/** Nearest rank. */
function quantile(list: readonly number[], p: number): number {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[Math.ceil(p * sorted.length) - 1] ?? NaN;
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));
