/** During and after a lesson, as its people tap it: checks, riders up and down, putting away; a delay; somebody sent home. */
import type { Browser, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import type { Board } from '#core/day/board.ts';
import type { Fact } from '#core/day/ops.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { NOON, smallBoardAfter } from '../properties/day-arbitraries.ts';
import { hang, hold, launch, tap, TestBarn } from './browser.ts';

let browser: Browser;
let barn: TestBarn;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());
beforeEach(async () => {
  barn = new TestBarn(scene(), NOON);
  await barn.start();
});
afterEach(() => barn.clear());

/** Moss has feet and coat done; Ada leads him in the first lesson. */
function scene(): Board {
  const facts: Fact[] = [
    { kind: 'volunteerArrived', volunteer: 'cho' },
    { kind: 'stagesFinished', prep: 'moss.1', stages: ['feet', 'coat'] },
    {
      kind: 'rolesChanged',
      changes: [{ lesson: 'L1', place: 'p2', role: 'leader', out: null, in: 'ada' }],
    },
  ];
  return smallBoardAfter(...facts);
}

const tile = (page: Page, id: string) => page.locator(`[data-screen="aisle"] [data-horse="${id}"]`);
const lessonSheet = async (page: Page, id: string): Promise<void> => {
  await tap(page.locator('[data-panel="lessons"]'));
  await tap(page.locator(`[data-lesson="${id}"]`));
  await page.locator('[data-dialog="lesson"]').waitFor();
};

test('one lesson from tacked to the aisle done, with checks, riders up and down, and putting away', async () => {
  const [a, d, c] = await Promise.all([
    hang(browser, barn.url, { role: 'aisle', stalls: [] }),
    hang(browser, barn.url, { role: 'door', arena: null, metres: 8 }),
    hang(browser, barn.url, { role: 'coordinator' }),
  ]);
  // The second lesson is off, so that Moss has one only.
  await lessonSheet(c.page, 'L2');
  await tap(c.page.locator('[data-action="cancelLesson"]'));
  await tap(c.page.locator('[data-action="confirm"]'));

  // Tacked by Ada, with her list ticked; girth and stirrups by somebody else.
  const moss = tile(a.page, 'moss');
  await tap(moss.locator('[data-action="open"]'));
  await tap(a.page.locator('[data-item="Saddle"]'));
  await a.page.locator('[data-item="Saddle"][aria-pressed="true"]').waitFor();
  await tap(a.page.locator('[data-dialog="horse"] [data-action="close"]'));
  await tap(moss.locator('[data-action="finish"][data-stage="tack"]'));
  await tap(a.page.locator('[data-dialog="who"] [data-person="ada"]'));
  await tap(moss.locator('[data-action="goOn"]'));
  await tap(moss.locator('[data-action="girth"]'));
  expect(await a.page.locator('[data-dialog="girth"] [data-person="ada"]').count()).toBe(0);
  await tap(a.page.locator('[data-dialog="girth"] [data-person="cho"]'));

  // At the ramp: not yet checked by the instructor, then by her; riders up.
  barn.pass(50 * MINUTE_MS);
  const note = d.page.locator('li[data-horse="moss"] [data-fact="note"]');
  await note.waitFor();
  expect(await note.textContent()).toBe('not yet checked by the instructor');
  await tap(d.page.locator('[data-action="instructorCheck"]'));
  await tap(d.page.locator('[data-names="instructor"] [data-person="ines"]'));
  await expect.poll(() => note.count()).toBe(0);
  await tap(d.page.locator('[data-action="undo"]'));
  await note.waitFor();
  await tap(d.page.locator('[data-action="allUp"]'));
  await a.page.locator('[data-horse="moss"][data-status="inLesson"]').waitFor();

  // His leader stays with him: the coordinator is told what to do instead.
  await lessonSheet(c.page, 'L1');
  await tap(c.page.locator('[data-role="leader"][data-role-place="L1.p2"]'));
  expect(await c.page.locator('[data-fact="ridersUp"]').textContent()).toContain('until they are down');
  await tap(c.page.locator('[data-dialog="role"] [data-action="close"]'));

  barn.pass(30 * MINUTE_MS);
  await tap(d.page.locator('[data-ride="L1"] [data-action="allDown"]'));

  // Put away, stage by stage; feet and body are looked over with the sheets for findings.
  for (const stage of ['untack', 'cool', 'look', 'away']) {
    await tap(moss.locator(`[data-action="finish"][data-stage="${stage}"]`));
    if (stage === 'look') {
      await tap(a.page.locator('[data-action="allFine"]'));
      await hold(a.page.locator('[data-action="confirmFeet"]'));
      await tap(a.page.locator('[data-action="nothingMore"]'));
    }
    const who = a.page.locator('[data-dialog="who"] [data-person="ada"]');
    if (await who.isVisible()) await tap(who);
    await tap(moss.locator('[data-action="goOn"]'));
  }
  await a.page.locator('[data-horse="moss"][data-status="putAway"]').waitFor();
  await tap(a.page.locator('[data-end="done"]'));
  expect(await a.page.locator('[data-dialog="out"] [data-out]').count()).toBe(0);
  expect([...a.errors, ...d.errors, ...c.errors]).toEqual([]);
});

