import { describe, expect, it } from 'vitest';
import { chance, seedFor } from '../../../demo/random.ts';

const DRAWS = 40_000;

function moments(values: readonly number[]) {
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  const central = (power: number): number =>
    values.reduce((sum, x) => sum + (x - mean) ** power, 0) / values.length;
  return { mean, variance: central(2), skewness: central(3) / central(2) ** 1.5 };
}

describe('chance', () => {
  // Mean, variance and skewness of the gamma distribution: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.6.11:
  // for shape k and scale b they are k·b, k·b², 2/√k.
  it.each([
    [1, 3],
    [6, 4],
    [9, 11],
  ])('draws gamma times of shape %d and mean %d', (shape, mean) => {
    const draw = chance(17);
    const drawn = moments(Array.from({ length: DRAWS }, () => draw.gamma(shape, mean)));
    const scale = mean / shape;
    expect(drawn.mean / mean).toBeCloseTo(1, 1);
    expect(drawn.variance / (shape * scale ** 2)).toBeGreaterThan(0.95);
    expect(drawn.variance / (shape * scale ** 2)).toBeLessThan(1.05);
    expect(Math.abs(drawn.skewness - 2 / Math.sqrt(shape))).toBeLessThan(0.12);
  });

  // Mean 1/2 and variance 1/12 of the uniform distribution: NIST/SEMATECH e-Handbook, 1.3.6.6.2.
  it('draws units evenly', () => {
    const draw = chance(5);
    const drawn = moments(Array.from({ length: DRAWS }, () => draw.unit()));
    expect(drawn.mean).toBeCloseTo(1 / 2, 2);
    expect(drawn.variance).toBeCloseTo(1 / 12, 2);
  });

  it('repeats itself from the same seed and picks from what there is', () => {
    const [a, b] = [chance(9), chance(9)];
    expect(Array.from({ length: 20 }, () => a.unit())).toEqual(Array.from({ length: 20 }, () => b.unit()));
    expect(['x', 'y']).toContain(a.pick(['x', 'y']));
    expect(a.pick([])).toBeUndefined();
  });

  it('gives every seed and name a stream of its own', () => {
    const seeds = [0, 1, 2, 3, 9, 10, 11, 21].flatMap((seed) =>
      ['work v1', 'work v2', 'work v11', 'arrival v1'].map((name) => seedFor(seed, name)),
    );
    expect(new Set(seeds).size).toBe(seeds.length);
  });
});
