/**
 * Is a chance of 80 % right eight times in ten? On simulated days (demo/), whose stage times come from another family
 * than the planner believes in. The bounds are the project's own; the Brier score is Brier's (1950).
 */
import { describe, expect, test } from 'vitest';
import { calibration, heldOut } from './simulatedDays.ts';
import { sourceOfAll } from '../source.ts';

sourceOfAll('Simulated days of another family of distributions', 'Brier 1950 (from memory)');

const LEARNED_DAYS = 12;
const HELD_OUT_DAYS = 16;
const EVERY_MINUTES = 30;

/** By how early horses are taken up, in minutes before the ramp time. */
const WORLDS = [
  ['a usual afternoon, one horse in twenty late', 60],
  ['a tight afternoon, one horse in four late', 42],
  ['horses taken up too late, two in five late', 36],
] as const;

const CASES = WORLDS.map(([, earliestMinutes]) =>
  heldOut({ earliestMinutes }, LEARNED_DAYS, HELD_OUT_DAYS, EVERY_MINUTES),
);

test('eight in ten horses are ready between p10 and p90', () => {
  const all = calibration(HELD_OUT_DAYS * WORLDS.length, CASES.flat());
  expect(all.forecasts).toBeGreaterThan(3000);
  expect(all.coverage80).toBeGreaterThanOrEqual(0.75);
  expect(all.coverage80).toBeLessThanOrEqual(0.85);
});

describe.each(WORLDS.map(([name], i) => [name, calibration(HELD_OUT_DAYS, CASES[i] ?? [])] as const))(
  '%s',
  (_name, found) => {
    // Sixteen days of fourteen horses, seen again and again: two standard errors are about 0.05.
    test('so too by itself, within what so few days can tell', () => {
      expect(found.coverage80).toBeGreaterThanOrEqual(0.7);
      expect(found.coverage80).toBeLessThanOrEqual(0.9);
    });

    test('the chance of being ready says more than the base rate, and than the forecast without chance', () => {
      expect(found.brier).toBeLessThan(found.brierBaseRate);
      expect(found.brier).toBeLessThan(found.brierSimple);
    });

    test('reliability: what is said comes about as often as said, within 0.15 on average', () => {
      expect(Math.sqrt(found.reliability)).toBeLessThan(0.15);
    });
  },
);
