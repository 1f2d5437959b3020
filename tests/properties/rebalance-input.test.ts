/** Numbers that cannot be: whatever is wrong with the input, there is an answer, it can go over the wire, and it is quick. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { PlanInput } from '#core/plan/model.ts';
import { Rebalanced } from '#core/plan/rebalance/model.ts';
import { rebalance } from '#core/plan/rebalance/rebalance.ts';
import { barnSpecArb, inputOf } from './rebalance-arbitraries.ts';

const absurd = fc.constantFrom(NaN, Infinity, -Infinity, -1, 0, 1e-9, 1e9, 1e15, 1e300, 8.64e15);

/** The same input with its `n`th number, counted round, put to `value`; the learned model stays. */
function spoilt(input: PlanInput, n: number, value: number): PlanInput {
  const { learned, ...rest } = input;
  let count = 0;
  const walk = (part: unknown, at: number): unknown => {
    if (typeof part === 'number') return count++ === at ? value : part;
    if (Array.isArray(part)) return part.map((one) => walk(one, at));
    if (part === null || typeof part !== 'object') return part;
    return Object.fromEntries(Object.entries(part).map(([key, one]) => [key, walk(one, at)]));
  };
  walk(rest, -1);
  const numbers = count;
  count = 0;
  return { ...(walk(rest, n % numbers) as PlanInput), learned };
}

test('an absurd number is answered, not thrown at', () => {
  fc.assert(
    fc.property(
      barnSpecArb,
      fc.array(fc.tuple(fc.nat(500), absurd), { minLength: 1, maxLength: 3 }),
      (spec, wrong) => {
        const input = wrong.reduce((so, [n, value]) => spoilt(so, n, value), inputOf(spec));
        const answer = rebalance(input, { budget: { steps: 12 } });
        expect(Rebalanced.safeParse(JSON.parse(JSON.stringify(answer))).error?.message).toBeUndefined();
      },
    ),
    { numRuns: 300 },
  );
});

test('odd settings are taken as the nearest that can be', () => {
  fc.assert(
    fc.property(barnSpecArb, absurd, absurd, (spec, findingRate, spareMs) => {
      const answer = rebalance(inputOf(spec), { findingRate, spareMs, budget: { steps: 6 } });
      expect(Rebalanced.safeParse(answer).error?.message).toBeUndefined();
    }),
    { numRuns: 60 },
  );
});
