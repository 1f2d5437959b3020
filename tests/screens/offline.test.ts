/**
 * A metal barn's radio, on real pages: the hub away, the page reloaded, killed, opened twice, a newer build. Under a name of
 * the barn's network, where a page is no secure context, and at localhost, where it is one. What must come of it is the
 * project's own demand: what was tapped arrives once, and nobody is left without a word.
 */
import { rmSync } from 'node:fs';
import type { Browser, BrowserContext, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Board } from '#core/day/board.ts';
import type { Fact } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { HOUR_MS } from '#core/time/units.ts';
import { sayReason } from '#core/words/en/reasons.ts';
import { horse, NOON, smallBoardAfter } from '../properties/day-arbitraries.ts';
import { hang, launch, tap, TestBarn } from './browser.ts';
import { newerBuild } from './builds.ts';
import { Cable } from './cable.ts';

let browser: Browser;
let barn: TestBarn;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());
beforeEach(async () => {
  barn = new TestBarn(tenHorses(), NOON);
  await barn.start();
});
afterEach(() => barn.clear());

const NAMES = ['ash', 'birch', 'cedar', 'dill', 'elm', 'fir', 'gorse', 'hazel', 'iris', 'jade'];

/** Ten horses with their feet checked, for one lesson: coat and tack make twenty stages to finish. */
function tenHorses(): Board {
  const place = { leader: null, sideWalkers: [], cancelled: false, rider: null, tack: 't1' };
  const facts: Fact[] = [
    ...NAMES.map((id): Fact => ({ kind: 'recordSaved', saved: { table: 'horses', record: horse(id) } })),
    { kind: 'lessonCancelled', lesson: 'L1' },
    { kind: 'lessonCancelled', lesson: 'L2' },
    {
      kind: 'lessonAdded',
      lesson: {
        id: 'L3',
        name: 'Third',
        start: NOON + 2 * HOUR_MS,
        minutes: 30,
        arena: null,
        instructor: null,
        cancelled: false,
        places: NAMES.map((id) => ({ ...place, id: `p${id}`, horse: id })),
      },
    },
    ...NAMES.map((id): Fact => ({ kind: 'stagesFinished', prep: `${id}.1`, stages: ['feet'] })),
  ];
  return smallBoardAfter(...facts);
}

const aisle: TabletPlace = { role: 'aisle', stalls: [] };
const coordinator: TabletPlace = { role: 'coordinator' };
const STATUSES = ['feetChecked', 'coatReady', 'tacked'] as const;

const tile = (page: Page, name: string) => page.locator(`[data-screen="aisle"] [data-horse="${name}"]`);

async function finish(page: Page, name: string): Promise<void> {
  const mine = tile(page, name);
  await mine.waitFor();
  const now = await mine.getAttribute('data-status');
  const next = page.locator(`[data-screen="aisle"] [data-horse="${name}"]:not([data-status="${now}"])`);
  const badge = page.locator('[data-dialog] [data-person="ada"]');
  const taken = badge.or(next).first();
  // The way back gives way to the next stage by itself after some seconds, and a tap on what has only just come under
  // the finger is not taken: then one taps again.
  const finishing = async () => {
    if (await taken.isVisible()) return;
    const goOn = mine.locator('[data-action="goOn"]');
    if (await goOn.isVisible()) await goOn.click({ timeout: 1000 }).catch(() => null);
    const target = mine.locator('[data-action="finish"]');
    await target.waitFor({ timeout: 3000 });
    await tap(target);
    await taken.waitFor({ timeout: 3000 });
  };
  await vi.waitFor(finishing, { timeout: 60_000, interval: 100 });
  if (await badge.isVisible()) await tap(badge);
  await next.waitFor();
}

/** Finishes `count` stages: the coats of all horses, then their tack. */
async function finishStages(page: Page, count: number): Promise<void> {
  for (let i = 0; i < count; i += 1) await finish(page, NAMES[i % NAMES.length]!);
}

