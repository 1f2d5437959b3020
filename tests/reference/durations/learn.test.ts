/** The learned model against other closed forms of the same thing. */
import { describe, expect, it } from 'vitest';
import { learn } from '#core/plan/durations/learn.ts';
import { predictNext, updateBatch } from '#core/plan/durations/normalInverseGamma.ts';
import type { Observation } from '#core/plan/durations/observation.ts';
import { chanceWithin, minutesAt, predict } from '#core/plan/durations/predict.ts';
import { priorFrom, PUBLISHED_MINUTES, type StagePrior } from '#core/plan/durations/prior.ts';
import { source, sourceOfAll } from '../source.ts';

sourceOfAll('Conjugate updates in closed form (textbook, from memory)');

const ALIKE = 1e12;
const priorWith = (coat: Partial<StagePrior>) => {
  const prior = priorFrom();
  return { ...prior, coat: { ...prior.coat, ...coat } };
};
const coat = (horse: string, person: string, minutes: number): Observation => ({
  stage: 'coat',
  horse,
  person,
  minutes,
});

it('is the plain normal–inverse-gamma update where all horses and people are alike', () => {
  const prior = priorWith({ horseShrink: ALIKE, personShrink: ALIKE });
  const minutes = [9, 14, 11, 8, 16, 12];
  const model = learn(
    prior,
    minutes.map((m, i) => coat(`h${i % 2}`, `p${i % 3}`, m)),
  );
  const { typicalMinutes, worthOfTypical, spread, spreadDf } = prior.coat;
  const a = spreadDf / 2;
  const nig = { m: Math.log(typicalMinutes), k: worthOfTypical, a, b: a * spread ** 2 };
  const expected = predictNext(updateBatch(nig, minutes.map(Math.log)));
  const got = predict(model, { stage: 'coat', horse: 'h0', person: 'new' });
  expect(got.location).toBeCloseTo(expected.location, 9);
  expect(got.scale).toBeCloseTo(expected.scale, 9);
  expect(got.df).toBe(expected.df);
});

it.each([1, 2, 5, 20])(
  'a person with %d stages keeps n/(n + shrink) of the difference',
  source('Bühlmann’s credibility, Z = n/(n + k), with the barn’s mean known (textbook, from memory)'),
  (n) => {
    const prior = priorWith({ worthOfTypical: ALIKE, horseShrink: ALIKE, personShrink: 1.5 });
    const model = learn(
      prior,
      Array.from({ length: n }, () => coat('h', 'slow', 22)),
    );
    const { location } = predict(model, { stage: 'coat', horse: 'h', person: 'slow' });
    const difference = Math.log(22 / prior.coat.typicalMinutes);
    expect(location - Math.log(prior.coat.typicalMinutes)).toBeCloseTo((n / (n + 1.5)) * difference, 9);
  },
);

