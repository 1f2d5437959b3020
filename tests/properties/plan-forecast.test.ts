/** What holds for every forecast, on any board that can be tapped together. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isOver, isWanted } from '#core/day/preps.ts';
import type { Board } from '#core/day/board.ts';
import { forecast } from '#core/plan/forecast.ts';
import { dayHistory } from '#core/plan/history.ts';
import { planInput } from '#core/plan/input.ts';
import { learnFrom, NO_HISTORY, type Learned } from '#core/plan/learned.ts';
import { Forecast, type PlanInput } from '#core/plan/model.ts';
import { smallBoard } from './day-arbitraries.ts';
import { moment } from './moment.ts';

const FEW = { draws: 32 };

const input = moment.map(({ board, now }) => planInput(board, now));

/** With some people known from other days. */
const learned = fc
  .array(
    fc.record({
      stage: fc.constantFrom('feet' as const, 'coat' as const, 'tack' as const),
      horse: fc.constantFrom('fern', 'moss', 'sorrel'),
      person: fc.constantFrom('ada', 'ben', 'cho'),
      minutes: fc.double({ min: 1, max: 40, noNaN: true }),
    }),
    { maxLength: 12 },
  )
  .map((observations): Learned => learnFrom(smallBoard().barn, { ...NO_HISTORY, observations }));

describe('any board', () => {
  test('is forecast without a throw into a valid forecast, and nothing is dropped in silence', () => {
    fc.assert(
      fc.property(moment, ({ board, now }) => {
        const found = forecast(planInput(board, now), FEW);
        expect(Forecast.safeParse(JSON.parse(JSON.stringify(found))).error?.issues ?? []).toEqual([]);
        for (const id of wantedPreps(board, now)) {
          const isNamed = found.leftOut.some((one) => one.what === 'prep' && one.id === id);
          expect(isNamed || Object.hasOwn(found.preps, id)).toBe(true);
        }
        for (const prep of Object.values(found.preps)) {
          expect(prep.ready === null).toBe(prep.unplanned !== null);
          expect(prep.spareMs === null).toBe(prep.ready === null);
        }
      }),
      { numRuns: 300 },
    );
  });

  test('has its times in order, and its chances agree with them', () => {
    fc.assert(
      fc.property(input, learned, (plan, known) => {
        const found = forecast({ ...plan, learned: known }, FEW);
        for (const prep of Object.values(found.preps)) {
          const { p10, ready, p90, chance, rampTime } = prep;
          if (ready !== null) expect(p10 ?? Infinity).toBeLessThanOrEqual(ready);
          if (p90 !== null) expect(ready ?? Infinity).toBeLessThanOrEqual(p90);
          if (ready === null || ready > rampTime) expect(chance).toBeLessThanOrEqual(0.5);
          else expect(chance).toBeGreaterThanOrEqual(0.5);
          for (const { neededBy } of prep.pieces) expect(neededBy).toBeLessThanOrEqual(rampTime);
          for (const piece of prep.pieces) {
            if (piece.end !== null) expect(piece.start ?? Infinity).toBeLessThanOrEqual(piece.end);
          }
        }
        for (const lesson of Object.values(found.lessons)) {
          expect(lesson.ready === null ? lesson.chance : 0).toBeLessThanOrEqual(0.5);
        }
      }),
    );
  });

  test('teaches without a throw', () => {
    fc.assert(
      fc.property(moment, ({ board, entries, now }) => {
        const { history } = dayHistory(board, entries);
        for (const { minutes } of history.observations) expect(minutes).toBeGreaterThan(0);
        const found = forecast(planInput(board, now, learnFrom(board.barn, history)), FEW);
        expect(Forecast.safeParse(found).error?.issues ?? []).toEqual([]);
      }),
    );
  });
});

