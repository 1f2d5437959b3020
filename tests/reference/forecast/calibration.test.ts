/**
 * Is a chance of 80 % right eight times in ten? On simulated days (demo/), whose stage times come from another family
 * than the planner believes in. The bounds are the project's own; the Brier score is Brier's (1950).
 */
import { describe, expect, test } from 'vitest';
import { calibrate } from './simulatedDays.ts';

describe.each([
  ['a usual afternoon, nineteen horses in twenty ready in time', 60],
  ['a tight afternoon, one horse in five late', 42],
  ['horses taken up too late, two in five late', 36],
])('%s', (_name, earliestMinutes) => {
  const found = calibrate({ earliestMinutes }, 8, 10, 30);

  test('eight in ten horses are ready between p10 and p90', () => {
    expect(found.forecasts).toBeGreaterThan(500);
    expect(found.coverage80).toBeGreaterThanOrEqual(0.75);
    expect(found.coverage80).toBeLessThanOrEqual(0.85);
  });

  test('the chance of being ready says more than the base rate, and than the forecast without chance', () => {
    expect(found.brier).toBeLessThan(found.brierBaseRate);
    expect(found.brier).toBeLessThan(found.brierSimple);
  });

  test('reliability: what is said comes about as often as said, within 0.15 on average', () => {
    expect(Math.sqrt(found.reliability)).toBeLessThan(0.15);
  });
});
