/** Measured on a real page: how large targets and letters are on the glass, and what is left without colour or mouse. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { NOON, smallBoard } from '../properties/day-arbitraries.ts';
import { source } from '../reference/source.ts';
import { hang, launch, LANDSCAPE, TestBarn } from './browser.ts';
import { AISLE_STATES, busyBarn, DOOR_STATES, OTHER_STATES, show, tablet, type Seen } from './seen.ts';

/** What a tablet takes for granted before it is measured, in mm a CSS pixel. */
const USUAL_MM_PER_PX = 0.18;
const LEAST_MM = 20;

let browser: Browser;
let barn: TestBarn;

beforeAll(async () => {
  browser = await launch();
  const { board, now } = busyBarn();
  barn = new TestBarn(board, now);
  await barn.start();
});
afterAll(async () => {
  await browser.close();
  await barn.clear();
});

async function opened(seen: Seen | undefined, does: (page: Page) => Promise<void>): Promise<void> {
  if (!seen) throw new Error('no such state');
  const page = await tablet(browser, seen, LANDSCAPE);
  try {
    await show(page, barn.url, seen);
    await does(page);
  } finally {
    await page.context().close();
  }
}

// 20 mm: Chen et al. 2013, Applied Ergonomics (fewest misses from 20 mm on).
test.concurrent.each([...AISLE_STATES, ...DOOR_STATES])(
  'every target of $name is 20 mm each way',
  source('Chen et al. 2013, Applied Ergonomics'),
  async (seen) =>
    opened(seen, async (page) => {
      const small = await page.evaluate(
        ([mmPerPx, least]) => {
          const root = document.querySelector('dialog[open]') ?? document.body;
          return [...root.querySelectorAll('button, a[href], input, select, summary')].flatMap((one) => {
            const { left, top, width, height } = one.getBoundingClientRect();
            if (width === 0 || height === 0) return [];
            // A control may answer on more of the glass than its own box: how far from its middle a finger still meets it.
            const meets = (x: number, y: number): boolean => {
              const there = document.elementFromPoint(x, y);
              return there !== null && one.contains(there);
            };
            const [x, y] = [left + width / 2, top + height / 2];
            const reach = (dx: number, dy: number): number => {
              let n = 0;
              while (meets(x + dx * (n + 1), y + dy * (n + 1))) n += 1;
              return n;
            };
            const met = meets(x, y)
              ? [reach(-1, 0) + reach(1, 0) + 1, reach(0, -1) + reach(0, 1) + 1]
              : [width, height];
            const [w, h] = [Math.max(width, met[0] ?? 0), Math.max(height, met[1] ?? 0)].map(
              (px) => Math.round(px * mmPerPx * 10) / 10,
            );
            const name = [...one.attributes].find(({ name: key }) => key.startsWith('data-'));
            return Math.min(w ?? 0, h ?? 0) >= least
              ? []
              : [`${name?.name ?? one.className}=${name?.value ?? ''} ${w} × ${h} mm`];
          });
        },
        [USUAL_MM_PER_PX, LEAST_MM] as const,
      );
      expect(small).toEqual([]);
    }),
);

test(
  'a tablet measured with a card draws lengths and letters as long as it says',
  source('ISO/IEC 7810 ID-1'),
  async () => {
    await opened(
      OTHER_STATES.find(({ name }) => name === 'glass'),
      async (page) => {
        await page.locator('[data-step="muchLarger"]').click();
        await page.locator('[data-action="keepCard"]').click();
        await page.locator('[data-kept="true"]').waitFor();
        const card = await page.locator('[data-card]').boundingBox();
        const mmPerPx = 85.6 / (card?.width ?? 0);
        expect((card?.height ?? 0) * mmPerPx).toBeCloseTo(53.98, 1);
        for (const mm of [100, 50, 20]) {
          const bar = await page.locator(`[data-bar="${mm}"]`).boundingBox();
          expect((bar?.width ?? 0) * mmPerPx).toBeCloseTo(mm, 0);
        }
        const target = await page.locator('[data-step="larger"]').boundingBox();
        expect((target?.height ?? 0) * mmPerPx).toBeGreaterThanOrEqual(LEAST_MM - 0.1);
      },
    );
  },
);

// 16 minutes of arc at the least: US NRC NUREG-0700 rev. 2, 1.3.1-4. Capitals are 0.688 em in the face of these tests.
test(
  'the door’s large facts are 16 minutes of arc or more from where it says they are read',
  source('US NRC NUREG-0700 rev. 2, 1.3.1-4'),
  async () => {
    await opened(DOOR_STATES[0], async (page) => {
      const glance = page.locator('[data-facts]');
      expect(Number(await glance.getAttribute('data-facts'))).toBeGreaterThanOrEqual(1);
      const size = await page
        .locator('[data-fact="minutes"]')
        .evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize));
      const least = 2 * 6000 * Math.tan((16 / 60 / 2) * (Math.PI / 180));
      expect(size * 0.688 * USUAL_MM_PER_PX).toBeGreaterThanOrEqual(least);
    });
  },
);