describe('the same', () => {
  test('input and seed: the same answer', () => {
    fc.assert(
      fc.property(input, fc.nat(), (plan, seed) => {
        expect(forecast(plan, { ...FEW, seed })).toEqual(forecast(structuredClone(plan), { ...FEW, seed }));
      }),
      { numRuns: 40 },
    );
  });

  test('an hour later: the same answer an hour later', () => {
    fc.assert(
      fc.property(input, fc.integer({ min: -86_400_000, max: 86_400_000 }), (plan, ms) => {
        expect(forecast(shifted(plan, ms), FEW)).toEqual(shifted(forecast(plan, FEW), ms));
      }),
    );
  });

  test('people by other names: the same answer under those names', () => {
    fc.assert(
      fc.property(
        input,
        learned,
        fc.shuffledSubarray(['ada', 'ben', 'cho'], { minLength: 3 }),
        (plan, known, names) => {
          const nameOf = new Map(['ada', 'ben', 'cho'].map((id, i) => [id, names[i] ?? id]));
          const whole = { ...plan, learned: known };
          expect(sorted(forecast(renamed(whole, nameOf), FEW))).toEqual(
            sorted(renamed(forecast(whole, FEW), nameOf)),
          );
        },
      ),
    );
  });
});

describe('more certainty', () => {
  test('never asks for anything later', () => {
    const certainty = fc.double({ min: 0.5, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(input, learned, certainty, certainty, (plan, known, a, b) => {
        const [less, more] = [Math.min(a, b), Math.max(a, b)].map((one) =>
          forecast({ ...plan, learned: known, certainty: one }, FEW),
        );
        for (const [id, prep] of Object.entries(less?.preps ?? {})) {
          const sure = more?.preps[id];
          expect(sure?.feetBy ?? -Infinity).toBeLessThanOrEqual(prep.feetBy ?? Infinity);
          prep.pieces.forEach((piece, i) =>
            expect(sure?.pieces[i]?.neededBy ?? Infinity).toBeLessThanOrEqual(piece.neededBy),
          );
        }
      }),
    );
  });
});

describe('numbers that cannot be', () => {
  const bad = fc.constantFrom(NaN, Infinity, -Infinity, 0, -1, 1e300, 5e-324);

  test('anywhere in an input: every horse is forecast or named, and nothing throws', () => {
    fc.assert(
      fc.property(input, bad, fc.nat(), (plan, value, pick) => {
        const spoilt = spoil(plan, value, pick);
        const found = forecast(spoilt, FEW);
        expect(Forecast.safeParse(JSON.parse(JSON.stringify(found))).error?.issues ?? []).toEqual([]);
        const everything = found.leftOut.some((one) => one.what === 'everything');
        for (const work of spoilt.works) {
          const isNamed = found.leftOut.some((one) => one.id === work.prep);
          expect(everything || isNamed || Object.hasOwn(found.preps, work.prep)).toBe(true);
        }
      }),
      { numRuns: 500 },
    );
  });
});

function wantedPreps({ barn, day }: Board, now: number): string[] {
  return Object.values(day.preps)
    .filter((prep) => isWanted(barn, prep) && !isOver(day, prep, now))
    .map((prep) => prep.id);
}

/** Everything that looks like an instant, `ms` later. */
function shifted<T>(value: T, ms: number): T {
  return changed(value, (one) => (typeof one === 'number' && one > 1e12 ? one + ms : one)) as T;
}

function renamed<T>(value: T, nameOf: ReadonlyMap<string, string>): T {
  return changed(value, (one) => (typeof one === 'string' ? (nameOf.get(one) ?? one) : one)) as T;
}

/** With people in the order of their names, as far as it comes to that. */
function sorted(found: Forecast): Forecast {
  const byName = Object.entries(found.hands).sort(([a], [b]) => (a < b ? -1 : 1));
  return { ...found, hands: Object.fromEntries(byName) };
}

/** A copy with every string, number and key changed. */
function changed(value: unknown, change: (one: unknown) => unknown): unknown {
  if (Array.isArray(value)) return value.map((one) => changed(one, change));
  if (typeof value !== 'object' || value === null) return change(value);
  return Object.fromEntries(
    Object.entries(value).map(([key, one]) => [change(key) as string, changed(one, change)]),
  );
}

/** One of the input's numbers replaced. */
function spoil(plan: PlanInput, value: number, pick: number): PlanInput {
  let count = 0;
  changed(plan, (one) => (typeof one === 'number' && (count += 1), one));
  let at = pick % Math.max(1, count);
  return changed(plan, (one) => (typeof one === 'number' && at-- === 0 ? value : one)) as PlanInput;
}
