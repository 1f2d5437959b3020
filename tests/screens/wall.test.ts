/**
 * A board on a wall, on real pages: dark at night, never quite still, up again by itself, deaf to what happens to a glass by
 * accident. The demands are the project's own; what zooms, marks and drags a page is Chromium's, shown on a coordinator's page.
 */
import type { Browser, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { wallTimeAt } from '#core/time/zone.ts';
import { entry, NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { hang, launch, tap, TestBarn } from './browser.ts';

const AISLE: TabletPlace = { role: 'aisle', stalls: [] };

let browser: Browser;
let barn: TestBarn;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());
beforeEach(async () => {
  barn = new TestBarn(inDarkHours(smallBoard()), NOON);
  await barn.start();
});
afterEach(() => barn.clear());

/** With dark hours around `NOON`. */
function inDarkHours(board: Board): Board {
  const hour = Number(wallTimeAt(NOON, board.barn.zone).time.slice(0, 2));
  const rules = { ...board.barn.rules, darkFromHour: hour - 1, darkToHour: hour + 2 };
  return { ...board, barn: { ...board.barn, rules } };
}

/** A tablet whose own clocks a test can move on; the board is there. */
async function clocked(url: string, place: TabletPlace) {
  const hung = await hang(browser, `${url}/health`, place);
  await hung.page.clock.install();
  await hung.page.goto(url);
  await hung.page.locator(`[data-screen="${place.role}"]`).waitFor();
  return hung;
}

const dark = (page: Page) => page.locator('[data-dark]');

test('a page that was dark loads dark, before any of its programs runs', async () => {
  const { page, context } = await hang(browser, `${barn.url}/health`, AISLE);
  await page.evaluate(() => localStorage.setItem('aisle-board.theme', '"night"'));
  await page.goto(barn.url);
  const look = (): Promise<string | undefined> =>
    page.evaluate(() => document.documentElement.dataset['theme']);
  const ground = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  await page.locator('[data-screen="aisle"]').waitFor();
  expect(await look()).toBe('night');
  const night = await ground();
  await context.route('**/_app/**/*.js', (route) => route.abort());
  await page.reload({ waitUntil: 'domcontentloaded' });
  expect(await page.locator('[data-screen]').count()).toBe(0);
  expect([await look(), await ground()]).toEqual(['night', night]);
  await context.close();
});

test('in the dark hours a board nobody touches goes dark; a touch wakes it and does nothing else', async () => {
  await barn.clear();
  barn = new TestBarn(inDarkHours(emptyBoard('Larch Hill', 'America/Denver')), NOON);
  await barn.start();
  const { page, context, errors } = await clocked(barn.url, AISLE);
  await page.clock.fastForward('02:00');
  await page.waitForTimeout(1500);
  expect(await dark(page).count()).toBe(0);
  await page.clock.fastForward('01:30');
  await dark(page).waitFor();
  await expect.poll(() => dark(page).evaluate((one) => getComputedStyle(one).opacity)).toBe('0.88');
  const menu = page.locator('[data-action="menu"]');
  const box = (await menu.boundingBox())!;
  await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
  await dark(page).waitFor({ state: 'detached' });
  expect(await page.locator('[data-dialog]').count()).toBe(0);

  // Out of the hours by the barn's clock: it stays light.
  barn.pass(4 * 60 * 60 * 1000);
  await page.reload();
  await page.locator('[data-screen="aisle"]').waitFor();
  await page.clock.fastForward('10:00');
  await page.waitForTimeout(1500);
  expect(await dark(page).count()).toBe(0);
  expect(errors).toEqual([]);
  await context.close();
});

test('while a lesson is prepared a board is never dark, nor ever a coordinator’s', async () => {
  const a = await clocked(barn.url, AISLE);
  const c = await clocked(barn.url, { role: 'coordinator' });
  for (const { page } of [a, c]) {
    await page.clock.fastForward('05:00');
    await page.waitForTimeout(1500);
    expect(await dark(page).count()).toBe(0);
  }
  await Promise.all([a.context.close(), c.context.close()]);
  // The same board, with nothing left to prepare.
  await barn.clear();
  const idle = ['L1', 'L2'].reduce(
    (board, lesson, i) => evolve(board, entry(60 + i, { kind: 'lessonCancelled', lesson })),
    smallBoard(),
  );
  barn = new TestBarn(inDarkHours(idle), NOON);
  await barn.start();
  const b = await clocked(barn.url, AISLE);
  await b.page.clock.fastForward('05:00');
  await dark(b.page).waitFor();
  await b.context.close();
});

test('the picture moves by a pixel at a time and two at most, not while it is touched', async () => {
  const { page, context } = await clocked(barn.url, AISLE);
  const main = page.locator('main');
  const at = async () => (await main.boundingBox())!;
  const first = await at();
  let before = first;
  let moves = 0;
  for (let i = 0; i < 6; i += 1) {
    await page.clock.fastForward('03:05');
    await page.waitForTimeout(1200);
    const now = await at();
    const step = Math.abs(now.x - before.x) + Math.abs(now.y - before.y);
    expect(step).toBeLessThanOrEqual(1);
    expect([now.width, now.height]).toEqual([first.width, first.height]);
    for (const far of [now.x - first.x, now.y - first.y]) expect(Math.abs(far)).toBeLessThanOrEqual(2);
    moves += step;
    before = now;
  }
  expect(moves).toBeGreaterThan(3);
  // Touched every half minute it stands still, however long.
  for (let i = 0; i < 10; i += 1) {
    await page.clock.fastForward('00:30');
    await page.touchscreen.tap(4, 400);
  }
  await page.waitForTimeout(1200);
  expect(await at()).toEqual(before);
  await context.close();
});

test('an error on the page is said, and it starts again by itself once the hub is there; what was tapped arrives once', async () => {
  await barn.clear();
  const feet = entry(60, { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] });
  barn = new TestBarn(evolve(smallBoard(), feet), NOON);
  await barn.start();
  const { page, context } = await hang(browser, barn.url, AISLE);
  await page.locator('[data-horse="fern"]').waitFor();
  await page.waitForLoadState('networkidle');
  const before = await barn.taken();
  await barn.stop();
  await page.locator('[data-band="away"]').waitFor();
  await tap(page.locator('[data-horse="fern"] [data-action="finish"]'));
  await tap(page.locator('[data-dialog] [data-person="ada"]'));
  await page.locator('[data-horse="fern"][data-status="coatReady"][data-pending="true"]').waitFor();
  await page.evaluate(() => {
    document.documentElement.dataset['broken'] = 'yes';
    setTimeout(() => {
      throw new Error('made by a test');
    });
  });
  await page.locator('[data-notice]', { hasText: 'starts again by itself' }).waitFor();
  // There is nothing to load from: it stays as it is.
  await page.waitForTimeout(3000);
  expect(await page.locator('html[data-broken]').count()).toBe(1);
  await barn.start();
  await page.locator('html:not([data-broken])').waitFor({ state: 'attached' });
  await page.locator('[data-notice]', { hasText: 'has started again' }).waitFor();
  await page.locator('[data-horse="fern"][data-status="coatReady"][data-pending="false"]').waitFor();
  expect(await barn.taken()).toBe(before + 1);
  await context.close();
});

