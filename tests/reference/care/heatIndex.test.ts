/** Heat index against the printed chart and against the equation's branches. */
import { describe, expect, it } from 'vitest';
import { heatIndexBand, heatIndexF, rothfuszF } from '#core/care/heatIndex.ts';
import { source } from '../source.ts';

function index(airF: number, humidity: number) {
  const result = heatIndexF(airF, humidity);
  if (result.kind === 'cannot-say') throw new Error('in range');
  return result;
}

describe(
  'the printed chart (NWS Tulsa, srh.noaa.gov/tsa/?n=heatindex)',
  source('The chart is made with the regression alone: no adjustment over 85 % humidity'),
  () => {
    const humidities = [40, 50, 60, 70, 80, 90, 100];
    it.each([
      [80, [80, 81, 82, 83, 84, 86, 87]],
      [84, [83, 85, 88, 90, 94, 98, 103]],
      [86, [85, 88, 91, 95, 100, 105, 112]],
      [88, [88, 91, 95, 100, 106, 113, 121]],
      [90, [91, 95, 100, 106, 113, 122, 132]],
      [92, [94, 99, 105, 112, 121, 131]],
      [94, [97, 103, 110, 119, 129]],
      [96, [101, 108, 116, 126]],
      [100, [109, 118, 129]],
      [104, [119, 131]],
    ])('row of %d °F', (airF, cells) => {
      cells.forEach((cell, i) => {
        expect([humidities[i], Math.round(rothfuszF(airF, humidities[i] ?? NaN))]).toEqual([
          humidities[i],
          cell,
        ]);
      });
    });

    it.each([
      // same chart, cells between the columns above
      [96, 65, 121, 121.032],
      [92, 55, 101, 101.446],
      [104, 55, 137, 137.361],
      [110, 40, 136, 135.657],
      [84, 60, 88, 87.524],
      [86, 90, 105, 105.294],
      [90, 70, 106, 105.922],
      [100, 60, 129, 129.489],
      [88, 100, 121, 121.21],
      [90, 60, 100, 99.68],
    ])('%d °F at %d %%: %d', (airF, humidity, cell, exact) => {
      expect(rothfuszF(airF, humidity)).toBeCloseTo(exact, 2);
      expect(Math.round(rothfuszF(airF, humidity))).toBe(cell);
    });

    it('disagrees in one known cell, 90 °F at 45 %, by less than 1', () => {
      expect(rothfuszF(90, 45)).toBeCloseTo(92.49, 2);
      expect(Math.abs(rothfuszF(90, 45) - 93)).toBeLessThan(1);
    });
  },
);

describe(
  'branches (recomputed from NOAA WPC, "The Heat Index Equation")',
  source('NOAA WPC, The Heat Index Equation (Rothfusz, NWS SR 90-23)'),
  () => {
    it.each([
      [90, 10, 'dry', 85.279],
      [95, 5, 'dry', 88.177],
      [95, 10, 'dry', 89.45],
      [100, 5, 'dry', 92.5],
      [100, 10, 'dry', 94.122],
      [112, 10, 'dry', 106.75],
      [82, 95, 'humid', 93.972],
      [80, 90, 'humid', 86.342],
      [80, 100, 'humid', 89.288],
      [86, 90, 'humid', 105.394],
      [85, 90, 'humid', 101.78],
      [87, 95, 'humid', 112.63],
      [86, 95, 'humid', 108.53],
      [84, 95, 'humid', 100.88],
      [82, 90, 'humid', 91.99],
      [79, 100, 'regression', 83.801],
      [75, 50, 'simple', 74.55],
      [70, 80, 'simple', 70.46],
      [78, 60, 'simple', 78.32],
      [70, 50, 'simple', 69.05],
      [75, 60, 'simple', 75.02],
    ] as const)('%d °F at %d %%: %s', (airF, humidity, branch, exact) => {
      const result = index(airF, humidity);
      expect(result.branch).toBe(branch);
      expect(result.fahrenheit).toBeCloseTo(exact, 2);
    });

    it('takes exactly 2 °F off at 95 °F and 5 %, and adds exactly 1 °F at 82 °F and 95 %', () => {
      expect(rothfuszF(95, 5) - index(95, 5).fahrenheit).toBeCloseTo(2, 9);
      expect(index(82, 95).fahrenheit - rothfuszF(82, 95)).toBeCloseTo(1, 9);
    });

    it('averages the simple form once: 74.55, not 74.775', () => {
      expect(index(75, 50).fahrenheit).toBeCloseTo(74.55, 9);
    });
  },
);

describe(
  'bands',
  source('newer: an NWS classification in a secondary copy', 'older: NWS Tulsa chart'),
  () => {
    it.each([
      ['newer', 79.9, 'none'],
      ['newer', 80, 'caution'],
      ['newer', 90, 'extreme-caution'],
      ['newer', 102.9, 'extreme-caution'],
      ['newer', 103, 'danger'],
      ['newer', 124.9, 'danger'],
      ['newer', 125, 'extreme-danger'],
      ['older', 104, 'extreme-caution'],
      ['older', 105, 'danger'],
      ['older', 129, 'danger'],
      ['older', 130, 'extreme-danger'],
    ] as const)('%s %d: %s', (set, indexF, band) => {
      expect(heatIndexBand(set, indexF)).toBe(band);
    });
  },
);

it('is the air temperature under 40 °F', source('NWS practice, from memory'), () => {
  expect(index(39.9, 50)).toMatchObject({ branch: 'air', fahrenheit: 39.9 });
  expect(index(40, 50).branch).toBe('simple');
});

it('says when it goes beyond the chart’s hottest row', source('NWS Tulsa, heat index chart'), () => {
  expect(index(110, 40).beyondChart).toBe(false);
  expect(index(111, 40).beyondChart).toBe(true);
});
