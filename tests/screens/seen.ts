/** What the tests of sight and access look at: every screen and its main sheets, on the barn of the demo at a busy minute. */
import type { Browser, Page } from 'playwright';
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { instantAt } from '#core/time/zone.ts';
import { simulateDay } from '../../demo/simulate.ts';
import { tap } from './browser.ts';

/** A Saturday, so that no real day of anybody's is meant. One lesson is about to begin, one horse runs late, one is pulled. */
const DATE = '2026-06-13';
const TIME = '13:58';

/** The demo's barn at that minute, and that minute. */
export function busyBarn(): { board: Board; now: number } {
  const day = simulateDay({ seed: 1, date: DATE });
  const now = instantAt({ date: DATE, time: TIME }, day.start.barn.zone);
  return { board: day.entries.filter((entry) => entry.at <= now).reduce(evolve, day.start), now };
}

/** One screen in one state: where the tablet hangs, which page, and what is tapped there, one after the other. */
export type Seen = {
  readonly name: string;
  readonly place: TabletPlace | null;
  readonly path: string;
  readonly shows: string;
  readonly taps: readonly string[];
};

const AISLE: TabletPlace = { role: 'aisle', stalls: [] };
const DOOR: TabletPlace = { role: 'door', arena: null, metres: 6 };
const DESK: TabletPlace = { role: 'coordinator' };

const aisle = (name: string, ...taps: string[]): Seen => ({
  name,
  place: AISLE,
  path: '/aisle',
  shows: '[data-screen="aisle"] [data-horse]',
  taps,
});
const door = (name: string, ...taps: string[]): Seen => ({
  name,
  place: DOOR,
  path: '/door',
  shows: '[data-screen="door"] [data-lesson]',
  taps,
});
const desk = (name: string, ...taps: string[]): Seen => ({
  name,
  place: DESK,
  path: '/coordinator',
  shows: '[data-screen="coordinator"] [data-panel]',
  taps,
});
const page = (name: string, path: string, place: TabletPlace | null = DESK, ...taps: string[]): Seen => ({
  name,
  place,
  path,
  shows: 'h1',
  taps,
});

export const AISLE_STATES: readonly Seen[] = [
  aisle('aisle'),
  aisle('aisle menu', '[data-action="menu"]'),
  aisle('aisle here', '[data-action="imHere"]'),
  aisle('aisle horse', '[data-horse="juno"] [data-action="open"]'),
  aisle('aisle feet', '[data-horse="juno"] [data-action="finish"]'),
  aisle('aisle feet, one wrong', '[data-horse="juno"] [data-action="finish"]', '[data-foot="RF"]'),
  aisle('aisle who', '[data-horse="juno"] [data-action="start"]'),
];

export const DOOR_STATES: readonly Seen[] = [door('door'), door('door menu', '[data-action="menu"]')];

export const DESK_STATES: readonly Seen[] = [
  desk('coordinator'),
  ...['horses', 'lessons', 'care', 'whatIf', 'recent', 'tablets'].map((panel) =>
    desk(`coordinator ${panel}`, `[data-panel="${panel}"]`),
  ),
  desk('coordinator horse', '[data-panel="horses"]', '[data-screen="coordinator"] ul [data-horse]'),
];

export const OTHER_STATES: readonly Seen[] = [
  page('place', '/place', null),
  page('place, door', '/place', null, '[data-hang="door"]'),
  page('glass', '/glance', DESK),
  page('begin', '/begin'),
  page('records', '/records'),
  page('sheet', '/sheet'),
  page('end', '/end'),
  page('print', '/print'),
  page('import', '/import'),
];

/** Brings a page to this state. False when this build has no such page. */
export async function show(page: Page, url: string, seen: Seen): Promise<boolean> {
  const answer = await page.goto(`${url}${seen.path}`);
  if (answer?.status() === 404) return false;
  await page.locator(seen.shows).first().waitFor();
  for (const target of seen.taps) await tap(page.locator(target).first());
  return true;
}

export type Look = { readonly theme?: 'day' | 'night'; readonly language?: string };

/** A tablet of its own for one state, its settings already remembered. */
export async function tablet(
  browser: Browser,
  seen: Seen,
  viewport: { width: number; height: number },
  look: Look = {},
): Promise<Page> {
  const context = await browser.newContext({ viewport, hasTouch: true, bypassCSP: true });
  context.setDefaultTimeout(15_000);
  const settings: Record<string, unknown> = { place: seen.place, theme: look.theme, language: look.language };
  const remembered = Object.entries(settings)
    .filter(([, value]) => value !== null && value !== undefined)
    .map(([key, value]) => [`aisle-board.${key}`, JSON.stringify(value)] as const);
  await context.addInitScript((all) => {
    for (const [key, value] of all) localStorage.setItem(key, value);
  }, remembered);
  return context.newPage();
}
