/** Visual angle, panels and what fits on them, against published figures and plain geometry. */
import { describe, expect, it } from 'vitest';
import { arcMinutesOf, capitalMm, EASY_ARC_MINUTES, farthestMetres } from '#core/sight/angle.ts';
import { typeMm, USUAL_FACE } from '#core/sight/face.ts';
import { fitAt } from '#core/sight/fits.ts';
import { CARD_MM, mmPerCssPx, mmPerPxOfCard, pixelsAnInch, type Panel } from '#core/sight/panel.ts';
import { sourceOfAll } from '../source.ts';

sourceOfAll('Plain geometry of the visual angle, computed apart');

const INCH_MM = 25.4;
const FOOT_M = 0.3048;

describe('height of a capital, h = 2 d tan(angle / 2)', () => {
  // Geometry; values computed apart from this project and rounded to 0.01 mm.
  const HEIGHTS: [metres: number, mm: Record<5 | 10 | 16 | 20 | 22 | 24, number>][] = [
    [0.6, { 5: 0.87, 10: 1.75, 16: 2.79, 20: 3.49, 22: 3.84, 24: 4.19 }],
    [1, { 5: 1.45, 10: 2.91, 16: 4.65, 20: 5.82, 22: 6.4, 24: 6.98 }],
    [2, { 5: 2.91, 10: 5.82, 16: 9.31, 20: 11.64, 22: 12.8, 24: 13.96 }],
    [6, { 5: 8.73, 10: 17.45, 16: 27.93, 20: 34.91, 22: 38.4, 24: 41.89 }],
    [8, { 5: 11.64, 10: 23.27, 16: 37.23, 20: 46.54, 22: 51.2, 24: 55.85 }],
    [10, { 5: 14.54, 10: 29.09, 16: 46.54, 20: 58.18, 22: 64.0, 24: 69.81 }],
    [12, { 5: 17.45, 10: 34.91, 16: 55.85, 20: 69.81, 22: 76.79, 24: 83.78 }],
  ];
  it.each(HEIGHTS)('at %f m', (metres, heights) => {
    for (const [arc, mm] of Object.entries(heights))
      expect(capitalMm(metres, Number(arc))).toBeCloseTo(mm, 2);
  });

  it('per metre: 16′ 4.6542 mm, 18′ 5.2360, 20′ 5.8178, 22′ 6.3996, 24′ 6.9813 (geometry)', () => {
    for (const [arc, mm] of [
      [16, 4.6542],
      [18, 5.236],
      [20, 5.8178],
      [22, 6.3996],
      [24, 6.9813],
    ] as const)
      expect(capitalMm(1, arc)).toBeCloseTo(mm, 4);
  });

  it('agrees with H = 6.283 D MA / 21600 (US NRC NUREG-0700 rev. 2, 1.3.1-4): 34.9056 mm for 20′ at 6 m', () => {
    expect((6.283 * 6000 * 20) / 21_600).toBeCloseTo(34.9056, 4);
    expect(capitalMm(6, 20)).toBeCloseTo(34.9067, 4);
    for (let metres = 1; metres <= 15; metres += 1)
      expect(capitalMm(metres, 20) / ((6.283 * metres * 1000 * 20) / 21_600)).toBeCloseTo(1, 4);
  });

  it('the rule of a two-hundredth of the distance is 17.19′ (FAA Human Factors web training, Visual Displays)', () => {
    expect(arcMinutesOf(1000 / 200, 1)).toBeCloseTo(17.19, 2);
  });

  it('a 20/20 letter is 5′, 8.73 mm at 6 m (Howett, NBS Technical Note 1180: five strokes of 1′)', () => {
    expect(capitalMm(6, 5)).toBeCloseTo(8.73, 2);
  });
});

describe('sign rules in the same unit', () => {
  // Trade and road rules as converted from inches a foot; each is an upper or lower sanity check, not a rule of the board.
  const RULES: [rule: string, inches: number, feet: number, arc: number][] = [
    ['1 in / 10 ft (digital signs, comfortable)', 1, 10, 28.65],
    ['1 in / 20 ft (digital signs, least)', 1, 20, 14.32],
    ['1 in / 30 ft (US highways)', 1, 30, 9.55],
    ['1 in / 50 ft (sign trade)', 1, 50, 5.73],
    ['1/8 in a foot (ADA 2010, 703.5.5)', 1 / 8, 1, 35.81],
  ];
  it.each(RULES)('%s', (_rule, inches, feet, arc) => {
    expect(arcMinutesOf(inches * INCH_MM, feet * FOOT_M)).toBeCloseTo(arc, 2);
  });

  it('easy reading at 6 m and 12 m stays under the ADA 2010 table 703.5.5 for low signs: 59.3 mm and 121.8 mm', () => {
    /** Uppercase "I" in mm with its baseline at 40 to 70 in: 5/8 in up to 6 ft, then 1/8 in a foot. */
    const adaMm = (metres: number): number => (5 / 8 + Math.max(0, metres / FOOT_M - 6) / 8) * INCH_MM;
    expect(adaMm(6)).toBeCloseTo(59.3, 1);
    expect(adaMm(12)).toBeCloseTo(121.8, 1);
    expect(capitalMm(6, EASY_ARC_MINUTES)).toBeLessThan(adaMm(6));
    expect(capitalMm(12, EASY_ARC_MINUTES)).toBeLessThan(adaMm(12));
  });
});

