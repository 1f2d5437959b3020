/**
 * The main job as a screen reader has it: what Chromium's accessibility tree names each control and says of its state, and what is
 * announced by itself when a stage is done. With the keyboard alone, in either orientation.
 */
import type { Browser, CDPSession, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { source } from '../reference/source.ts';
import { hang, launch, LANDSCAPE, PORTRAIT, TestBarn } from './browser.ts';

let browser: Browser;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

type Node = { role: string; name: string; states: string[]; ignored: boolean };

/** Everything a screen reader may meet, in order. */
async function tree(reader: CDPSession): Promise<Node[]> {
  const { nodes } = (await reader.send('Accessibility.getFullAXTree')) as {
    nodes: {
      ignored: boolean;
      role?: { value: string };
      name?: { value: string };
      properties?: { name: string; value: { value?: unknown } }[];
    }[];
  };
  return nodes.map(({ ignored, role, name, properties = [] }) => ({
    ignored,
    role: role?.value ?? '',
    name: (name?.value ?? '').replaceAll(/\s+/g, ' ').trim(),
    states: properties.filter(({ value }) => value.value === true).map((one) => one.name),
  }));
}

const CONTROLS = new Set(['button', 'link', 'textbox', 'checkbox', 'radio', 'combobox', 'spinbutton']);

/** Controls that can be used; every one has a name. */
async function controls(reader: CDPSession): Promise<Node[]> {
  const all = (await tree(reader)).filter(({ role, ignored }) => !ignored && CONTROLS.has(role));
  expect(all.filter(({ name }) => name === '')).toEqual([]);
  return all;
}

/** Tab until the control named so has the focus, then Enter, held as long as any target asks. */
async function go(page: Page, target: string): Promise<void> {
  const MOST_TABS = 80;
  await page.locator(target).first().waitFor();
  for (let n = 0; n < MOST_TABS; n += 1) {
    if (await page.evaluate((one) => document.activeElement?.matches(one) ?? false, target))
      return page.keyboard.press('Enter', { delay: 900 });
    await page.keyboard.press('Tab');
  }
  throw new Error(`no way to ${target} by keyboard`);
}

/** What live regions have said since, in order. */
async function listen(page: Page): Promise<() => Promise<string[]>> {
  await page.evaluate(() => {
    const heard: string[] = [];
    Object.assign(window, { heard });
    new MutationObserver((changes) => {
      for (const { target } of changes) {
        const one = target instanceof Element ? target : target.parentElement;
        const live = one?.closest('[aria-live], [role="status"], [role="alert"]');
        const said = (live?.textContent ?? '').replaceAll(/\s+/g, ' ').trim();
        if (said !== '' && heard.at(-1) !== said) heard.push(said);
      }
    }).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
  return () => page.evaluate(() => (window as unknown as { heard: string[] }).heard);
}

test.each([LANDSCAPE, PORTRAIT])(
  'not started to tacked by ear and keyboard, $width wide',
  source('WCAG 2.2, 4.1.2 Name, Role, Value and 4.1.3 Status Messages'),
  async (viewport) => {
    const barn = new TestBarn(smallBoard(), NOON);
    await barn.start();
    const { page, context, errors } = await hang(browser, barn.url, { role: 'aisle', stalls: [] }, viewport);
    const reader = await context.newCDPSession(page);
    await reader.send('Accessibility.enable');
    try {
      const fern = '[data-screen="aisle"] [data-horse="fern"]';
      await page.locator(`${fern} [data-action="finish"]`).waitFor();
      const heard = await listen(page);

      // The horse is a heading; how far it is stands as a list of stages with their state, in words.
      const first = await tree(reader);
      expect(first.some(({ role, name }) => role === 'heading' && name.includes('fern'))).toBe(true);
      const words = await page.locator(`${fern} ol li`).allTextContents();
      expect(words.map((one) => one.replaceAll(/\s+/g, ' ').trim())).toEqual([
        'Feet: next',
        'Coat: still to do',
        'Tack: still to do',
      ]);
      const names = (await controls(reader)).map(({ name }) => name);
      expect(names.some((name) => name.startsWith('Feet checked'))).toBe(true);

      await go(page, `${fern} [data-action="finish"]`);
      await page.locator('[data-dialog="feet"]').waitFor();
      const sheet = await tree(reader);
      expect(
        sheet.some(
          ({ role, name, states }) =>
            role === 'dialog' && name === 'fern: the four feet' && states.includes('modal'),
        ),
      ).toBe(true);
      // Nothing beneath it is met, and no key leads there.
      const headings = async () =>
        (await tree(reader))
          .filter(({ role, ignored }) => !ignored && role === 'heading')
          .map(({ name }) => name);
      await expect
        .poll(async () => (await headings()).filter((name) => name.includes('fern')))
        .toEqual(['fern: the four feet']);
      for (const key of ['Shift+Tab', ...Array<string>(40).fill('Tab')]) {
        await page.keyboard.press(key);
        expect(
          await page.evaluate(
            () =>
              document.activeElement === document.body ||
              document.activeElement?.closest('[data-dialog]') !== null,
          ),
          key,
        ).toBe(true);
      }
      // What cannot be done yet says so.
      const held = (await controls(reader)).find(({ name }) => name.startsWith('Look at every foot'));
      expect(held?.states).toContain('disabled');
      await go(page, '[data-dialog="feet"] [data-action="allFine"]');
      await go(page, '[data-dialog="feet"] [data-action="confirmFeet"]');
      await page.locator('[data-dialog="who"] [data-person="ada"]').waitFor();
      expect((await controls(reader)).some(({ name }) => name.startsWith('ada'))).toBe(true);
      await go(page, '[data-dialog="who"] [data-person="ada"]');
      await page.locator(`${fern}[data-status="feetChecked"]`).waitFor();
      // Said by itself, and the focus stays on that horse.
      await expect.poll(async () => (await heard()).join(' | ')).toContain('Feet checked');
      expect(
        await page.evaluate(() =>
          document.activeElement?.closest('[data-horse]')?.getAttribute('data-horse'),
        ),
      ).toBe('fern');

      for (const [status, says] of [
        ['coatReady', 'Coat ready'],
        ['tacked', 'Tacked'],
      ] as const) {
        await page.locator(`${fern} :is([data-action="finish"], [data-action="goOn"])`).first().waitFor();
        if (await page.locator(`${fern} [data-action="goOn"]`).isVisible())
          await go(page, `${fern} [data-action="goOn"]`);
        await go(page, `${fern} [data-action="finish"]`);
        await page.locator(`${fern}[data-status="${status}"], [data-dialog="who"]`).first().waitFor();
        if (await page.locator('[data-dialog="who"]').isVisible())
          await go(page, '[data-dialog="who"] [data-person="ada"]');
        await page.locator(`${fern}[data-status="${status}"]`).waitFor();
        await expect.poll(async () => (await heard()).join(' | ')).toContain(says);
      }
      const done = await page.locator(`${fern} ol li`).allTextContents();
      expect(done.every((one) => one.includes('done'))).toBe(true);
      await controls(reader);
      expect(errors).toEqual([]);
    } finally {
      await context.close();
      await barn.clear();
    }
  },
);
