/** Student's t against printed tables, closed forms and its own density. */
import { describe, expect, it } from 'vitest';
import { studentTCdf, studentTQuantile, studentTSurvival } from '#core/plan/durations/studentT.ts';
import { source, sourceOfAll } from '../source.ts';

sourceOfAll('Student’s t: closed forms and its own density');

describe('printed table of critical values (standard statistical tables, from memory)', () => {
  it.each([
    // df, one-sided chance, critical value
    [1, 0.95, 6.314],
    [1, 0.975, 12.706],
    [2, 0.95, 2.92],
    [2, 0.975, 4.303],
    [3, 0.99, 4.541],
    [4, 0.975, 2.776],
    [5, 0.9, 1.476],
    [5, 0.975, 2.571],
    [8, 0.995, 3.355],
    [10, 0.95, 1.812],
    [10, 0.975, 2.228],
    [10, 0.995, 3.169],
    [11, 0.9, 1.363],
    [15, 0.975, 2.131],
    [20, 0.975, 2.086],
    [30, 0.975, 2.042],
    [60, 0.975, 2.0],
    [120, 0.975, 1.98],
    [1e6, 0.975, 1.96],
    [1e6, 0.995, 2.576],
  ])('df %d, %d: %d', (df, p, critical) => {
    expect(studentTQuantile(p, df)).toBeCloseTo(critical, 3);
    expect(studentTQuantile(1 - p, df)).toBeCloseTo(-critical, 3);
  });
});

describe(
  'closed forms',
  source('df 1 is Cauchy’s distribution', '2, 3 and 4 by elementary integration'),
  () => {
    const forms: Record<number, (t: number) => number> = {
      1: (t) => 0.5 + Math.atan(t) / Math.PI,
      2: (t) => 0.5 + t / (2 * Math.sqrt(2 + t * t)),
      3: (t) => {
        const angle = Math.atan(t / Math.sqrt(3));
        return 0.5 + (angle + Math.sin(angle) * Math.cos(angle)) / Math.PI;
      },
      4: (t) => {
        const s = t / Math.sqrt(4 + t * t);
        return 0.5 + (s * (3 - s * s)) / 4;
      },
    };
    it.each([1, 2, 3, 4])('df %d', (df) => {
      const form = forms[df];
      if (!form) throw new Error('listed above');
      for (let t = -60; t <= 60; t += 0.173)
        expect(Math.abs(studentTCdf(t, df) - form(t))).toBeLessThan(1e-14);
    });
  },
);

it.each([0.7, 2.5, 6, 11, 47.3])(
  'is the integral of its density, df %d',
  source(
    'Simpson’s rule on the density without its constant, over the half line folded to (0, 1): t = x / (1 - x)',
  ),
  (df) => {
    const weight = (t: number) => (1 + (t * t) / df) ** (-(df + 1) / 2);
    const folded = (x: number) => (x >= 1 ? 0 : weight(x / (1 - x)) / (1 - x) ** 2);
    const simpson = (from: number, to: number) => {
      const steps = 4000;
      const h = (to - from) / steps;
      let sum = folded(from) + folded(to);
      for (let i = 1; i < steps; i += 1) sum += (i % 2 === 1 ? 4 : 2) * folded(from + i * h);
      return (sum * h) / 3;
    };
    // Below one degree of freedom the folded density has a pole at 1: compare ratios of inner parts instead.
    for (const t of [0.3, 1, 2.2]) {
      const inner = simpson(0, t / (1 + t));
      const outer = simpson(0, 5 / 6);
      const ratio = (studentTCdf(t, df) - 0.5) / (studentTCdf(5, df) - 0.5);
      expect(inner / outer).toBeCloseTo(ratio, 8);
    }
  },
);

it('goes to the normal distribution', source('Phi(1) and Phi(1.96), standard tables'), () => {
  expect(studentTCdf(1, 1e7)).toBeCloseTo(0.841345, 5);
  expect(studentTCdf(1.96, 1e7)).toBeCloseTo(0.975002, 5);
});

it('keeps small tails', source('Cauchy: P(T > t) = 1/(pi t) for large t'), () => {
  expect(studentTSurvival(1e9, 1) * Math.PI * 1e9).toBeCloseTo(1, 9);
  expect(studentTQuantile(1e-12, 1) * Math.PI * 1e-12).toBeCloseTo(-1, 6);
});
