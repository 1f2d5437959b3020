/**
 * Who may do what, on real pages: a barn begun from the demo, tablets paired and struck off, PINs, and the barn in one file.
 * The figures (six digits, one use, two minutes) are the project's own demand.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { demoBoard } from '../../demo/day.ts';
import { Demo } from '../../demo/main.ts';
import { restore } from '../../hub/restore.ts';
import { enter, firstCoordinator, firstTablet, gatedBarn, newCode, PIN } from './gated.ts';
import { hang, HUB_NAME, launch, tap } from './browser.ts';

const OTHER_PIN = '905173';
const DATE = '2026-05-12';
/** 13:00 of that day in the demo's zone, ms. */
const MIDDAY = Date.UTC(2026, 4, 12, 19);

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

const screen = (page: Page, name: string) => page.locator(`[data-screen="${name}"]`);

test('whoever begins a barn from the demo is let in and coordinates it; others of the demo are not', async () => {
  const data = mkdtempSync(join(tmpdir(), 'aisle-board-gate-'));
  const demo = await Demo.open({
    port: 0,
    host: '127.0.0.1',
    names: [HUB_NAME],
    data,
    speed: 60,
    seed: 1,
    date: '2026-06-13',
    log: () => {},
  });
  const url = `http://${HUB_NAME}:${demo.hub.port}`;
  const aisle = await hang(browser, url, { role: 'aisle', stalls: [] });
  await aisle.page.locator('[data-horse]').first().waitFor();
  const c = await hang(browser, url, { role: 'coordinator' });
  await tap(c.page.locator('[data-action="startOwn"]'));
  await c.page.fill('input[name="barnName"]', 'Larch Hill');
  await tap(c.page.locator('[data-action="startBarn"]'));
  await firstCoordinator(c.page);
  await c.page.locator('input[name="horseName"]').waitFor();
  await screen(aisle.page, 'pair').waitFor();
  expect(await aisle.page.locator('[data-horse]').count()).toBe(0);
  expect([c.errors, aisle.errors]).toEqual([[], []]);
  await Promise.all([c, aisle].map(({ context }) => context.close()));
  await demo.close();
  rmSync(data, { recursive: true, force: true });
});

test('paired, unlocked, locked, struck off; and the barn in one file', async () => {
  const barn = await gatedBarn(demoBoard(DATE), MIDDAY);

  // The first tablet, with the code of the hub's own console.
  const c = await hang(browser, barn.url, null);
  await screen(c.page, 'pair').waitFor();
  const wrong = barn.code === '000000' ? '000001' : '000000';
  await enter(c.page, wrong);
  await c.page.locator('[data-told]:not(:empty)').waitFor();
  await enter(c.page, barn.code);
  await firstCoordinator(c.page);
  await tap(c.page.locator('[data-hang="coordinator"]'));
  await screen(c.page, 'coordinator').waitFor();

  // A second one, by the address of a QR code; the code is used up.
  const code = await newCode(c.page);
  const a = await hang(browser, `${barn.url}/pair#${code}`, null);
  await a.page.fill('[name="tabletName"]', 'Wash bay');
  await tap(a.page.locator('[data-hang="aisle"]'));
  await tap(a.page.locator('[data-action="hang"]'));
  await screen(a.page, 'aisle').waitFor();
  expect(a.page.url()).not.toContain(code);
  const late = await hang(browser, `${barn.url}/pair#${code}`, null);
  await late.page.locator('[data-told]:not(:empty)').waitFor();
  expect(await screen(late.page, 'hang').count()).toBe(0);
  await late.context.close();

  // A wrong PIN, again and again, has to wait; the right one, too.
  await tap(a.page.locator('[data-action="menu"]'));
  await tap(a.page.locator('[data-action="unlock"]'));
  const told = a.page.locator('[data-told]:not(:empty)');
  for (let tries = 0; tries < 4; tries += 1) {
    await enter(a.page, OTHER_PIN);
    await told.waitFor();
  }
  await expect.poll(() => told.textContent()).toMatch(/Wait (30|2\d) sec/);
  await enter(a.page, PIN);
  await expect.poll(() => told.textContent()).toMatch(/Wait \d+ sec/);
  expect(await screen(a.page, 'coordinator').count()).toBe(0);
  barn.pass(31_000);
  await enter(a.page, PIN);
  await screen(a.page, 'coordinator').waitFor();

  // Two minutes without a touch, by a moved clock: both are locked, and show what an aisle may know.
  barn.pass(121_000);
  for (const { page } of [a, c]) await screen(page, 'aisle').waitFor();
  await tap(c.page.locator('[data-band="locked"] [data-action="unlock"]'));
  await enter(c.page, PIN);
  await screen(c.page, 'coordinator').waitFor();

  // The barn in one file.
  await tap(c.page.locator('[data-panel="tablets"]'));
  const [download] = await Promise.all([
    c.page.waitForEvent('download'),
    tap(c.page.locator('[data-action="backup"]')),
  ]);
  const file = await download.path();

  // A PIN is taken away only by somebody who is sure, and the last one by nobody.
  await tap(c.page.locator('[data-action="takePin"]'));
  const sure = c.page.locator('[data-dialog="takePin"]');
  await tap(sure.locator('[data-action="takePinNow"]'));
  await sure.locator('[role="alert"]:not(:empty)').waitFor();
  await tap(sure.locator('[data-action="keepPin"]'));
  await sure.waitFor({ state: 'detached' });
  await c.page.locator('[data-action="takePin"]').waitFor();

  // Struck off: its page has nothing of the barn any more, nor after a reload.
  await a.page.locator('[data-horse]').first().waitFor();
  await tap(
    c.page.locator('[data-here="true"]', { hasText: 'Wash bay' }).locator('[data-action="changeTablet"]'),
  );
  await tap(c.page.locator('[data-action="strikeOff"]'));
  await tap(c.page.locator('[data-action="strikeOffNow"]'));
  await screen(a.page, 'pair').waitFor();
  expect(await a.page.locator('[data-horse]').count()).toBe(0);
  expect(await a.page.evaluate(() => localStorage.getItem('aisle-board.last'))).toBeNull();
  await a.page.reload();
  await screen(a.page, 'pair').waitFor();

  const data = mkdtempSync(join(tmpdir(), 'aisle-board-gate-'));
  const { backup } = await restore(file, data, 0);
  expect(backup.snapshot.board.barn.name).toBe(demoBoard(DATE).barn.name);
  expect(Object.values(backup.snapshot.board.barn.staff).map(({ name }) => name)).toContain('Ines');
  rmSync(data, { recursive: true, force: true });

  expect([c.errors, a.errors]).toEqual([[], []]);
  await Promise.all([c, a].map(({ context }) => context.close()));
  await barn.clear();
});

