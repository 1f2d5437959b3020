/** A person's record, given out and erased on the coordinator's screen. */
import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { withRecords } from '#core/barn/tables.ts';
import { hang, launch, tap, TestBarn } from './browser.ts';

let browser: Browser;
let barn: TestBarn;

beforeAll(async () => {
  browser = await launch();
  const board = smallBoard();
  const record = { ...Object.values(board.barn.riders)[0]!, id: 'zq1', callName: 'Zebedee' };
  const first = { ...board, barn: withRecords(board.barn, [{ table: 'riders', record }], []) };
  barn = new TestBarn(first, NOON);
  await barn.start();
});
afterAll(async () => {
  await browser.close();
  await barn.clear();
});

test('erased only once the name has been typed; then the record is gone', async () => {
  const { page, context, errors } = await hang(browser, barn.url, { role: 'coordinator' });
  await tap(page.locator('[data-action="menu"]'));
  await tap(page.locator('[data-action="records"]'));
  await tap(page.locator('[data-table="riders"]'));
  await tap(page.locator('[data-record="zq1"]'));
  await tap(page.locator('[data-action="heldOpen"]'));
  const table = page.waitForEvent('download');
  await tap(page.locator('[data-action="heldTable"]'));
  expect(readFileSync(await (await table).path(), 'utf8')).toContain('Record,,,,callName,Zebedee');
  const given = page.waitForEvent('download');
  await tap(page.locator('[data-action="held"]'));
  expect(readFileSync(await (await given).path(), 'utf8')).toContain('"callName": "Zebedee"');
  await tap(page.locator('[data-dialog="held"] [data-action="close"]'));
  await tap(page.locator('[data-action="erase"]'));
  await page.fill('[name="eraseName"]', 'Zeb');
  expect(await page.locator('[data-action="eraseSure"]').isDisabled()).toBe(true);
  await page.fill('[name="eraseName"]', 'Zebedee');
  await tap(page.locator('[data-action="eraseSure"]'));
  await page.locator('[data-fact="erased"]').waitFor();
  await tap(page.locator('[data-dialog="erase"] [data-action="close"]'));
  await page.locator('[data-action="add"]').waitFor();
  expect(await page.locator('[data-record="zq1"]').count()).toBe(0);
  expect(errors).toEqual([]);
  await context.close();
});
