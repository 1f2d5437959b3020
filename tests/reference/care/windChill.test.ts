/** Wind chill against the printed chart. */
import { describe, expect, it } from 'vitest';
import { windChillC, windChillF } from '#core/care/windChill.ts';
import { source } from '../source.ts';

function degrees(result: ReturnType<typeof windChillF>): number {
  if (result.kind === 'cannot-say') throw new Error('in range');
  return result.degrees;
}

describe(
  'the printed chart (NWS La Crosse, crh.noaa.gov/arx/windchill.php)',
  source('NWS La Crosse, wind chill chart (index of 1 November 2001)'),
  () => {
    it.each([
      [40, 5, 36, 36.472],
      [35, 10, 27, 27.445],
      [30, 10, 21, 21.25],
      [30, 15, 19, 19.027],
      [25, 10, 15, 15.05],
      [20, 15, 6, 6.22],
      [20, 20, 4, 4.243],
      [10, 20, -9, -8.88],
      [10, 25, -11, -10.724],
      [0, 15, -19, -19.398],
      [0, 30, -26, -25.86],
      [-10, 30, -39, -39.447],
      [-10, 5, -22, -22.26],
      [-20, 45, -58, -58.145],
    ])('%d °F, %d mph: %d', (airF, mph, cell, exact) => {
      const felt = degrees(windChillF(airF, mph));
      expect(felt).toBeCloseTo(exact, 2);
      expect(Math.round(felt)).toBe(cell);
    });

    it('prints -98 at -45 °F and 60 mph', () => {
      expect(Math.round(degrees(windChillF(-45, 60)))).toBe(-98);
    });

    it(
      'is not the index used before November 2001 (28 at 40 °F and 10 mph)',
      source('climate.virginia.edu still shows the old one'),
      () => {
        expect(Math.round(degrees(windChillF(40, 10)))).toBe(34);
      },
    );
  },
);

describe(
  'metric form (apollo.nvu.vsc.edu; values recomputed)',
  source('apollo.nvu.vsc.edu, metric form of the NWS index'),
  () => {
    it.each([
      [0, 20, -5.242],
      [-10, 30, -19.52],
      [-20, 40, -34.135],
      [-5, 10, -9.288],
      [-10, 20, -17.86],
      [0, 10, -3.31],
      [-20, 30, -32.57],
    ])('%d °C, %d km/h', (airC, kmh, exact) => {
      expect(degrees(windChillC(airC, kmh))).toBeCloseTo(exact, 2);
    });
  },
);

describe(
  'outside its range the air temperature stands',
  source('T <= 50 °F and V > 3 mph: secondary copies of the NWS page'),
  () => {
    it.each([
      [50, 3.01, 'wind-chill'],
      [50, 3, 'air'],
      [50.01, 20, 'air'],
      [20, 0, 'air'],
    ] as const)('%d °F, %d mph: %s', (airF, mph, branch) => {
      const result = windChillF(airF, mph);
      expect(result).toMatchObject({ kind: 'index', branch });
      if (branch === 'air') expect(degrees(result)).toBe(airF);
    });
  },
);
