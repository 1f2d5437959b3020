/** Learning and predicting: order, storage, robustness, calibration and a stage under way. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { invertPositiveDefinite } from '#core/plan/durations/cholesky.ts';
import { FURTHEST_FACTOR, learn } from '#core/plan/durations/learn.ts';
import { updateBatch, updateOne } from '#core/plan/durations/normalInverseGamma.ts';
import type { Observation } from '#core/plan/durations/observation.ts';
import {
  chanceLonger,
  chanceWithin,
  minutesAt,
  minutesAtGiven,
  predict,
  sampleMinutes,
} from '#core/plan/durations/predict.ts';
import { priorFrom } from '#core/plan/durations/prior.ts';
import { studentTCdf, studentTQuantile } from '#core/plan/durations/studentT.ts';

const observation: fc.Arbitrary<Observation> = fc.record({
  stage: fc.constantFrom('feet', 'coat', 'tack'),
  horse: fc.constantFrom('Ash', 'Bay', 'Clay', 'Dun'),
  person: fc.constantFrom('Ann', 'Ben', 'Cat', 'Dot', 'Eve'),
  minutes: fc.double({ min: 0.25, max: 120, noNaN: true }),
});
const history = fc.array(observation, { maxLength: 25 });
const anyone = {
  horse: fc.constantFrom('Ash', 'Dun', 'new', null),
  person: fc.constantFrom('Ann', 'Eve', 'new', null),
};
const chance = fc.double({ min: 0.001, max: 0.999, noNaN: true });

/** Mulberry32: small, seeded, for the tests only. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

describe('belief', () => {
  it('sequential is batch, in any order', () => {
    const nig = fc.record({
      m: fc.double({ min: -5, max: 5, noNaN: true }),
      k: fc.double({ min: 0.1, max: 50, noNaN: true }),
      a: fc.double({ min: 0.5, max: 50, noNaN: true }),
      b: fc.double({ min: 0.01, max: 50, noNaN: true }),
    });
    const data = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { maxLength: 30 });
    fc.assert(
      fc.property(nig, data, (prior, xs) => {
        const batch = updateBatch(prior, xs);
        const steps = xs.toReversed().reduce(updateOne, prior);
        for (const key of ['m', 'k', 'a', 'b'] as const) {
          expect(Math.abs(steps[key] - batch[key])).toBeLessThanOrEqual(
            1e-9 * Math.max(1, Math.abs(batch[key])),
          );
        }
      }),
    );
  });

  it('quantile and distribution undo each other', () => {
    const df = fc.double({ min: 0.5, max: 5000, noNaN: true });
    const p = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });
    fc.assert(
      fc.property(p, df, (each, freedom) => {
        expect(Math.abs(studentTCdf(studentTQuantile(each, freedom), freedom) - each)).toBeLessThan(1e-11);
      }),
    );
  });

  it('answers any number', () => {
    const any = fc.oneof(fc.double(), fc.constantFrom(NaN, Infinity, -Infinity, 0, -0));
    fc.assert(
      fc.property(any, any, (x, df) => {
        const p = studentTCdf(x, df);
        if (Number.isNaN(x) || !(df > 0)) expect(p).toBeNaN();
        else if (df < 1e6 && df > 1e-3) expect(p >= 0 && p <= 1).toBe(true);
        if (!(x >= 0 && x <= 1) || !(df > 0)) expect(studentTQuantile(x, df)).toBeNaN();
      }),
    );
  });

  it('inverts a matrix, and stops at one that has no inverse', () => {
    const matrix = [
      [4, 1, 0.5],
      [1, 3, -1],
      [0.5, -1, 2],
    ];
    const inverse = invertPositiveDefinite(matrix);
    matrix.forEach((row, i) =>
      inverse.forEach((_, j) => {
        const cell = row.reduce((sum, value, k) => sum + value * (inverse[k]?.[j] ?? NaN), 0);
        expect(cell).toBeCloseTo(i === j ? 1 : 0, 12);
      }),
    );
    expect(() =>
      invertPositiveDefinite([
        [1, 1],
        [1, 1],
      ]),
    ).toThrow(RangeError);
  });
});

describe('learn', () => {
  it('does not care for order, and does not change what it is given', () => {
    fc.assert(
      fc.property(history, anyone.horse, anyone.person, (seen, horse, person) => {
        const before = structuredClone(seen);
        const one = predict(learn(priorFrom(), seen), { stage: 'coat', horse, person });
        const other = predict(learn(priorFrom(), seen.toReversed()), { stage: 'coat', horse, person });
        expect(other.location).toBeCloseTo(one.location, 9);
        expect(other.scale).toBeCloseTo(one.scale, 9);
        expect(seen).toEqual(before);
      }),
      { numRuns: 50 },
    );
  });

  it('is plain data', () => {
    fc.assert(
      fc.property(history, (seen) => {
        const model = learn(priorFrom(), seen);
        expect(JSON.parse(JSON.stringify(model))).toEqual(model);
      }),
      { numRuns: 30 },
    );
  });

  it('keeps the stages apart', () => {
    const coats = Array.from({ length: 9 }, (): Observation => ({
      stage: 'coat',
      horse: 'Ash',
      person: 'Ann',
      minutes: 25,
    }));
    const of = { stage: 'tack', horse: 'Ash', person: 'Ann' } as const;
    expect(predict(learn(priorFrom(), coats), of)).toEqual({
      ...predict(learn(priorFrom(), []), { ...of, horse: null, person: null }),
    });
  });

  it('knows the known better than the new', () => {
    fc.assert(
      fc.property(fc.array(observation, { minLength: 1, maxLength: 25 }), (seen) => {
        const model = learn(priorFrom(), seen);
        const { stage, horse, person } = seen[0] ?? { stage: 'coat', horse: '', person: '' };
        const known = predict(model, { stage, horse, person });
        expect(known.scale).toBeLessThan(predict(model, { stage, horse, person: 'new' }).scale);
        expect(known.scale).toBeLessThan(predict(model, { stage, horse: null, person }).scale);
      }),
      { numRuns: 50 },
    );
  });

  it('passes over what cannot be', () => {
    const model = learn(
      priorFrom(),
      [0.1, 500, NaN, Infinity, -4].map((minutes) => ({ stage: 'feet', horse: 'a', person: 'b', minutes })),
    );
    expect(model).toEqual(learn(priorFrom(), []));
  });

  it('is moved little by one absurd value: no further than one at the furthest factor', () => {
    const days = Array.from({ length: 12 }, (_, i): Observation => ({
      stage: 'coat',
      horse: `h${i % 4}`,
      person: `p${i % 3}`,
      minutes: [9, 10, 11, 12, 13][i % 5] ?? 11,
    }));
    const of = { stage: 'coat', horse: 'h1', person: 'p2' } as const;
    const withOne = (minutes: number) => learn(priorFrom(), [...days, { ...of, minutes }]);
    const plain = minutesAt(predict(learn(priorFrom(), days), of), 0.5);
    const absurd = withOne(119);
    expect(absurd.stages.coat.pulledIn).toBe(1);
    expect(minutesAt(predict(absurd, of), 0.5) / plain).toBeLessThan(1.3);
    expect(predict(absurd, of)).toEqual(predict(withOne(11 * FURTHEST_FACTOR + 20), of));
    expect(withOne(14).stages.coat.pulledIn).toBe(0);
    const others = { stage: 'coat', horse: 'h0', person: 'p0' } as const;
    expect(minutesAt(predict(absurd, others), 0.5)).toBeLessThan(
      1.15 * minutesAt(predict(learn(priorFrom(), days), others), 0.5),
    );
  });
});

describe('on simulated barns', () => {
  // Truth: log minutes = log 12 + horse + person + chance, normal; seeded. Fresh days are predicted after 300 stages.
  const normal = (random: () => number) =>
    Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const run = (seed: number) => {
    const random = seeded(seed);
    const horses = Array.from({ length: 12 }, () => 0.15 * normal(random));
    const people = Array.from({ length: 15 }, () => 0.3 * normal(random));
    const draw = (): Observation => {
      const h = Math.floor(random() * horses.length);
      const p = Math.floor(random() * people.length);
      const log = Math.log(12) + (horses[h] ?? 0) + (people[p] ?? 0) + 0.25 * normal(random);
      return { stage: 'coat', horse: `h${h}`, person: `p${p}`, minutes: Math.exp(log) };
    };
    const days = Array.from({ length: 300 }, draw);
    return { horses, people, days, fresh: Array.from({ length: 300 }, draw) };
  };

  it('covers as often as it says', () => {
    let inside = 0;
    let below = 0;
    let total = 0;
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const { days, fresh } = run(seed);
      const model = learn(priorFrom(), days);
      for (const each of fresh) {
        const prediction = predict(model, each);
        const p = chanceWithin(prediction, each.minutes);
        inside += Number(p > 0.1 && p < 0.9);
        below += Number(p < 0.5);
        total += 1;
      }
    }
    // 1,800 draws: a standard error of 1 to 1.2 points; three of them allowed
    expect(Math.abs(inside / total - 0.8)).toBeLessThan(0.035);
    expect(Math.abs(below / total - 0.5)).toBeLessThan(0.035);
  });

  it('finds who is slow', () => {
    const { people, days } = run(7);
    const model = learn(priorFrom(), days);
    const found = people.map(
      (_, i) => predict(model, { stage: 'coat', horse: null, person: `p${i}` }).location,
    );
    expect(correlation(found, people)).toBeGreaterThan(0.95);
  });

  it('is drawn to the barn with few data: the middle errs less than each one’s own mean', () => {
    let pooled = 0;
    let own = 0;
    for (const seed of [11, 12, 13, 14]) {
      const { people, horses, days } = run(seed);
      const few = days.slice(0, 25);
      const model = learn(priorFrom(), few);
      for (const each of few) {
        const [h, p] = [Number(each.horse.slice(1)), Number(each.person.slice(1))];
        const truth = Math.log(12) + (horses[h] ?? 0) + (people[p] ?? 0);
        const mine = few
          .filter((other) => other.person === each.person)
          .map((other) => Math.log(other.minutes));
        own += (mine.reduce((sum, x) => sum + x, 0) / mine.length - truth) ** 2;
        pooled += (predict(model, each).location - truth) ** 2;
      }
    }
    expect(pooled).toBeLessThan(own);
  });
});

describe('minutes', () => {
  it('quantile and chance undo each other, and both are monotone', () => {
    fc.assert(
      fc.property(history, chance, chance, (seen, p, q) => {
        const prediction = predict(learn(priorFrom(), seen), { stage: 'tack', horse: 'Ash', person: 'Ann' });
        const minutes = minutesAt(prediction, p);
        expect(chanceWithin(prediction, minutes)).toBeCloseTo(p, 9);
        expect(chanceLonger(prediction, minutes)).toBeCloseTo(1 - p, 9);
        // The quantile is found numerically: for chances next to each other it is monotone up to rounding.
        if (p < q) expect(minutes).toBeLessThanOrEqual(minutesAt(prediction, q) * (1 + 1e-12));
        expect(sampleMinutes(prediction, p)).toBe(minutes);
      }),
      { numRuns: 50 },
    );
  });

  it('a stage under way: chance of the rest, given what has gone', () => {
    const prediction = predict(learn(priorFrom(), []), { stage: 'coat', horse: null, person: null });
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 90, noNaN: true }), chance, (elapsed, p) => {
        const total = minutesAtGiven(prediction, elapsed, p);
        expect(total).toBeGreaterThanOrEqual(elapsed);
        const given = chanceLonger(prediction, total) / chanceLonger(prediction, elapsed);
        expect(given).toBeCloseTo(1 - p, 6);
        expect(total).toBeGreaterThanOrEqual(minutesAt(prediction, p) - 1e-9);
        expect(sampleMinutes(prediction, p, elapsed)).toBe(total);
      }),
    );
    for (const elapsed of [0, -5, NaN]) {
      expect(minutesAtGiven(prediction, elapsed, 0.3)).toBe(minutesAt(prediction, 0.3));
    }
  });

  it('has plain answers at the ends', () => {
    const prediction = predict(learn(priorFrom(), []), { stage: 'coat', horse: null, person: null });
    expect(chanceLonger(prediction, 0)).toBe(1);
    expect(chanceWithin(prediction, -3)).toBe(0);
    expect(minutesAt(prediction, 0)).toBe(0);
    expect(minutesAt(prediction, 1)).toBe(Infinity);
    expect(minutesAt(prediction, 2)).toBeNaN();
  });
});

function correlation(a: readonly number[], b: readonly number[]): number {
  const mean = (xs: readonly number[]) => xs.reduce((sum, x) => sum + x, 0) / xs.length;
  const [ma, mb] = [mean(a), mean(b)];
  const product = (xs: readonly number[], mx: number, ys: readonly number[], my: number) =>
    xs.reduce((sum, x, i) => sum + (x - mx) * ((ys[i] ?? NaN) - my), 0);
  return product(a, ma, b, mb) / Math.sqrt(product(a, ma, a, ma) * product(b, mb, b, mb));
}
