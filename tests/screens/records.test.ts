/** Records and day sheet by hand: nothing written is lost, a rule goes there and back, today's lessons and places change. What must hold is the project's own rule: common practice, no source. */
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { hang, launch, tap, TestBarn } from './browser.ts';

let browser: Browser;
let barn: TestBarn;

beforeAll(async () => {
  browser = await launch();
  barn = new TestBarn(smallBoard(), NOON);
  await barn.start();
});
afterAll(async () => {
  await browser.close();
  await barn.clear();
});

test('a record is kept over a fault and a reload, has a picture, and says where it is used', async () => {
  const { page, context, errors } = await hang(browser, barn.url, { role: 'coordinator' });
  const press = (selector: string): Promise<void> => tap(page.locator(selector).first());
  await page.goto(`${barn.url}/records`);
  await press('[data-record="fern"]');
  await page.fill('form [name="name"]', '');
  await page.fill('form [name="notes"]', 'Likes the left side');
  await press('[data-action="save"]');
  await page.locator('[data-field="name"] [role="alert"]').waitFor();
  await page.reload();
  await press('[data-record="fern"]');
  expect(await page.inputValue('form [name="notes"]')).toBe('Likes the left side');
  await page.fill('form [name="name"]', 'Fern the second');

  const picture = await page.evaluate(() => {
    const canvas = Object.assign(document.createElement('canvas'), { width: 1600, height: 1200 });
    canvas.getContext('2d')?.fillRect(200, 200, 900, 700);
    return canvas.toDataURL('image/png').split(',')[1] ?? '';
  });
  const file = { name: 'fern.png', mimeType: 'image/png', buffer: Buffer.from(picture, 'base64') };
  await page.locator('[data-field="photo"] input[type="file"]').setInputFiles(file);
  await page.locator('[data-field="photo"] img').waitFor();
  await press('[data-action="save"]');
  await page.locator('[data-record="fern"]', { hasText: 'Fern the second' }).waitFor();

  // The horse's sheet in the aisle shows it, small; the arena door fetches none.
  const aisle = await hang(browser, barn.url, { role: 'aisle', stalls: [] });
  await tap(aisle.page.locator('[data-horse="fern"] [data-action="open"]').first());
  const shown = aisle.page.locator('[data-dialog="horse"] [data-fact="photo"]');
  await shown.waitFor();
  await expect
    .poll(() => shown.evaluate((image) => (image instanceof HTMLImageElement ? image.naturalWidth : 0)))
    .toBeGreaterThan(0);
  expect((await shown.boundingBox())?.height).toBeLessThanOrEqual(160);
  await aisle.context.close();
  const door = await hang(browser, barn.url, { role: 'door', arena: null, metres: 8 });
  const fetched: string[] = [];
  door.page.on('request', (request) => fetched.push(request.url()));
  await door.page.reload();
  await door.page.locator('[data-screen="door"]').waitFor();
  expect(fetched.filter((url) => url.includes('/photos/'))).toEqual([]);
  await door.context.close();

  await press('[data-record="fern"]');
  await press('[data-action="retire"]');
  await page.locator('[data-dialog="retire"] [role="alert"]', { hasText: 'First' }).waitFor();
  expect(await page.locator('[data-action="retireSure"]').count()).toBe(0);
  expect(errors).toEqual([]);
  await context.close();
});

test('a rule is changed, refused out of its bounds, and goes back to its default', async () => {
  const { page, context, errors } = await hang(browser, barn.url, { role: 'coordinator' });
  await page.goto(`${barn.url}/records`);
  await tap(page.locator('[data-table="rules"]'));
  await page.locator('[data-group="prep"] summary').click();
  const rule = page.locator('[data-rule="certainty"]');
  const typed = async (text: string): Promise<void> => {
    await rule.locator('input').fill(text);
    await rule.locator('input').press('Tab');
  };
  expect(await rule.locator('input').inputValue()).toBe('80');
  await typed('40');
  await rule.locator('[role="alert"]', { hasText: '50' }).waitFor();
  await typed('90');
  await rule.locator('[data-action="reset"]:not([disabled])').waitFor();
  await page.reload();
  await tap(page.locator('[data-table="rules"]'));
  await page.locator('[data-group="prep"] summary').click();
  expect(await rule.locator('input').inputValue()).toBe('90');
  await tap(rule.locator('[data-action="reset"]'));
  await rule.locator('[data-action="reset"][disabled]').waitFor();
  expect(await rule.locator('input').inputValue()).toBe('80');
  expect(errors).toEqual([]);
  await context.close();
});

test('today’s lesson gets another time and length, a place more and one less', async () => {
  const { page, context, errors } = await hang(browser, barn.url, { role: 'coordinator' });
  const lesson = page.locator('[data-lesson="L1"]');
  await page.goto(`${barn.url}/sheet`);
  await tap(lesson.locator('[data-action="editLesson"]'));
  await page.fill('[name="editName"]', 'Earlier');
  await page.fill('[name="editMinutes"]', '25');
  await tap(page.locator('[data-action="saveLesson"]'));
  await lesson.locator('header', { hasText: 'Earlier' }).filter({ hasText: '25 min' }).waitFor();
  const places = await lesson.locator('[data-place]').count();
  await tap(lesson.locator('[data-action="addPlace"]'));
  const added = lesson.locator('[data-place]').nth(places);
  await tap(added.locator('[data-action="wanted"]'));
  await tap(page.locator('[data-walkers="2"]'));
  await page.locator('[data-walkers="2"][aria-pressed="true"]').waitFor();
  await tap(page.locator('[data-action="takeOut"]'));
  await added.waitFor({ state: 'detached' });
  expect(await lesson.locator('[data-place]').count()).toBe(places);

  // Another date is the book's: a lesson added there stands there, and today has it not.
  await page.fill('[name="date"]', '2026-05-20');
  await page.fill('[name="lessonName"]', 'Guests');
  await page.fill('[name="lessonTime"]', '10:00');
  await tap(page.locator('[data-action="addLesson"]'));
  await page.locator('h2', { hasText: 'Guests' }).waitFor();
  const guests = page.locator('[data-lesson]', { hasText: 'Guests' });
  await tap(guests.locator('[data-action="editLesson"]'));
  await page.fill('[name="editMinutes"]', '35');
  await tap(page.locator('[data-action="saveLesson"]'));
  await guests.locator('header', { hasText: '35 min' }).waitFor();
  await tap(page.locator('[data-action="dayAfter"]'));
  await guests.waitFor({ state: 'detached' });
  await tap(page.locator('[data-action="dayBefore"]'));
  await tap(guests.locator('[data-action="notOn"]'));
  await guests.waitFor({ state: 'detached' });
  await tap(page.locator('[data-action="undo"]'));
  await guests.waitFor();
  expect(errors).toEqual([]);
  await context.close();
});