describe('without colour', () => {
  /** Word and drawing of every status shown, and whether the drawing can be seen. */
  const statuses = (page: Page) =>
    page.locator('.chip[data-word], [data-screen="door"] [data-word]').evaluateAll((all) =>
      all.map((one) => {
        const drawn = one.querySelector('svg :is(path, circle, rect)');
        const { stroke, fill } = drawn ? getComputedStyle(drawn) : { stroke: 'none', fill: 'none' };
        const line = stroke === 'none' ? fill : stroke;
        return {
          status: one.getAttribute('data-word') ?? '',
          text: (one.textContent ?? '').trim(),
          outline: one.querySelector('svg')?.innerHTML.replaceAll(/<!--.*?-->|class="[^"]*"/g, '') ?? '',
          isDrawn: line !== 'none' && (one.querySelector('svg')?.getBoundingClientRect().width ?? 0) >= 8,
        };
      }),
    );

  const check = async (page: Page): Promise<void> => {
    const all = await statuses(page);
    const kinds = new Map(all.map((one) => [one.status, one]));
    expect(kinds.size).toBeGreaterThanOrEqual(1);
    expect(all.filter(({ text, isDrawn }) => text === '' || !isDrawn)).toEqual([]);
    // Two statuses never share a drawing.
    expect(new Set([...kinds.values()].map(({ outline }) => outline)).size).toBe(kinds.size);
  };

  test.each([AISLE_STATES[0], DOOR_STATES[0]])(
    '$name in grey still has a word and a mark for each status',
    async (seen) =>
      opened(seen, async (page) => {
        await page.addStyleTag({ content: 'html { filter: grayscale(1); }' });
        await check(page);
      }),
  );

  test.each([AISLE_STATES[0], DOOR_STATES[0]])('$name in high contrast too', async (seen) =>
    opened(seen, async (page) => {
      await page.emulateMedia({ forcedColors: 'active', reducedMotion: 'reduce' });
      await check(page);
      expect(await page.evaluate(() => document.getAnimations().length)).toBe(0);
    }),
  );
});

test('a horse from not started to tacked by keyboard alone, every control on the way with a name', async () => {
  const small = new TestBarn(smallBoard(), NOON);
  await small.start();
  const { page, context } = await hang(browser, small.url, { role: 'aisle', stalls: [] });
  const MOST_TABS = 80;

  /** Tab until `target` has the focus, then Enter. */
  const go = async (target: string): Promise<void> => {
    await page.locator(target).first().waitFor();
    for (let n = 0; n < MOST_TABS; n += 1) {
      const at = await page.evaluate((selector) => {
        const one = document.activeElement;
        if (!one || one === document.body) return { isThere: false, name: 'page' };
        const name = one.getAttribute('aria-label') ?? one.textContent ?? '';
        return { isThere: one.matches(selector), name: name.trim() };
      }, target);
      expect(at.name).not.toBe('');
      if (at.isThere) return page.keyboard.press('Enter', { delay: 900 });
      await page.keyboard.press('Tab');
    }
    throw new Error(`no way to ${target} by keyboard`);
  };
  const fern = '[data-screen="aisle"] [data-horse="fern"]';
  try {
    await go(`${fern} [data-action="finish"]`);
    await go('[data-dialog="feet"] [data-action="allFine"]');
    await go('[data-dialog="feet"] [data-action="confirmFeet"]');
    await go('[data-dialog="who"] [data-person="ada"]');
    await page.locator(`${fern}[data-status="feetChecked"]`).waitFor();
    for (const status of ['coatReady', 'tacked']) {
      await page.locator(`${fern} :is([data-action="finish"], [data-action="goOn"])`).first().waitFor();
      if (await page.locator(`${fern} [data-action="goOn"]`).isVisible())
        await go(`${fern} [data-action="goOn"]`);
      await go(`${fern} [data-action="finish"]`);
      await page.locator(`${fern}[data-status="${status}"], [data-dialog="who"]`).first().waitFor();
      if (await page.locator('[data-dialog="who"]').isVisible())
        await go('[data-dialog="who"] [data-person="ada"]');
      await page.locator(`${fern}[data-status="${status}"]`).waitFor();
    }
  } finally {
    await context.close();
    await small.clear();
  }
});
