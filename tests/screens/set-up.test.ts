/** From an empty barn to a running day by hand, with the taps counted; conflicts come and go; a weekly lesson in winter and summer time. */
import type { Browser, Locator } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { hang, launch, tap, TestBarn } from './browser.ts';

let browser: Browser;
let barn: TestBarn;

beforeAll(async () => {
  browser = await launch();
  // 2026-03-06 08:00 in Denver, two days before its clocks go forward.
  barn = new TestBarn(emptyBoard('Larch Hill', 'America/Denver'), Date.UTC(2026, 2, 6, 15));
  await barn.start();
});
afterAll(async () => {
  await browser.close();
  await barn.clear();
});

test('an empty barn, by hand to a day on the board', async () => {
  const { page, context, errors } = await hang(browser, barn.url, { role: 'coordinator' });
  const begun = performance.now();
  let taps = 0;
  const press = async (target: Locator | string): Promise<void> => {
    taps += 1;
    await tap(typeof target === 'string' ? page.locator(target).first() : target);
  };
  const add = async (
    table: string,
    fields: Record<string, string>,
    more?: () => Promise<void>,
  ): Promise<void> => {
    await press(`[data-table="${table}"]`);
    await press('[data-action="add"]');
    for (const [name, value] of Object.entries(fields)) await page.fill(`form [name="${name}"]`, value);
    await more?.();
    await press('[data-action="save"]');
    await page.locator('[data-action="add"]').waitFor();
  };
  const pick = async (within: string, name: string, title: string): Promise<void> => {
    await press(`${within} [data-pick="${name}"]`);
    await press(page.locator('[data-dialog="pick"] [data-choice]', { hasText: title }));
  };

  await press('[data-action="menu"]');
  await press('[data-action="records"]');
  await add('stalls', { name: '7' });
  await add('horses', { name: 'Nutmeg' }, () => pick('form', 'stall', '7'));
  await add('volunteers', { name: 'Ilse' }, async () => {
    for (const one of ['feet', 'coat', 'tack', 'lead']) await press(`form [data-value="${one}"]`);
  });
  await add('staff', { name: 'Ines' });
  await add('pattern', { name: 'Beginners', time: '16:00' }, () => press('form [data-value="1"]'));

  await page.goto(`${barn.url}/sheet`);
  await page.fill('[name="lessonName"]', 'First');
  await page.fill('[name="lessonTime"]', '11:00');
  await press('[data-action="addLesson"]');
  await press('[data-action="addPlace"]');
  await page.locator('[data-conflict="no-horse"]').waitFor();
  await pick('[data-place]', 'horse', 'Nutmeg');
  await page.locator('[data-conflict="no-horse"]').waitFor({ state: 'detached' });
  await pick('main', 'here', 'Ilse');
  await press('[data-action="propose"]');
  await press('[data-action="accept"]');
  await page.locator('[data-pick="leader"]', { hasText: 'Ilse' }).waitFor();
  expect(await page.locator('[data-conflict="open-role"]').count()).toBe(0);
  console.log(`set up by hand: ${taps} taps, ${Math.round((performance.now() - begun) / 1000)} s`);

  // 16:00 stays 16:00 on the Mondays before and after 8 March 2026, when US clocks go forward (15 U.S.C. 260a).
  for (const date of ['2026-03-02', '2026-03-09']) {
    await page.fill('[name="date"]', date);
    await page.locator('h2', { hasText: '16:00' }).waitFor();
  }
  const aisle = await hang(browser, barn.url, { role: 'aisle', stalls: [] });
  await aisle.page.locator('[data-screen="aisle"] [data-horse]', { hasText: 'Nutmeg' }).waitFor();
  expect([errors, aisle.errors]).toEqual([[], []]);
  await Promise.all([context.close(), aisle.context.close()]);
});
