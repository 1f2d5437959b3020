/** Barns of any shape, as planner's inputs in whole minutes and as boards. */
import fc from 'fast-check';
import { STAGES } from '#core/barn/stage.ts';
import type { PlanInput } from '#core/plan/model.ts';
import { barn, type HorseSpec, type PersonSpec } from '../unit/plan-rebalance/barn.ts';

export const STAGE_MINUTES = { feet: 4, coat: 12, tack: 8 } as const;

const maybe = <T>(arb: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(arb, { nil: undefined });

const horseArb = fc.record({
  ramp: fc.integer({ min: -20, max: 150 }),
  open: fc.constantFrom(STAGES, STAGES, STAGES.slice(1), STAGES.slice(2), []),
  feetBy: fc.boolean(),
  freeFrom: maybe(fc.integer({ min: 1, max: 90 })),
  notBefore: maybe(fc.integer({ min: 1, max: 40 })),
  metres: fc.integer({ min: 0, max: 60 }),
  experiencedFor: fc.subarray([...STAGES], { maxLength: 1 }),
  /** Whose queue, stage by stage; out of range: nobody's. */
  given: fc.tuple(fc.nat(5), fc.nat(5), fc.nat(5), fc.boolean()),
});

const personArb = fc.record({
  clearances: fc.subarray(['feet', 'coat', 'tack', 'experienced', 'lead'] as const, { minLength: 2 }),
  // Odd, so that two people seldom end together: who is first would then hang on the last bit of a number.
  pace: fc.constantFrom(0.73, 1.01, 1.27, 1.49),
  from: fc.constantFrom(0, 0, 0, 15, 40),
  until: maybe(fc.integer({ min: 20, max: 180 })),
  busy: fc.array(
    fc.record({ from: fc.integer({ min: 0, max: 120 }), length: fc.integer({ min: 5, max: 45 }) }),
    {
      maxLength: 2,
    },
  ),
});

export type BarnSpec = { readonly horses: readonly HorseSpec[]; readonly people: readonly PersonSpec[] };

export const barnSpecArb: fc.Arbitrary<BarnSpec> = fc
  .record({
    horses: fc.array(horseArb, { minLength: 1, maxLength: 6 }),
    people: fc.array(personArb, { minLength: 1, maxLength: 4 }),
  })
  .map(({ horses, people }) => {
    const named = horses.map(({ given: _given, feetBy, freeFrom, notBefore, ...rest }, i): HorseSpec => ({
      ...rest,
      // No two alike: which of two equally urgent horses comes first is nobody's rule.
      ramp: rest.ramp + i / 10,
      id: `h${i}`,
      ...(feetBy ? {} : { feetBy: false as const }),
      ...(freeFrom === undefined ? {} : { freeFrom }),
      ...(notBefore === undefined ? {} : { notBefore }),
    }));
    return {
      horses: named,
      people: people.map(({ until, busy, ...rest }, w): PersonSpec => ({
        ...rest,
        id: `p${w}`,
        ...(until === undefined ? {} : { until: until + 0.7 }),
        busy: busy.map(({ from, length }) => ({ from: from + 0.5, until: from + length + 0.25 })),
        queue: horses.flatMap(({ given: [feet, coat, tack, whole] }, i) =>
          STAGES.filter((_, s) => (whole ? feet : [feet, coat, tack][s]) === w).map(
            (stage) => `h${i}:${stage}`,
          ),
        ),
      })),
    };
  });

export function inputOf({ horses, people }: BarnSpec): PlanInput {
  return barn(horses, people, STAGE_MINUTES);
}