/** What the board must show after `finishStages(count)`. */
async function expectFinished(page: Page, count: number, pending: boolean): Promise<void> {
  for (const [i, name] of NAMES.entries()) {
    const done = Math.floor((count - i - 1) / NAMES.length) + 1;
    const state = `[data-status="${STATUSES[done]}"][data-pending="${pending}"]`;
    await page.locator(`[data-horse="${name}"]${state}`).waitFor();
  }
}

async function hungWithCable(url: string, place: TabletPlace = aisle) {
  const hung = await hang(browser, 'about:blank', place);
  const cable = new Cable();
  await cable.plugInto(hung.context);
  await hung.page.goto(url);
  await hung.page.locator(`[data-screen="${place.role}"]`).waitFor();
  return { ...hung, cable };
}

/** The service worker has the page, and would open it alone. */
async function workerHasIt(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    while (!navigator.serviceWorker.controller) await new Promise((done) => setTimeout(done, 50));
  });
}

const away = '[data-band="away"]';

/** Puts a tap of this kind behind those the tablet keeps, as a page of another version would have. */
async function keepTap(page: Page, fact: object): Promise<void> {
  await page.evaluate(async (kind) => {
    const db = await opened();
    const store = db.transaction('taps', 'readwrite').objectStore('taps');
    const [last] = (await done(store.getAll())) as { n: number; op: object }[];
    const op = { ...last?.op, id: 'kept-since-then', fact: kind };
    await done(store.put({ id: 'kept-since-then', n: (last?.n ?? 0) + 1, op, protocol: 1 }));
    db.close();
    function opened(): Promise<IDBDatabase> {
      return done(indexedDB.open('aisle-board'));
    }
    function done<T>(request: IDBRequest<T>): Promise<T> {
      return new Promise((end, fail) => {
        request.onsuccess = () => end(request.result);
        request.onerror = () => fail(new Error('no answer'));
      });
    }
  }, fact);
}

/** How many taps are in the tablet's store. */
async function tapsKept(page: Page): Promise<number> {
  return page.evaluate(
    () =>
      new Promise<number>((done, fail) => {
        const open = indexedDB.open('aisle-board');
        open.onerror = () => fail(new Error('no store'));
        open.onsuccess = () => {
          const count = open.result.transaction('taps').objectStore('taps').count();
          count.onsuccess = () => done(count.result);
        };
      }),
  );
}

/** Every tap that was sent was sent once. */
function expectEachSentOnce(cable: Cable): void {
  expect(cable.tapsSent.length).toBe(new Set(cable.tapsSent).size);
}

