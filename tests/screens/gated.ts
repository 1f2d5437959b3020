/** What a person does at the gate's pages. */
import type { Browser, Page } from 'playwright';
import { expect } from 'vitest';
import type { Board } from '#core/day/board.ts';
import { hang, tap, TestBarn } from './browser.ts';

/** A PIN for tests. */
export const PIN = '728405';

/** Between two digits, in ms: two of a kind come as slow as fingers are; what bounces is quicker. */
const BETWEEN_KEYS_MS = 100;

/** A barn with its gate, whose console shows a code. `at`: the hub's time, ms. */
export async function gatedBarn(first: Board, at: number): Promise<TestBarn> {
  const barn = new TestBarn(first, at);
  barn.isOpen = false;
  await barn.start();
  await expect.poll(() => barn.code).toMatch(/^\d{6}$/);
  return barn;
}

/** The first tablet of such a barn, paired, and hung as the coordinator's by its first one. */
export async function firstTablet(browser: Browser, barn: TestBarn): ReturnType<typeof hang> {
  const hung = await hang(browser, barn.url, null);
  await enter(hung.page, barn.code);
  await firstCoordinator(hung.page);
  await tap(hung.page.locator('[data-hang="coordinator"]'));
  return hung;
}

/** Types on the big keys; a PIN needs its OK. */
export async function enter(page: Page, digits: string): Promise<void> {
  await page.locator('[data-key="0"]').waitFor();
  const done = page.locator('[data-key="done"]');
  const isPin = (await done.count()) > 0;
  for (const digit of digits) {
    await page.locator(`[data-key="${digit}"]`).click();
    await page.waitForTimeout(BETWEEN_KEYS_MS);
  }
  if (isPin) await done.click();
}

/** The barn's first coordinator, Ines. */
export async function firstCoordinator(page: Page): Promise<void> {
  await page.fill('[name="coordinatorName"]', 'Ines');
  await tap(page.locator('[data-action="named"]'));
  await enter(page, PIN);
  await page.locator('[data-key="done"][disabled]').waitFor();
  await enter(page, PIN);
}

/** A code for another tablet, from the coordinator's screen. */
export async function newCode(page: Page): Promise<string> {
  await tap(page.locator('[data-panel="tablets"]'));
  await tap(page.locator('[data-action="newCode"]'));
  const code = await page.locator('[data-code]').getAttribute('data-code');
  await tap(page.locator('[data-action="close"]'));
  return code ?? '';
}
