/** Sizes, pages and figures of the screens. Sources stand beside each check. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import './english.ts';
import { bigFigure } from '../../../kiosk/src/lib/parts/door/countdown.ts';
import { doorServes, glanceIn } from '../../../kiosk/src/lib/parts/door/glance.ts';
import { shareFor } from '../../../kiosk/src/lib/parts/fit.ts';
import { fitGrid, LEAST_TILE, pageOf } from '../../../kiosk/src/lib/parts/grid.ts';
import { isRepeat } from '../../../kiosk/src/lib/parts/repeat.ts';

describe('the door’s large facts', () => {
  const room = fc.record({
    width: fc.integer({ min: 200, max: 2000 }),
    height: fc.integer({ min: 150, max: 1500 }),
  });
  const mm = fc.double({ min: 0.1, max: 0.4, noNaN: true });
  const metres = fc.integer({ min: 2, max: 20 });
  const word = fc.constantFrom('Late', 'On time', 'Nobody on it');

  // 16 minutes of arc are the least for a letter: US NRC NUREG-0700 rev. 2, 1.3.1-4. Exact geometry, capitals 0.70 em.
  it('are never shrunk below 16 minutes of arc: there are fewer of them instead', () => {
    fc.assert(
      fc.property(room, mm, metres, word, (size, mmPerPx, d, text) => {
        const { facts, typePx } = glanceIn(size, mmPerPx, d, text);
        if (facts === 0) return;
        const least = 2 * d * 1000 * Math.tan((16 / 60 / 2) * (Math.PI / 180));
        expect(typePx * 0.7 * mmPerPx).toBeGreaterThanOrEqual(least - 1e-9);
        expect(typePx * 1.2 * facts).toBeLessThanOrEqual(size.height);
      }),
    );
  });

  it('are as many as the set-up says, from where it says, and on the panel it asks for', () => {
    const screen = { width: 1280, height: 800 };
    const mmPerPx = 0.17;
    for (let d = 2; d <= 20; d += 1) {
      const { facts, bothFrom, minutesFrom, needsInches } = doorServes(screen, mmPerPx, d, 'On time');
      expect(facts, `${d} m`).toBe(d <= bothFrom ? 2 : d <= minutesFrom ? 1 : 0);
      if (facts === 2) continue;
      const ten = (Math.hypot(1280, 800) * mmPerPx) / 25.4;
      const larger = doorServes(screen, (mmPerPx * needsInches) / ten, d, 'On time');
      expect(larger.facts, `${needsInches} inches at ${d} m`).toBeGreaterThan(facts);
    }
  });
});

describe('fitGrid', () => {
  it('puts 14 horses and the plate on one page of the two usual tablets, each tile at its least size or above', () => {
    for (const [width, height] of [
      [1274, 754],
      [794, 1234],
    ] as const) {
      const { columns, rows, pages } = fitGrid(14, { width, height }, 1);
      expect(pages).toBe(1);
      expect(width / columns).toBeGreaterThanOrEqual(LEAST_TILE.width);
      expect(height / rows).toBeGreaterThanOrEqual(LEAST_TILE.height);
    }
  });

  it('shows every horse exactly once over its pages, whatever the room', () => {
    const room = fc.record({ width: fc.nat({ max: 3000 }), height: fc.nat({ max: 3000 }) });
    fc.assert(
      fc.property(room, fc.nat({ max: 60 }), fc.constantFrom(0, 1), (size, count, fixed) => {
        const horses = Array.from({ length: count }, (_, i) => i);
        const grid = fitGrid(count, size, fixed);
        const pages = Array.from({ length: Math.max(1, grid.pages) }, (_, page) =>
          pageOf(horses, grid, page, fixed),
        );
        expect(pages.flat()).toEqual(horses);
        // A single cell is shown however small the room is.
        const cells = grid.columns * grid.rows;
        for (const page of pages) expect(page.length).toBeLessThanOrEqual(Math.max(1, cells - fixed));
      }),
    );
  });

  it('stays on the last page when horses go', () => {
    const grid = { columns: 2, rows: 2, pages: 2 };
    expect(pageOf([1, 2, 3, 4, 5], grid, 9)).toEqual([5]);
  });
});

describe('isRepeat', () => {
  const first = { at: 1000, x: 100, y: 100, byPointer: true };
  it('drops the same target within half a second, and takes it after', () => {
    expect(isRepeat(first, { ...first, at: 1499 }, true)).toBe(true);
    expect(isRepeat(first, { ...first, at: 1500 }, true)).toBe(false);
  });
  it('drops what appeared under the finger, and takes what is elsewhere', () => {
    expect(isRepeat(first, { ...first, at: 1200, x: 130 }, false)).toBe(true);
    expect(isRepeat(first, { ...first, at: 1200, x: 400 }, false)).toBe(false);
  });
  it('lets a keyboard go from one target to the next', () => {
    const key = { at: 1100, x: 0, y: 0, byPointer: false };
    expect(isRepeat({ ...key, at: 1000 }, key, false)).toBe(false);
    expect(isRepeat({ ...key, at: 1000 }, key, true)).toBe(true);
  });
  it('takes the first tap of all', () => expect(isRepeat(null, first, false)).toBe(false));
});

describe('bigFigure', () => {
  const MINUTE = 60_000;
  /** Ramp time so many minutes from now, the start 15 min after it. */
  const ramp = (minutes: number, isReady: boolean) =>
    bigFigure({ rampTime: minutes * MINUTE, start: (minutes + 15) * MINUTE, isReady }, 0);

  it('has two figures at most up to a hundred hours', () => {
    fc.assert(
      fc.property(fc.integer({ min: -5999, max: 5999 }), fc.boolean(), (minutes, isReady) => {
        expect(ramp(minutes, isReady).figure).toMatch(/^\d{1,2}$/);
      }),
    );
  });

  it('counts minutes to the ramp, past it while a horse is missing, and hours far off', () => {
    expect(ramp(12, false)).toEqual({ figure: '12', unit: 'min to the ramp' });
    expect(ramp(-3, false)).toEqual({ figure: '3', unit: 'min late for the ramp' });
    expect(ramp(125, false)).toEqual({ figure: '2', unit: 'hours to the ramp' });
    expect(ramp(-125, false)).toEqual({ figure: '2', unit: 'hours late for the ramp' });
  });

  it('counts to the start once every horse is ready and the ramp time has passed: nobody is late then', () => {
    expect(ramp(3, true)).toEqual({ figure: '3', unit: 'min to the ramp' });
    expect(ramp(-13, true)).toEqual({ figure: '2', unit: 'min to the start' });
    expect(ramp(-15, true)).toEqual({ figure: '0', unit: 'min to the start' });
  });
});

describe('shareFor', () => {
  it('leaves short names alone, shrinks long ones, and stops at the least', () => {
    const line = { letters: 10, least: 0.5 };
    expect(shareFor('Ob', line)).toBe(1);
    expect(shareFor('x'.repeat(16), line)).toBeCloseTo(0.625);
    expect(shareFor('x'.repeat(40), line)).toBe(0.5);
    expect(shareFor('', line)).toBe(1);
  });
});