describe('on a plain name of the barn’s network', () => {
  test('hub away, 20 taps, the tab killed, hub back: all 20 are there, once', async () => {
    const { page, context, errors } = await hang(browser, barn.url, aisle);
    await tile(page, 'ash').waitFor();
    await page.waitForLoadState('networkidle');
    const before = await barn.taken();
    await barn.stop();
    await page.locator(away).waitFor();
    await finishStages(page, 20);
    await expectFinished(page, 20, true);
    expect(await page.locator(away).textContent()).toContain('20 taps kept');
    await page.close({ runBeforeUnload: false });

    await barn.start();
    const again = await context.newPage();
    await again.goto(barn.url);
    await expectFinished(again, 20, false);
    expect(await barn.taken()).toBe(before + 20);
    // A reader who was never there sees the same.
    const other = await hang(browser, barn.url, aisle);
    await expectFinished(other.page, 20, false);
    expect(errors).toEqual([]);
    await Promise.all([context.close(), other.context.close()]);
  });

  test('says that it cannot open without the hub, and asks before it lets itself be reloaded away', async () => {
    const { page, context } = await hang(browser, barn.url, aisle);
    await tile(page, 'ash').waitFor();
    expect(await page.evaluate(() => 'serviceWorker' in navigator)).toBe(false);
    // The sheets come just after the first picture.
    await page.waitForLoadState('networkidle');
    await barn.stop();
    await page.locator(away).waitFor();
    await finish(page, 'ash');
    const asked = page.waitForEvent('dialog');
    const reload = page.reload({ timeout: 3000 }).catch(() => null);
    const dialog = await asked;
    expect(dialog.type()).toBe('beforeunload');
    await dialog.dismiss();
    await reload;
    await page.locator('[data-horse="ash"][data-status="coatReady"][data-pending="true"]').waitFor();
    await barn.start();
    await page.locator('[data-horse="ash"][data-status="coatReady"][data-pending="false"]').waitFor();

    await page.goto(`${barn.url}/place`);
    await page.locator('[data-can="reload"][data-is="false"]').waitFor();
    await page.locator('[data-can="keeping"][data-is="true"]').waitFor();
    await context.close();
  });

  test('a tap kept since another version of the board is said and let go of, and holds up no other', async () => {
    const { page, context, errors } = await hang(browser, barn.url, aisle);
    await tile(page, 'ash').waitFor();
    await page.waitForLoadState('networkidle');
    const before = await barn.taken();
    await barn.stop();
    await page.locator(away).waitFor();
    await finish(page, 'ash');
    await keepTap(page, { kind: 'hoofPolished', horse: 'ash' });
    await finish(page, 'birch');
    await page.close({ runBeforeUnload: false });

    await barn.start();
    const again = await context.newPage();
    again.on('pageerror', (error) => errors.push(error.message));
    await again.goto(barn.url);
    await again.locator('[data-horse="ash"][data-status="coatReady"][data-pending="false"]').waitFor();
    await again.locator('[data-horse="birch"][data-status="coatReady"][data-pending="false"]').waitFor();
    await again.getByText(sayReason({ code: 'unreadable' }, (id) => id)).waitFor();
    expect(await barn.taken()).toBe(before + 2);
    expect(await tapsKept(again)).toBe(0);
    expect(errors).toEqual([]);
    await context.close();
  });

  test('two tabs share one outbox: nothing is sent twice, nothing is lost when the one that sends is closed', async () => {
    await twoTabs(barn.url, false);
  });
});

describe('in a secure context', () => {
  test('hub away at a reload: the board opens with its age, and 20 taps are kept and arrive once', async () => {
    const { page, context, errors } = await hang(browser, barn.secureUrl, aisle);
    await tile(page, 'ash').waitFor();
    await workerHasIt(page);
    const before = await barn.taken();
    await barn.stop();
    await page.locator(away).waitFor();
    await finishStages(page, 20);
    await page.reload();
    await expectFinished(page, 20, true);
    expect(await page.locator(away).textContent()).toMatch(
      /how things stood at \d\d:\d\d, .* ago.*20 taps kept/,
    );
    await barn.start();
    await expectFinished(page, 20, false);
    expect(await barn.taken()).toBe(before + 20);
    expect(errors).toEqual([]);
    await context.close();
  });

  test('the browser itself offline: reloads, shows its board, comes back', async () => {
    const { page, context } = await hang(browser, barn.secureUrl, aisle);
    await tile(page, 'ash').waitFor();
    await workerHasIt(page);
    await page.goto(`${barn.secureUrl}/place`);
    await page.locator('[data-can="reload"][data-is="true"]').waitFor();
    await context.setOffline(true);
    await page.goto(`${barn.secureUrl}/aisle`);
    await page.locator(away).waitFor();
    await finish(page, 'ash');
    await page.locator('[data-horse="ash"][data-status="coatReady"][data-pending="true"]').waitFor();
    await page.reload();
    await page.locator('[data-horse="ash"][data-status="coatReady"][data-pending="true"]').waitFor();
    await context.setOffline(false);
    await page.locator('[data-horse="ash"][data-status="coatReady"][data-pending="false"]').waitFor();
    await context.close();
  });

  test('two tabs share one outbox: nothing is sent twice, nothing is lost when the one that sends is closed', async () => {
    await twoTabs(barn.secureUrl, true);
  });
});

