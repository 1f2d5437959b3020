/** What a person does at the gate's pages. */
import type { Page } from 'playwright';
import { tap } from './browser.ts';

/** A PIN for tests. */
export const PIN = '728405';

/** Between two digits, in ms: two of a kind come as slow as fingers are; what bounces is quicker. */
const BETWEEN_KEYS_MS = 100;

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