describe('the largest distance for a letter (arithmetic)', () => {
  it.each([
    [10, 20, 1.719],
    [20, 20, 3.438],
    [20, 16, 4.297],
    [40, 20, 6.875],
    [60, 20, 10.313],
  ])('%f mm at %f′: %f m', (mm, arc, metres) => expect(farthestMetres(mm, arc)).toBeCloseTo(metres, 3));
});

describe('panels', () => {
  it('2732 × 2048 at 12.9 in has 264.7 pixels an inch (arithmetic)', () => {
    expect(pixelsAnInch(2732, 2048, 12.9)).toBeCloseTo(264.7, 1);
  });

  it.each([
    ['96 dpi reference', 96, 1, 0.2646, 75.6],
    ['264 ppi, 2 device pixels', 264, 2, 0.1924, 103.9],
    ['224 ppi, 1.5', 224, 1.5, 0.1701, 117.6],
    ['141 ppi, 1', 141, 1, 0.1801, 111.0],
    ['102 ppi, 1', 102, 1, 0.249, 80.3],
  ])('%s: a CSS pixel in mm, and 20 mm in CSS pixels (arithmetic)', (_panel, ppi, ratio, mm, px) => {
    expect(mmPerCssPx(ppi, ratio)).toBeCloseTo(mm, 4);
    expect(20 / mmPerCssPx(ppi, ratio)).toBeCloseTo(px, 1);
  });

  it('at 264 ppi and 2 device pixels, 20′ from 6 m are capitals of 181.4 px and type of 259.1 px (arithmetic)', () => {
    const mmPerPx = mmPerCssPx(264, 2);
    expect(capitalMm(6, 20) / mmPerPx).toBeCloseTo(181.4, 1);
    expect(typeMm(USUAL_FACE, capitalMm(6, 20)) / mmPerPx).toBeCloseTo(259.1, 1);
  });

  it('a bank card is 85.60 × 53.98 mm (ISO/IEC 7810 ID-1)', () => {
    expect(CARD_MM).toEqual({ width: 85.6, height: 53.98 });
    expect(mmPerPxOfCard(85.6 / mmPerCssPx(224, 1.5))).toBeCloseTo(mmPerCssPx(224, 1.5), 12);
  });
});

describe('how much fits at 20′: rows × letters (capital 0.70 em, letter 0.58 em, line 1.2 em, 94 % usable)', () => {
  // Computed apart from this project from the panels' pixels and diagonals.
  const METRES = [1, 3, 6, 9, 12];
  const PANELS: [inches: number, width: number, height: number, fits: [number, number][]][] = [
    [
      10.1,
      1920,
      1200,
      [
        [12, 42],
        [4, 14],
        [2, 7],
        [1, 4],
        [1, 3],
      ],
    ],
    [
      12.9,
      2732,
      2048,
      [
        [18, 51],
        [6, 17],
        [3, 8],
        [2, 5],
        [1, 4],
      ],
    ],
    [
      15.6,
      1920,
      1080,
      [
        [18, 67],
        [6, 22],
        [3, 11],
        [2, 7],
        [1, 5],
      ],
    ],
    [
      21.5,
      1920,
      1080,
      [
        [25, 92],
        [8, 30],
        [4, 15],
        [2, 10],
        [2, 7],
      ],
    ],
    [
      32,
      1920,
      1080,
      [
        [37, 138],
        [12, 46],
        [6, 23],
        [4, 15],
        [3, 11],
      ],
    ],
  ];
  it.each(PANELS)('%f in, %i × %i', (inches, width, height, fits) => {
    const panel: Panel = { width, height, mmPerPx: INCH_MM / pixelsAnInch(width, height, inches) };
    METRES.forEach((metres, i) => {
      const { rows, letters } = fitAt(panel, USUAL_FACE, metres, 20);
      expect([rows, letters], `${metres} m`).toEqual(fits[i]);
    });
  });
});
