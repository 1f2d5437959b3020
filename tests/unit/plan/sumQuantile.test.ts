/** Quantiles of sums of stages, against the same integral taken another way. */
import { describe, expect, test } from 'vitest';
import { leftAt, StudentTable, sumQuantile, type LogT } from '#core/plan/stageTimes.ts';
import { minutesAtGiven } from '#core/plan/durations/predict.ts';
import { studentTCdf, studentTQuantile } from '#core/plan/durations/studentT.ts';
import { MINUTE_MS } from '#core/time/units.ts';

function stage(minutes: number, scale: number, df: number): LogT {
  return { location: Math.log(minutes * MINUTE_MS), scale, table: new StudentTable(df), key: `${minutes}` };
}

/** P(A + B <= s) by Simpson's rule over the chance of A. */
function chanceOfSum(a: LogT, b: LogT, s: number): number {
  const cdf = (one: LogT, x: number): number =>
    x <= 0 ? 0 : studentTCdf((Math.log(x) - one.location) / one.scale, one.table.df);
  const steps = 4000;
  let sum = 0;
  for (let i = 0; i <= steps; i += 1) {
    const x = (s * i) / steps;
    const weight = i === 0 || i === steps ? 1 : i % 2 ? 4 : 2;
    const h = s / steps;
    // Density of A by a central difference.
    sum += weight * ((cdf(a, x + h / 2) - cdf(a, x - h / 2)) / h) * cdf(b, s - x);
  }
  return (sum * (s / steps)) / 3;
}

describe('quantile of a sum', () => {
  test.each([
    [0.5, 0.4, 8],
    [0.8, 0.4, 8],
    [0.9, 0.4, 30],
    [0.8, 0.58, 6],
    [0.95, 0.35, 150],
  ])('at p = %f, spread %f, %i degrees of freedom the sum is below it with that chance', (p, scale, df) => {
    const [coat, tack] = [stage(11, scale, df), stage(8, scale * 1.1, df)];
    expect(chanceOfSum(coat, tack, sumQuantile([coat, tack], p))).toBeCloseTo(p, 2);
  });

  test('of three is the same in any order, and above the two', () => {
    const [feet, coat, tack] = [stage(4, 0.45, 10), stage(11, 0.4, 10), stage(8, 0.42, 10)] as const;
    const one = sumQuantile([feet, coat, tack], 0.8);
    expect(sumQuantile([tack, feet, coat], 0.8) / one).toBeCloseTo(1, 2);
    expect(one).toBeGreaterThan(sumQuantile([coat, tack], 0.8) + 3 * MINUTE_MS);
  });

  test('is less than the sum of the quantiles, for two stages seldom both go badly', () => {
    const [coat, tack] = [stage(11, 0.4, 10), stage(8, 0.4, 10)];
    expect(sumQuantile([coat, tack], 0.8)).toBeLessThan(sumQuantile([coat], 0.8) + sumQuantile([tack], 0.8));
    expect(sumQuantile([], 0.8)).toBe(0);
  });
});

describe('tables of Student’s t', () => {
  test.each([3, 6, 20, 500])('agree with the exact quantile at %i degrees of freedom', (df) => {
    const table = new StudentTable(df);
    for (const p of [0.001, 0.02, 0.1, 0.37, 0.5, 0.8, 0.95, 0.999]) {
      const exact = studentTQuantile(p, df);
      expect(Math.abs(table.at(p) - exact)).toBeLessThan(0.002 * Math.max(1, Math.abs(exact)));
    }
  });
});

describe('what is left of a stage under way', () => {
  const tack = stage(8, 0.45, 12);
  const prediction = { location: Math.log(8), scale: 0.45, df: 12 };

  test.each([1, 5, 8, 12])('after %i minutes is the distribution cut off below', (elapsed) => {
    for (const u of [0.1, 0.5, 0.9]) {
      const total = elapsed + leftAt(tack, elapsed * MINUTE_MS, u) / MINUTE_MS;
      const exact = Math.max(minutesAtGiven(prediction, elapsed, u), elapsed + 1 / 12);
      expect(total / exact).toBeCloseTo(1, 2);
    }
  });

  test('grows no further once nearly every stage would be done: the tap was forgotten', () => {
    const after = (minutes: number) => leftAt(tack, minutes * MINUTE_MS, 0.5);
    expect(after(25)).toBeGreaterThan(after(8));
    expect(after(300)).toBe(after(60));
    expect(after(60)).toBeLessThan(10 * MINUTE_MS);
  });
});
