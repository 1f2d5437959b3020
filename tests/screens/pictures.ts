/**
 * Takes the README's pictures: the invented barn at a set minute of its afternoon, every screen in both orientations.
 *
 *   npm run pictures
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { TabletPlace } from '#core/day/places.ts';
import { evolve } from '#core/day/evolve.ts';
import { instantAt } from '#core/time/zone.ts';
import { simulateDay } from '../../demo/simulate.ts';
import { hang, launch, LANDSCAPE, PORTRAIT, tap, TestBarn } from './browser.ts';

const FOLDER = fileURLToPath(new URL('../../demo/pictures', import.meta.url));

/** A Saturday, so that no real day of anybody's is meant. */
const DATE = '2026-06-13';
/** One lesson is about to begin, a horse of the next one runs late: its person has not come. */
const TIME = '13:58';
const SEED = 1;

const PLACES: readonly TabletPlace[] = [
  { role: 'aisle', stalls: [] },
  { role: 'door', arena: null, metres: 8 },
  { role: 'coordinator' },
];

const day = simulateDay({ seed: SEED, date: DATE });
const now = instantAt({ date: DATE, time: TIME }, day.start.barn.zone);
const board = day.entries.filter((entry) => entry.at <= now).reduce(evolve, day.start);

const barn = new TestBarn(board, now);
await barn.start();
const browser = await launch();
mkdirSync(FOLDER, { recursive: true });
for (const viewport of [LANDSCAPE, PORTRAIT]) {
  for (const place of PLACES) {
    const { page, context } = await hang(browser, barn.url, place, viewport);
    await page.locator(`[data-screen="${place.role}"]`).waitFor();
    // The first forecast has come when a tile or lane says a time.
    await page.waitForTimeout(2500);
    await page.screenshot({ path: join(FOLDER, `${place.role}-${viewport.width}x${viewport.height}.png`) });
    await context.close();
  }
}
for (const viewport of [LANDSCAPE, PORTRAIT]) {
  const { page, context } = await hang(browser, barn.url, { role: 'aisle', stalls: [] }, viewport);
  await tap(page.locator('[data-horse="juno"] [data-action="finish"]'));
  await tap(page.locator('[data-action="fine"]'));
  await page.screenshot({ path: join(FOLDER, `feet-${viewport.width}x${viewport.height}.png`) });
  await context.close();
}
await browser.close();
await barn.clear();
