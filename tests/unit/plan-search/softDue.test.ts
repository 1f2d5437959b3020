/** Dues that count in the tardiness alone. Figures worked by hand, written out beside each case. */
import { expect, test } from 'vitest';
import type { Problem } from '#core/plan/search/problem.ts';
import { seededRandom } from '#core/plan/search/random.ts';
import { solve } from '#core/plan/search/solve.ts';
import { faults } from './check.ts';

const on = (time: number): { alternatives: { machine: number; time: number }[] } => ({
  alternatives: [{ machine: 0, time }],
});

/** Two chains of 4, 11 and 8 on one machine; the first stage of each has a soft due of 8. */
function twoHorses(weight: number, dues: readonly [number, number]): Problem {
  return {
    machineCount: 1,
    now: 0,
    jobs: dues.map((due) => ({
      release: 0,
      due,
      weight: 1,
      operations: [{ ...on(4), soft: { due: 8, weight } }, on(11), on(8)],
    })),
  };
}

function solved(problem: Problem): Exclude<ReturnType<typeof solve>, { kind: 'refused' }> {
  const solution = solve(problem, { random: seededRandom(1), iterations: 2_000 });
  if (solution.kind === 'refused') throw new Error(solution.detail);
  expect(faults(problem, solution)).toEqual([]);
  return solution;
}

test('with time enough both first stages come first', () => {
  // 4 and 8 for the first stages, ends 27 and 46: nothing is late and no soft due is missed.
  const { operations, maxLateness, weightedTardiness } = solved(twoHorses(0.5, [27, 46]));
  expect(
    [operations[0]?.[0]?.end, operations[1]?.[0]?.end].toSorted((a, b) => Number(a) - Number(b)),
  ).toEqual([4, 8]);
  expect([maxLateness, weightedTardiness]).toEqual([0, 0]);
});

test('a soft due gives way to the maximum lateness, whatever it weighs', () => {
  // Due at 23, the first job has no time to wait: its own stages end at 23, the second first stage at 27,
  // 19 after its soft due: 0.5 * 19 = 9.5. Both first stages first would make the first job 4 late.
  const { operations, maxLateness, weightedTardiness } = solved(twoHorses(0.5, [23, 46]));
  expect(operations[0]?.[2]?.end).toBe(23);
  expect(operations[1]?.[0]?.end).toBe(27);
  expect([maxLateness, weightedTardiness]).toEqual([0, 9.5]);
});

test('it never counts in the maximum lateness or the bound', () => {
  const { maxLateness, lowerBound, proven } = solved({
    machineCount: 1,
    jobs: [{ release: 0, due: 100, weight: 1, operations: [{ ...on(4), soft: { due: -1_000, weight: 1 } }] }],
  });
  expect([maxLateness, lowerBound, proven]).toEqual([-96, -96, true]);
});

test.each([NaN, Infinity, 0.5])('a soft due of %s is named, not computed with', (due) => {
  const problem: Problem = {
    machineCount: 1,
    jobs: [{ release: 0, due: 9, weight: 1, operations: [{ ...on(4), soft: { due, weight: 1 } }] }],
  };
  expect(solved(problem).unplanned).toEqual([{ job: 0, operation: 0, reason: 'badDue' }]);
});
