/** What the tests of sight and access look at, and what pictures are taken of: every screen and its sheets, at a busy minute. */
import type { Browser, Page } from 'playwright';
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Fact } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { instantAt } from '#core/time/zone.ts';
import { simulateDay } from '../../demo/simulate.ts';
import { PATIENCE_MS } from '../patience.ts';
import { tap, TestBarn } from './browser.ts';
import { enter, firstCoordinator } from './gated.ts';

/** A Saturday, so that no real day of anybody's is meant. One lesson is about to begin, one horse runs late, one is pulled. */
const DATE = '2026-06-13';
const TIME = '13:58';

/** The demo's barn at that minute, and that minute. */
export function busyBarn(): { board: Board; now: number } {
  const day = simulateDay({ seed: 1, date: DATE });
  const now = instantAt({ date: DATE, time: TIME }, day.start.barn.zone);
  return { board: day.entries.filter((entry) => entry.at <= now).reduce(evolve, day.start), now };
}

/** The same, and more happens at once than anybody should bear: findings, a call for a hand, a hot afternoon. */
export function troubledBarn(): { board: Board; now: number } {
  const { board, now } = busyBarn();
  const clay = Object.values(board.day.preps).find(
    ({ horse, marks }) => horse === 'clay' && !marks.feet.length,
  );
  const facts: Fact[] = [
    ...(clay ? [{ kind: 'stagesFinished' as const, prep: clay.id, stages: ['feet' as const] }] : []),
    { kind: 'findingSeen', horse: 'juno', finding: { on: 'foot', foot: 'LF', kind: 'nail' }, words: '' },
    {
      kind: 'findingSeen',
      horse: 'hazel',
      finding: { on: 'body', place: 'girth', side: 'left', kind: 'rub' },
      words: 'small, behind the elbow',
    },
    { kind: 'findingSeen', horse: 'bramble', finding: { on: 'foot', foot: 'RH', kind: 'heat' }, words: '' },
    { kind: 'helpAsked', horse: 'juno', call: 'hand', to: null },
    { kind: 'weatherRead', reading: { airF: 93, humidityPercent: 60, windMph: 3 } },
  ];
  const [by = null] = Object.keys(board.barn.staff);
  const after = facts.reduce(
    (next, fact, i) =>
      evolve(next, {
        seq: 9000 + i,
        at: now - 60_000,
        tappedAt: now - 60_000,
        id: `trouble${i}`,
        device: 'seen',
        by,
        facts: [fact],
        why: null,
      }),
    board,
  );
  return { board: after, now };
}

/** One screen in one state: which barn, where the tablet hangs, which page, and what is tapped there, one after the other. */
export type Seen = {
  readonly name: string;
  readonly barn: 'busy' | 'troubled' | 'locked';
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
  barn: 'busy',
  place: AISLE,
  path: '/aisle',
  shows: '[data-screen="aisle"] [data-horse]',
  taps,
});
const door = (name: string, ...taps: string[]): Seen => ({
  name,
  barn: 'busy',
  place: DOOR,
  path: '/door',
  shows: '[data-screen="door"] [data-lesson]',
  taps,
});
const desk = (name: string, ...taps: string[]): Seen => ({
  name,
  barn: 'busy',
  place: DESK,
  path: '/coordinator',
  shows: '[data-screen="coordinator"] [data-panel]',
  taps,
});
const page = (name: string, path: string, place: TabletPlace | null = DESK, ...taps: string[]): Seen => ({
  name,
  barn: 'busy',
  place,
  path,
  shows: 'h1',
  taps,
});
const troubled = (seen: Seen): Seen => ({ ...seen, barn: 'troubled' });
const OPEN_JUNO = '[data-horse="juno"] [data-action="open"]';
const OPEN_HAZEL = '[data-horse="hazel"] [data-action="open"]';

export const AISLE_STATES: readonly Seen[] = [
  aisle('aisle'),
  troubled(aisle('aisle troubled')),
  troubled(aisle('aisle alerts', '[data-alerts-waiting]')),
  aisle('aisle menu', '[data-action="menu"]'),
  aisle('aisle here', '[data-action="imHere"]'),
  aisle('aisle horse', '[data-horse="juno"] [data-action="open"]'),
  aisle('aisle feet', '[data-horse="juno"] [data-action="finish"]'),
  aisle('aisle feet, one wrong', '[data-horse="juno"] [data-action="finish"]', '[data-foot="RF"]'),
  aisle('aisle saw', OPEN_HAZEL, '[data-action="saw"]'),
  aisle('aisle who', '[data-horse="juno"] [data-action="start"]'),
  aisle('aisle help fetch', OPEN_JUNO, '[data-help="fetch"]'),
  aisle('aisle help feet', OPEN_JUNO, '[data-help="feet"]'),
  troubled(aisle('aisle help coat', '[data-horse="clay"] [data-action="open"]', '[data-help="coat"]')),
  aisle('aisle help tack', OPEN_HAZEL, '[data-help="tack"]'),
  aisle('aisle help step', OPEN_JUNO, '[data-help="feet"]', '[data-step-of]'),
];