test('a rejected promise is a fault, a remark of the browser is none', async () => {
  const { page, context } = await hang(browser, barn.url, AISLE);
  await page.locator('[data-horse="fern"]').waitFor();
  await page.evaluate(() => {
    document.documentElement.dataset['broken'] = 'yes';
    // As Chromium says it of a ResizeObserver that did not come to an end.
    window.dispatchEvent(new ErrorEvent('error', { message: 'ResizeObserver loop completed' }));
  });
  await page.waitForTimeout(3000);
  expect(await page.locator('html[data-broken]').count()).toBe(1);
  await page.evaluate(() => void Promise.reject(new Error('made by a test')));
  await page.locator('html:not([data-broken])').waitFor({ state: 'attached' });
  await page.locator('[data-horse="fern"]').waitFor();
  await context.close();
});

test('a page that lost one of its files on the way starts again until it is whole', async () => {
  const { page, context } = await hang(browser, `${barn.url}/health`, AISLE);
  await page.clock.install();
  let lost = 0;
  await page.route('**/_app/immutable/entry/app.*.js', (route) => {
    lost += 1;
    return lost === 1 ? route.abort() : route.continue();
  });
  await page.goto(barn.url);
  expect(await page.locator('main').count()).toBe(0);
  await page.clock.fastForward('00:20');
  await page.locator('[data-horse="fern"]').waitFor();
  expect(lost).toBeGreaterThan(1);
  await context.close();
});