test('a lesson delayed with all after it: ramp times follow on every board, and one undo takes it back', async () => {
  const [a, c] = await Promise.all([
    hang(browser, barn.url, { role: 'aisle', stalls: [] }),
    hang(browser, barn.url, { role: 'coordinator' }),
  ]);
  const ramp = (id: string) => tile(a.page, id).locator('[data-fact="ramp"] b').textContent();
  // L1 at 14:00 and L2 at 14:45 in the barn's zone, each with 15 min from ramp to start.
  expect(await ramp('fern')).toBe('13:45');
  expect(await ramp('sorrel')).toBe('14:30');
  await lessonSheet(c.page, 'L1');
  await tap(c.page.locator('[data-part="changes"] [data-choice="here"]'));
  await tap(c.page.locator('[data-part="changes"] [data-choice="weather"]'));
  for (let i = 0; i < 4; i += 1) await tap(c.page.locator('[data-part="changes"] [data-step="more"]'));
  await tap(c.page.locator('[data-part="changes"] [data-action="look"]'));
  await tap(c.page.locator('[data-action="confirm"]'));
  await expect.poll(() => ramp('fern')).toBe('14:05');
  expect(await ramp('sorrel')).toBe('14:50');
  await tap(c.page.locator('[data-panel="recent"]'));
  await tap(c.page.locator('[data-action="takeBack"]').first());
  await expect.poll(() => ramp('fern')).toBe('13:45');
  expect(await ramp('sorrel')).toBe('14:30');
});

test('somebody sent home with a queue and a role: both come up at once, with who could take them', async () => {
  const c = await hang(browser, barn.url, { role: 'coordinator' });
  await tap(c.page.locator('[data-lane="ada"]'));
  await tap(c.page.locator('[data-presence="left"]'));
  const sheet = c.page.locator('[data-dialog="handOver"]');
  await sheet.locator('[data-part="suggestion"]').waitFor();
  const role = sheet.locator('[data-role="leader"][data-role-place="L1.p2"]');
  expect(await role.getAttribute('data-open')).toBe('true');
  // Two taps: the role, the person; then what it would do.
  await tap(role);
  expect(await c.page.locator('[data-may-not="ben"]').textContent()).toContain('not of age');
  await tap(c.page.locator('[data-candidate="cho"]'));
  await tap(c.page.locator('[data-action="confirm"]'));
  const led = c.page.locator('[data-role="leader"][data-role-place="L1.p2"]');
  await expect.poll(() => led.textContent()).toContain('cho');
});