test('what was written and not saved is kept while unlocked, and gone once locked', async () => {
  const barn = await gatedBarn(demoBoard(DATE), MIDDAY);
  const { page, context, errors } = await firstTablet(browser, barn);
  await screen(page, 'coordinator').waitFor();
  const openRider = async (): Promise<void> => {
    await tap(page.locator('[data-action="menu"]'));
    await tap(page.locator('[data-action="records"]'));
    await tap(page.locator('[data-table="riders"]'));
    await tap(page.locator('[data-record="r3"]'));
  };
  const kept = (): Promise<string> => page.evaluate(() => JSON.stringify([sessionStorage, localStorage]));
  await openRider();
  await page.fill('[data-form="riders"] [name="callName"]', 'Quillon');
  // Unlocked it is over a reload, too, and stays on its screen.
  await page.reload();
  await tap(page.locator('[data-screen="records"] [data-table="riders"]'));
  await tap(page.locator('[data-record="r3"]'));
  expect(await page.inputValue('[data-form="riders"] [name="callName"]')).toBe('Quillon');
  expect(await kept()).toContain('Quillon');
  barn.pass(121_000);
  await screen(page, 'aisle').waitFor();
  expect(await kept()).not.toMatch(/Quillon|draft |weightKg/);
  await tap(page.locator('[data-band="locked"] [data-action="unlock"]'));
  await enter(page, PIN);
  await screen(page, 'coordinator').waitFor();
  await openRider();
  expect(await page.inputValue('[data-form="riders"] [name="callName"]')).toBe('Bruno');
  expect(errors).toEqual([]);
  await context.close();
  await barn.clear();
});

test('what a coordinator tapped while the hub was away, on a tablet locked meanwhile, comes back as a sentence', async () => {
  const barn = await gatedBarn(demoBoard(DATE), MIDDAY);
  const { page, context, errors } = await firstTablet(browser, barn);
  await tap(page.locator('[data-panel="horses"]'));
  await barn.stop();
  await page.locator('[data-band="away"]').waitFor();
  await tap(page.locator('[data-panel="lessons"]'));
  await tap(page.locator('[data-lesson]').first());
  await tap(page.locator('[data-dialog="lesson"] [data-action="cancelLesson"]'));
  await tap(page.locator('[data-dialog="proposal"] [data-action="confirm"]'));
  await tap(page.locator('[data-action="lock"]'));
  // Nobody is unlocked here any more: no rider is left on the glass, nor kept.
  await screen(page, 'aisle').waitFor();
  await barn.start();
  await page.locator('[data-notice]', { hasText: 'locked' }).waitFor();
  expect(errors).toEqual([]);
  await context.close();
  await barn.clear();
});
