/** Normal–inverse-gamma updates against a case worked by hand and checked with another package. */
import { expect, it } from 'vitest';
import {
  expectedVariance,
  predictMean,
  predictNext,
  updateBatch,
  updateOne,
} from '#core/plan/durations/normalInverseGamma.ts';
import { studentTCdf, studentTQuantile } from '#core/plan/durations/studentT.ts';
import { sourceOfAll } from '../source.ts';

sourceOfAll('Textbook example from memory, recomputed with SciPy');

// Textbook example from memory; every figure recomputed, quantiles with SciPy.
const prior = { m: 30, k: 4, a: 3, b: 50 };
const data = [34, 28, 41, 36, 31];

it('updates in one step', () => {
  const after = updateBatch(prior, data);
  expect(after.m).toBeCloseTo(290 / 9, 12);
  expect(after.k).toBe(9);
  expect(after.a).toBe(5.5);
  expect(after.b).toBeCloseTo(1051 / 9, 12);
  expect(expectedVariance(after)).toBeCloseTo(2102 / 81, 12);
});

it('updates datum by datum to the same', () => {
  const steps = [
    [30.8, 5, 3.5, 56.4],
    [30.33333, 6, 4, 59.66667],
    [31.857143, 7, 4.5, 108.428571],
    [32.375, 8, 5, 115.9375],
    [32.22222, 9, 5.5, 116.77778],
  ];
  let belief = prior;
  data.forEach((x, i) => {
    belief = updateOne(belief, x);
    const figures = [belief.m, belief.k, belief.a, belief.b];
    figures.forEach((figure, j) => expect(figure).toBeCloseTo(steps[i]?.[j] ?? NaN, 5));
  });
});

it('predicts the next datum', () => {
  const { location, scale, df } = predictNext(updateBatch(prior, data));
  expect(df).toBe(11);
  expect(scale ** 2).toBeCloseTo(21020 / 891, 12);
  expect(scale).toBeCloseTo(4.857105, 6);
  expect(predictMean(updateBatch(prior, data)).scale).toBeCloseTo(1.535952, 6);
  const quantiles = [0.1, 0.5, 0.8, 0.9, 0.95].map((p) => location + scale * studentTQuantile(p, df));
  [25.5999, 32.2222, 36.4748, 38.8445, 40.945].forEach((value, i) =>
    expect(quantiles[i]).toBeCloseTo(value, 4),
  );
  expect(studentTCdf((40 - location) / scale, df)).toBeCloseTo(0.931195, 6);
});

it('has no expected variance while a is not above 1', () => {
  expect(expectedVariance({ ...prior, a: 1 })).toBe(Infinity);
});
