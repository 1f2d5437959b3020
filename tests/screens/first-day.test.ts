/**
 * Somebody's first day: one horse from not started to tacked, finding everything by the words on the screen alone, in both languages.
 * What a first-timer must be able to do is the project's own aim: common practice, no source.
 */
import type { Browser, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import type { Board } from '#core/day/board.ts';
import type { Fact } from '#core/day/ops.ts';
import * as english from '#core/words/en/help.ts';
import * as spanish from '#core/words/es/help.ts';
import { horse, NOON, smallBoardAfter } from '../properties/day-arbitraries.ts';
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

/** Fern with something to mind and a kit of her own; nothing done yet. */
function scene(): Board {
  const fern = horse('fern', {
    name: 'Fern',
    cautions: [{ signal: 'WARNING', text: 'Kicks when the girth is pulled fast.' }],
    kit: 'box with the green lid',
    tackLists: [
      { id: 't1', name: 'Usual', items: ['Saddle', 'Pad', 'Girth'], kg: null },
      { id: 't2', name: 'Other', items: ['Pad'], kg: null },
    ],
  });
  const facts: Fact[] = [
    { kind: 'recordSaved', saved: { table: 'horses', record: fern } },
    {
      kind: 'recordSaved',
      saved: { table: 'staff', record: { id: 'ines', name: 'Ines', role: 'instructor' } },
    },
  ];
  return smallBoardAfter(...facts);
}

/** The words a first-timer looks for, written out here as they stand on the screen. */
const READ = {
  en: {
    steps: english.HELP_STEP,
    fetch: 'How? Fetch and tie',
    coat: 'How? Coat',
    tack: 'How? Tack',
    warning: 'Warning',
    allSteps: 'All steps',
    next: 'Next',
    seeAll: 'See all',
    unsure: /^I’m not sure/,
    call: /^Ines, please: not sure at Fern, stall 1/,
    onward: 'Then: Feet',
    feetDone: 'Feet checked',
    fine: 'All four fine',
    hold: /^Hold: feet are checked/,
    coatDone: 'Coat ready',
    tackDone: 'Tacked',
    after: /^Girth and stirrups/,
  },
  es: {
    steps: spanish.HELP_STEP,
    fetch: '¿Cómo? Traer y atar',
    coat: '¿Cómo? Cepillado',
    tack: '¿Cómo? Ensillado',
    warning: 'Advertencia',
    allSteps: 'Todos los pasos',
    next: 'Siguiente',
    seeAll: 'Ver todo',
    unsure: /^No estoy seguro/,
    call: /^Ines, please: not sure at Fern, stall 1/,
    onward: 'Después: Cascos',
    feetDone: 'Cascos revisados',
    fine: 'Los cuatro bien',
    hold: /^Mantenga apretado: cascos revisados/,
    coatDone: 'Cepillado listo',
    tackDone: 'Ensillado listo',
    after: /^Cincha y estribos/,
  },
} as const;

/** Taps what is shown by this name, and nothing hidden. */
const read = (page: Page, name: string | RegExp) =>
  page
    .getByRole('button', { name, exact: typeof name === 'string' })
    .filter({ visible: true })
    .first();
const tile = (page: Page) => page.getByRole('heading', { name: /Fern/ }).getByRole('button');

/** Names itself where it is asked who. */
async function asAda(page: Page): Promise<void> {
  const ada = page.getByRole('dialog').getByRole('button', { name: /^ada/ });
  await Promise.race([
    ada.waitFor().catch(() => null),
    page.getByRole('dialog').waitFor({ state: 'hidden' }),
  ]);
  if (await ada.isVisible()) await tap(ada);
}

/** Every step of the page is on the screen, in its own words. */
async function readsAll(page: Page, steps: Readonly<Record<string, string>>, all: string): Promise<void> {
  const long = read(page, all);
  await page.locator('[data-help-page]').waitFor();
  if (await long.isVisible()) await tap(long);
  for (const line of Object.values(steps)) await page.getByText(line, { exact: true }).waitFor();
}

test.each(['en', 'es'] as const)('reading only the screen, in %s: not started to tacked', async (code) => {
  const words = READ[code];
  const [a, c] = await Promise.all([
    hang(browser, barn.url, { role: 'aisle', stalls: [] }),
    hang(browser, barn.url, { role: 'coordinator' }),
  ]);
  const { page } = a;
  if (code === 'es') {
    await tap(read(page, 'Board menu'));
    await tap(read(page, 'Español'));
    await page.getByText(words.feetDone).first().waitFor();
  }

  // Her own cautions and kit stand before the first step.
  await tap(tile(page));
  await tap(read(page, words.fetch));
  await readsAll(page, words.steps.fetch, words.allSteps);
  const said = (await page.getByRole('dialog').innerText()).toLowerCase();
  const order = [words.warning, 'Kicks when the girth', 'green lid', words.steps.fetch.box].map((one) =>
    said.indexOf(one.toLowerCase()),
  );
  expect(order.every((at) => at >= 0)).toBe(true);
  expect(order).toEqual([...order].sort((x, y) => x - y));

  // One step large, the next, and all again.
  await tap(read(page, new RegExp(words.steps.fetch.box.slice(0, 20))));
  await tap(read(page, words.next));
  await page.getByText(words.steps.fetch.look, { exact: true }).waitFor();
  await tap(read(page, words.seeAll));

  // Not sure: somebody named is called, on the coordinator's screen too.
  await tap(read(page, words.unsure));
  await asAda(page);
  await c.page.getByRole('button', { name: words.call }).waitFor();

  await tap(tile(page));
  await tap(read(page, words.fetch));
  await tap(read(page, words.onward));
  await readsAll(page, words.steps.feet, words.allSteps);
  await tap(read(page, words.feetDone));
  await tap(read(page, words.fine));
  await hold(read(page, words.hold));
  await asAda(page);

  await tap(tile(page));
  await tap(read(page, words.coat));
  await readsAll(page, words.steps.coat, words.allSteps);
  await tap(read(page, words.coatDone));
  await asAda(page);

  await tap(tile(page));
  for (const item of ['Saddle', 'Pad', 'Girth']) {
    await tap(read(page, new RegExp(`^${item}`)));
    await page.getByRole('button', { name: new RegExp(`^${item}`), pressed: true }).waitFor();
  }
  await tap(read(page, words.tack));
  await readsAll(page, words.steps.tack, words.allSteps);
  await tap(read(page, words.tackDone));
  await asAda(page);

  // Tacked: what is left is for a second person.
  await page.locator('[data-horse="fern"][data-status="tacked"][data-pending="false"]').waitFor();
  await read(page, words.after).waitFor();
  expect([...a.errors, ...c.errors]).toEqual([]);
  await Promise.all([a, c].map(({ context }) => context.close()));
});

test('the help sheet closes back to the tile in one tap', async () => {
  const { page, context } = await hang(browser, barn.url, { role: 'aisle', stalls: [] });
  await tap(tile(page));
  await tap(read(page, READ.en.fetch));
  await tap(read(page, READ.en.onward));
  await page.getByText(READ.en.steps.feet.pick).waitFor();
  await tap(read(page, 'Close'));
  await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
  await context.close();
});