async function twoTabs(url: string, hasLocks: boolean): Promise<void> {
  const { page: first, context, cable } = await hungWithCable(url);
  await tile(first, 'ash').waitFor();
  expect(await first.evaluate(() => 'locks' in navigator)).toBe(hasLocks);
  const second = await context.newPage();
  await second.goto(url);
  await tile(second, 'ash').waitFor();
  const before = await barn.taken();

  await finish(first, 'ash');
  await finish(second, 'birch');
  await first.locator('[data-horse="birch"][data-status="coatReady"][data-pending="false"]').waitFor();
  await second.locator('[data-horse="ash"][data-status="coatReady"][data-pending="false"]').waitFor();
  expect(await barn.taken()).toBe(before + 2);

  await cable.pull();
  await Promise.all([first, second].map((page) => page.locator(away).waitFor()));
  await finish(second, 'cedar');
  await finish(first, 'dill');
  // Each tab knows what the other one keeps.
  await second.locator('[data-horse="dill"][data-status="coatReady"][data-pending="true"]').waitFor();
  await first.close();
  cable.push();
  for (const name of ['cedar', 'dill']) {
    await second.locator(`[data-horse="${name}"][data-status="coatReady"][data-pending="false"]`).waitFor();
  }
  expect(await barn.taken()).toBe(before + 4);
  expectEachSentOnce(cable);
  await context.close();
}

describe('a tap the hub declines later', () => {
  test('comes back as a sentence with what to do, also after reloads before and after the answer', async () => {
    const { page, context, cable } = await hungWithCable(barn.url);
    await cable.pull();
    await page.locator(away).waitFor();
    await finish(page, 'ash');

    const desk = await hang(browser, barn.url, coordinator);
    await pull(desk.page, 'ash');
    await desk.context.close();

    await page.reload();
    await page.locator(away).waitFor();
    cable.push();
    const notice = page.locator('[data-notice]', { hasText: 'ash is pulled from today’s work.' });
    await notice.waitFor();
    expect(await notice.textContent()).toContain('ask the instructor');
    // The tap itself is answered; the sentence stays until somebody has read it.
    await page.reload();
    await notice.waitFor();
    await tap(notice.locator('button'));
    await page.reload();
    await tile(page, 'ash').waitFor();
    expect(await notice.count()).toBe(0);
    await context.close();
  });
});

async function pull(page: Page, name: string): Promise<void> {
  const before = await barn.taken();
  await tap(page.locator('[data-panel="horses"]'));
  await tap(page.locator(`[data-screen="coordinator"] [data-horse="${name}"]`));
  await tap(page.locator('[data-why]').first());
  await tap(page.locator('[data-hold="today"]'));
  await tap(page.locator('[data-staff="ines"]'));
  await tap(page.locator('[data-action="confirm"]'));
  await expect.poll(() => barn.taken()).toBe(before + 1);
}