describe('the same prediction by conditioning on the data', () => {
  // Marginally the log minutes are multivariate t with shape V = I + X Λ Xᵀ; the next one follows by conditioning
  // (kriging form, textbook, from memory). Solved here by plain elimination.
  const prior = priorWith({});
  const rows = [
    coat('Ash', 'Ann', 9),
    coat('Ash', 'Ben', 17),
    coat('Bay', 'Ann', 8),
    coat('Bay', 'Cat', 12),
    coat('Clay', 'Ben', 21),
    coat('Clay', 'Ann', 10),
    coat('Ash', 'Ann', 7.5),
  ];
  const { typicalMinutes, worthOfTypical, horseShrink, personShrink, spread, spreadDf } = prior.coat;
  const shared = (a: Observation, b: Observation) =>
    1 / worthOfTypical +
    (a.horse === b.horse ? 1 / horseShrink : 0) +
    (a.person === b.person ? 1 / personShrink : 0);

  it.each([
    ['Ash', 'Ann'],
    ['Bay', 'Ben'],
    ['Clay', 'Dot'],
    ['Dun', 'Cat'],
    ['Dun', 'Dot'],
  ])('%s with %s', (horse, person) => {
    const next = coat(horse, person, 1);
    const off = rows.map((row) => Math.log(row.minutes / typicalMinutes));
    const v = rows.map((a, i) => rows.map((b, j) => shared(a, b) + (i === j ? 1 : 0)));
    const k = rows.map((row) => shared(row, next));
    const vInvOff = solve(v, off);
    const vInvK = solve(v, k);
    const dot = (x: number[], y: number[]) => x.reduce((sum, each, i) => sum + each * (y[i] ?? NaN), 0);
    const a = spreadDf / 2 + rows.length / 2;
    const b = (spreadDf / 2) * spread ** 2 + dot(off, vInvOff) / 2;

    const got = predict(learn(prior, rows), { stage: 'coat', horse, person });
    expect(got.location).toBeCloseTo(Math.log(typicalMinutes) + dot(k, vInvOff), 10);
    expect(got.scale ** 2).toBeCloseTo((b / a) * (1 + shared(next, next) - dot(k, vInvK)), 10);
    expect(got.df).toBe(2 * a);
  });
});

describe('the first day', () => {
  it.each(['feet', 'coat', 'tack'] as const)('%s has the typical minutes as its middle', (stage) => {
    const prediction = predict(learn(priorFrom(), []), { stage, horse: 'any', person: null });
    expect(minutesAt(prediction, 0.5)).toBeCloseTo(PUBLISHED_MINUTES[stage], 9);
    expect(chanceWithin(prediction, 2 * PUBLISHED_MINUTES[stage])).toBeGreaterThan(0.89);
    expect(chanceWithin(prediction, PUBLISHED_MINUTES[stage] / 2)).toBeLessThan(0.11);
  });

  it(
    'grooms within what is published: 15 min with the feet; 8-10 an owner, about 20 at leisure',
    source(
      'Mitey Riders, "From Mount to Dismount" (B)',
      'horseforum, skipperwbreeders (C). Feet 3-5: from memory',
    ),
    () => {
      expect(PUBLISHED_MINUTES.feet + PUBLISHED_MINUTES.coat).toBe(15);
      expect(PUBLISHED_MINUTES.feet).toBeGreaterThanOrEqual(3);
      expect(PUBLISHED_MINUTES.feet).toBeLessThanOrEqual(5);
      const prediction = predict(learn(priorFrom(), []), { stage: 'coat', horse: null, person: null });
      expect(minutesAt(prediction, 0.1)).toBeLessThan(8);
      expect(minutesAt(prediction, 0.9)).toBeGreaterThan(20);
    },
  );

  it(
    'tacks within 5 (expert) to 15 (basic) minutes as often as not',
    source('equestrianshoponline.com (C)'),
    () => {
      const prediction = predict(learn(priorFrom(), []), { stage: 'tack', horse: null, person: null });
      expect(minutesAt(prediction, 0.25)).toBeGreaterThan(5);
      expect(minutesAt(prediction, 0.75)).toBeLessThan(15);
    },
  );
});

/** Gauss's elimination with partial pivoting. */
function solve(matrix: number[][], right: number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i] ?? NaN]);
  const n = rows.length;
  for (let column = 0; column < n; column += 1) {
    const best = rows
      .slice(column)
      .reduce((top, row) => (Math.abs(row[column] ?? 0) > Math.abs(top[column] ?? 0) ? row : top));
    rows.splice(rows.indexOf(best), 1);
    rows.splice(column, 0, best);
    for (const row of rows) {
      if (row === best) continue;
      const factor = (row[column] ?? 0) / (best[column] ?? NaN);
      best.forEach((value, j) => (row[j] = (row[j] ?? 0) - factor * value));
    }
  }
  return rows.map((row, i) => (row[n] ?? NaN) / (row[i] ?? NaN));
}