test('two fingers, two quick taps, a long press and a drag do nothing to a board on the wall, and a desk’s page is as any', async () => {
  const scaleAfterPinch = async (page: Page): Promise<number> => {
    const session = await page.context().newCDPSession(page);
    const fingers = (apart: number) => [
      { x: 400 - apart, y: 300, id: 0 },
      { x: 400 + apart, y: 300, id: 1 },
    ];
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', apart: number | null) =>
      session.send('Input.dispatchTouchEvent', { type, touchPoints: apart === null ? [] : fingers(apart) });
    await touch('touchStart', 30);
    for (let apart = 35; apart < 200; apart += 15) await touch('touchMove', apart);
    await touch('touchEnd', null);
    return page.evaluate(() => window.visualViewport?.scale ?? 0);
  };
  const accidents = (page: Page): Promise<{ marked: string; menu: boolean; drag: boolean }> =>
    page.evaluate(() => {
      const main = document.querySelector('main')!;
      const may = (type: string): boolean =>
        main.dispatchEvent(new MouseEvent(type, { bubbles: true, cancelable: true }));
      getSelection()?.removeAllRanges();
      document.execCommand('selectAll');
      return {
        marked: getSelection()?.toString().trim() ?? '',
        menu: may('contextmenu'),
        drag: may('dragstart'),
      };
    });
  const wall = await hang(browser, barn.url, AISLE);
  await wall.page.locator('[data-horse="fern"]').waitFor();
  expect(await scaleAfterPinch(wall.page)).toBe(1);
  expect(await accidents(wall.page)).toEqual({ marked: '', menu: false, drag: false });
  const touch = await wall.page
    .locator('button')
    .first()
    .evaluate((one) => getComputedStyle(one).touchAction);
  expect(touch).toBe('pan-x pan-y');
  expect(await wall.page.evaluate(() => getComputedStyle(document.body).overscrollBehaviorY)).toBe('none');

  const desk = await hang(browser, barn.url, { role: 'coordinator' });
  await desk.page.locator('[data-screen="coordinator"]').waitFor();
  expect(await scaleAfterPinch(desk.page)).toBeGreaterThan(1.5);
  expect(await accidents(desk.page)).toMatchObject({ menu: true, drag: true });
  expect((await accidents(desk.page)).marked).not.toBe('');
  await Promise.all([wall.context.close(), desk.context.close()]);
});

test('one tap fills the screen; the wake lock is asked for again when the page is seen again', async () => {
  const { page, context } = await hang(browser, `${barn.secureUrl}/health`, AISLE);
  await page.addInitScript(() => {
    const { wakeLock } = navigator;
    const asked = wakeLock.request.bind(wakeLock);
    let count = 0;
    wakeLock.request = async (kind) => {
      count += 1;
      document.documentElement.dataset['wakeAsked'] = String(count);
      const lock = await asked(kind);
      document.addEventListener('drop', () => void lock.release());
      return lock;
    };
  });
  await page.goto(barn.secureUrl);
  await page.locator('[data-horse="fern"]').waitFor();
  await tap(page.locator('[data-action="menu"]'));
  await tap(page.locator('[data-action="fullScreen"]'));
  await expect.poll(() => page.evaluate(() => document.fullscreenElement?.tagName)).toBe('HTML');
  await tap(page.locator('[data-action="menu"]'));
  expect(await page.locator('[data-action="fullScreen"]').count()).toBe(0);

  const asked = async (): Promise<number> =>
    Number(await page.evaluate(() => document.documentElement.dataset['wakeAsked'] ?? 0));
  const before = await asked();
  expect(before).toBeGreaterThan(0);
  // A page that is not seen loses its lock (Screen Wake Lock API, "handling document loses visibility").
  const see = (state: string, isDropped: boolean): Promise<void> =>
    page.evaluate(
      ([now, drops]) => {
        Object.defineProperty(document, 'visibilityState', { value: now, configurable: true });
        if (drops) document.dispatchEvent(new Event('drop'));
        document.dispatchEvent(new Event('visibilitychange'));
      },
      [state, isDropped] as const,
    );
  await see('hidden', true);
  await page.waitForTimeout(500);
  expect(await asked()).toBe(before);
  await see('visible', false);
  await expect.poll(asked).toBe(before + 1);
  // Dropped by the system while it is seen.
  await see('visible', true);
  await expect.poll(asked).toBe(before + 2);
  await context.close();
});