describe('a hub that is not well', () => {
  test('writes nothing down: a band says so, the tap stays and goes again when it can', async () => {
    const { page, context, cable } = await hungWithCable(barn.url);
    const status = { say: 'status', version: '0', tornTail: null, clockJump: null } as const;
    const before = await barn.taken();
    cable.insteadOfTaps = () => [
      { say: 'refused', code: 'readOnly' },
      { ...status, readOnly: { since: NOON, why: 'full' } },
    ];
    await finish(page, 'ash');
    await page.locator('[data-band="readOnly"]', { hasText: '1 tap is kept here' }).waitFor();
    await page.locator('[data-horse="ash"][data-status="coatReady"][data-pending="true"]').waitFor();
    expect(await barn.taken()).toBe(before);

    cable.insteadOfTaps = null;
    cable.say({ ...status, readOnly: null });
    await page.locator('[data-horse="ash"][data-status="coatReady"][data-pending="false"]').waitFor();
    await page.locator('[data-band="readOnly"]').waitFor({ state: 'detached' });
    expect(await barn.taken()).toBe(before + 1);
    await context.close();
  });

  test('its clock was set, its last write was torn: bands say so', async () => {
    const { page, context, cable } = await hungWithCable(barn.url);
    cable.say({
      say: 'status',
      version: '0',
      readOnly: null,
      tornTail: { bytes: 12, keptAs: 'torn' },
      clockJump: { at: NOON, byMs: -7_200_000 },
    });
    await page.locator('[data-band="clockJump"]', { hasText: 'set back by 2 h' }).waitFor();
    await page.locator('[data-band="tornTail"]').waitFor();
    await context.close();
  });

  test('says what the page cannot read: the page says so, keeps its board and taps', async () => {
    const { page, context, cable } = await hungWithCable(barn.url);
    cable.fromHub = (text) => text.replace('"say":"welcome"', '"say":"greetings"');
    await cable.pull();
    cable.push();
    await page.locator('[data-band="unreadable"]').waitFor();
    await finish(page, 'ash');
    await page.locator('[data-horse="ash"][data-status="coatReady"][data-pending="true"]').waitFor();
    cable.fromHub = (text) => text;
    await cable.pull();
    cable.push();
    await page.locator('[data-horse="ash"][data-status="coatReady"][data-pending="false"]').waitFor();
    await page.locator('[data-band="unreadable"]').waitFor({ state: 'detached' });
    await context.close();
  });
});

describe.each([
  ['plain', (one: TestBarn) => one.url],
  ['secure', (one: TestBarn) => one.secureUrl],
] as const)('a newer build of the board (%s)', (_, urlOf) => {
  test('is loaded once nobody has touched the page for a minute, with the taps kept', async () => {
    const { page, context } = await hang(browser, 'about:blank', aisle);
    await page.clock.install();
    await page.goto(urlOf(barn));
    await tile(page, 'ash').waitFor();
    const isSecure = await page.evaluate(() => window.isSecureContext);
    if (isSecure) await workerHasIt(page);
    const build = await versionOf(context, urlOf(barn));
    await page.waitForLoadState('networkidle');
    await barn.stop();
    await page.locator(away).waitFor();
    await finish(page, 'ash');
    barn.kiosk = newerBuild();
    try {
      await barn.start();
      await page.evaluate(() => Object.assign(window, { isOldPage: true }));
      await page.locator('[data-horse="ash"][data-status="coatReady"][data-pending="false"]').waitFor();
      await page.clock.fastForward(50_000);
      await new Promise((done) => setTimeout(done, 2500));
      expect(await page.evaluate(() => 'isOldPage' in window)).toBe(true);
      await page.clock.fastForward(15_000);
      await expect.poll(() => page.evaluate(() => 'isOldPage' in window).catch(() => true)).toBe(false);
      await page.locator('[data-horse="ash"][data-status="coatReady"][data-pending="false"]').waitFor();
      expect(await versionOf(context, urlOf(barn))).not.toBe(build);
      expect(await page.content()).toContain('-n.js');
      if (!isSecure) return await context.close();
      // The newer build is what opens without the hub from now on.
      const isInPlace = async (): Promise<boolean> => {
        const worker = await navigator.serviceWorker.getRegistration();
        const isDone = worker?.active?.state === 'activated' && !worker.installing && !worker.waiting;
        return isDone && (await caches.keys()).length === 2;
      };
      await expect.poll(() => page.evaluate(isInPlace)).toBe(true);
      await barn.stop();
      await page.reload();
      await page.locator('[data-horse="ash"][data-status="coatReady"]').waitFor();
      expect(await page.content()).toContain('-n.js');
      await context.close();
    } finally {
      rmSync(barn.kiosk, { recursive: true, force: true });
    }
  });
});

/** What the hub says it serves. */
async function versionOf(context: BrowserContext, url: string): Promise<string> {
  return (await context.request.get(`${url.replace(/\/\/[^:]+/, '//127.0.0.1')}/_app/version.json`)).text();
}