export const DOOR_STATES: readonly Seen[] = [
  door('door'),
  troubled(door('door troubled')),
  troubled(door('door findings', '[data-first]')),
  troubled(door('door alerts', '[data-action="moreAlerts"]')),
  door('door menu', '[data-action="menu"]'),
  door('door weather', '[data-action="menu"]', '[data-action="readWeather"]'),
];

export const DESK_STATES: readonly Seen[] = [
  desk('coordinator'),
  troubled(desk('coordinator troubled')),
  troubled(desk('coordinator alerts', '[data-action="moreAlerts"]')),
  ...['horses', 'lessons', 'care', 'whatIf', 'recent', 'tablets'].map((panel) =>
    desk(`coordinator ${panel}`, `[data-panel="${panel}"]`),
  ),
  troubled(
    desk('coordinator horse', '[data-panel="horses"]', '[data-screen="coordinator"] ul [data-horse="juno"]'),
  ),
  desk('coordinator person', '[data-lane]'),
  desk(
    'coordinator lesson',
    '[data-panel="lessons"]',
    '[data-screen="coordinator"] section button[data-lesson]',
  ),
  desk(
    'coordinator role',
    '[data-panel="lessons"]',
    '[data-screen="coordinator"] section button[data-lesson]',
    '[data-dialog="lesson"] [data-role]',
  ),
];

const locked = (name: string, path: string): Seen => ({
  name,
  barn: 'locked',
  place: null,
  path,
  shows: 'h1',
  taps: [],
});

export const OTHER_STATES: readonly Seen[] = [
  page('place', '/place', null),
  page('place, door', '/place', null, '[data-hang="door"]'),
  page('glass', '/glance', DESK),
  page('begin', '/begin'),
  page('records', '/records'),
  page('record', '/records', DESK, '[data-action="add"]'),
  page('records rules', '/records', DESK, '[data-table="rules"]'),
  page('sheet', '/sheet'),
  { ...page('end', '/end'), shows: '[data-screen="end"]:not([data-state="asking"])' },
  page('print', '/print'),
  page('import', '/import'),
  locked('pair', '/pair'),
];

export const ALL_STATES: readonly Seen[] = [...AISLE_STATES, ...DOOR_STATES, ...DESK_STATES, ...OTHER_STATES];

/** Barns of states, each started when the first state asks for it. */
export class SeenBarns {
  readonly #barns = new Map<Seen['barn'], Promise<TestBarn>>();

  /** Where this state's hub is. */
  async url({ barn }: Seen): Promise<string> {
    const started = this.#barns.get(barn) ?? SeenBarns.#start(barn);
    this.#barns.set(barn, started);
    return (await started).url;
  }

  static async #start(kind: Seen['barn']): Promise<TestBarn> {
    const { board, now } = kind === 'troubled' ? troubledBarn() : busyBarn();
    const barn = new TestBarn(board, now);
    barn.isOpen = kind !== 'locked';
    await barn.start();
    return barn;
  }

  /** The code the locked barn's console shows. */
  async code(): Promise<string> {
    const barn = await this.#barns.get('locked');
    return barn?.code ?? '';
  }

  async clear(): Promise<void> {
    for (const barn of this.#barns.values()) await (await barn).clear();
  }
}

/** Goes on from `pair` to the first coordinator's PIN, and to the page that asks for it. Calls `at` at each. */
export async function throughTheGate(
  tablet: Page,
  code: string,
  at: (name: string) => Promise<void>,
): Promise<void> {
  await enter(tablet, code);
  await tablet.locator('[name="coordinatorName"]').waitFor();
  await at('pair, first coordinator');
  await firstCoordinator(tablet);
  await tap(tablet.locator('[data-hang="coordinator"]'));
  await tablet.locator('[data-screen="coordinator"]').waitFor();
  await tap(tablet.locator('[data-action="lock"]'));
  await tap(tablet.locator('[data-action="unlock"]'));
  await tablet.locator('h1').first().waitFor();
  await at('unlock');
}

/** Brings a page to this state. False when this build has no such page. */
export async function show(tablet: Page, url: string, seen: Seen): Promise<boolean> {
  const answer = await tablet.goto(`${url}${seen.path}`);
  if (answer?.status() === 404) return false;
  await tablet.locator(seen.shows).first().waitFor();
  for (const target of seen.taps) await tap(tablet.locator(target).first());
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
  context.setDefaultTimeout(PATIENCE_MS);
  const settings: Record<string, unknown> = { place: seen.place, theme: look.theme, language: look.language };
  const remembered = Object.entries(settings)
    .filter(([, value]) => value !== null && value !== undefined)
    .map(([key, value]) => [`aisle-board.${key}`, JSON.stringify(value)] as const);
  await context.addInitScript((all) => {
    for (const [key, value] of all) localStorage.setItem(key, value);
  }, remembered);
  return context.newPage();
}
