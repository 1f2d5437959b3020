/** A newcomer: the demo is alive, then a barn of their own with one lesson, one horse and one person on the board. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { Demo } from '../../demo/main.ts';
import { hang, HUB_NAME, launch, tap } from './browser.ts';
import { enter, firstCoordinator, newCode } from './gated.ts';

let browser: Browser;
let demo: Demo;
let folder: string;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'aisle-board-own-'));
  demo = await Demo.open({
    port: 0,
    host: '127.0.0.1',
    names: [HUB_NAME],
    data: folder,
    speed: 60,
    seed: 1,
    date: '2026-06-13',
    log: () => {},
  });
});
afterEach(async () => {
  await demo.close();
  rmSync(folder, { recursive: true, force: true });
});

const url = (): string => `http://${HUB_NAME}:${demo.hub.port}`;

test('the demo shows 14 tiles, says it is a demo, and its board moves by itself', async () => {
  const { page, context, errors } = await hang(browser, url(), { role: 'aisle', stalls: [] });
  await expect.poll(() => page.locator('[data-screen="aisle"] [data-horse]').count()).toBe(14);
  await page.locator('[data-band="demo"]').waitFor();
  const states = (): Promise<string> =>
    page
      .locator('[data-screen="aisle"] [data-state]')
      .evaluateAll((marks) => marks.map((mark) => mark.getAttribute('data-state')).join(' '));
  const before = await states();
  await expect.poll(states).not.toBe(before);
  expect(errors).toEqual([]);
  await context.close();
});

/** A zone where it is about noon now, so that a lesson late in the evening is still to come whenever the test runs. */
function middayZone(): string {
  const ahead = 12 - new Date().getUTCHours();
  // In these names of the IANA zones the sign is the other way round.
  return ahead === 0 ? 'Etc/GMT' : `Etc/GMT${ahead > 0 ? '-' : '+'}${Math.abs(ahead)}`;
}

test('from the demo to a barn of one’s own, and its first lesson onto the board', async () => {
  const c = await hang(browser, url(), { role: 'coordinator' });
  await c.page.locator('[data-screen="coordinator"]').waitFor();
  await tap(c.page.locator('[data-action="startOwn"]'));
  await c.page.fill('input[name="barnName"]', 'Larch Hill');
  await c.page.fill('input[name="zone"]', middayZone());
  await tap(c.page.locator('[data-action="startBarn"]'));

  // Whoever begins it coordinates it; the others of the demo are let in by a code.
  await firstCoordinator(c.page);
  await c.page.fill('input[name="horseName"]', 'Nutmeg');
  await c.page.fill('input[name="stall"]', '7');
  await c.page.fill('input[name="personName"]', 'Ilse');
  // Nobody is cleared for anything until somebody says so.
  for (const one of ['feet', 'coat', 'tack']) {
    const clearance = c.page.locator(`[data-clearance="${one}"]`);
    if ((await clearance.getAttribute('aria-pressed')) !== 'true') await tap(clearance);
  }
  await c.page.fill('input[name="lessonName"]', 'First lesson');
  await c.page.fill('input[name="time"]', '23:30');
  await tap(c.page.locator('[data-action="put"]'));

  const a = await hang(browser, url(), { role: 'aisle', stalls: [] });
  await a.page.locator('[data-screen="pair"]').waitFor();
  await tap(c.page.locator('[data-action="toBoard"]'));
  await enter(a.page, await newCode(c.page));
  await tap(a.page.locator('[data-hang="aisle"]'));
  await tap(a.page.locator('[data-action="hang"]'));
  const nutmeg = a.page.locator('[data-screen="aisle"] [data-horse]');
  await nutmeg.waitFor();
  expect(await nutmeg.textContent()).toContain('Nutmeg');
  expect(await nutmeg.textContent()).toContain('Ilse');
  expect(await a.page.locator('[data-band="demo"]').count()).toBe(0);
  expect([a.errors, c.errors]).toEqual([[], []]);
  await Promise.all([a, c].map(({ context }) => context.close()));
});
