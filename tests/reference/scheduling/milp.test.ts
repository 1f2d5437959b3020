/** Smallest maximum lateness of random small problems, proven by a MILP (HiGHS) of the same problem. */
import { expect, test } from 'vitest';
import { seededRandom } from '#core/plan/search/random.ts';
import { solve } from '#core/plan/search/solve.ts';
import { faults } from '../../unit/plan-search/check.ts';
import { milpSolver } from './milp.ts';
import { smallCase } from './smallCases.ts';
import { sourceOfAll } from '../source.ts';

sourceOfAll('HiGHS, a MILP of the same problem');

const CASES = 72;
/** Far above what a case needs on a quiet machine (a tenth of a second), so that a busy one proves them too. */
const LIMIT_SECONDS = 15;

test('the search finds the maximum lateness that the MILP proves', { timeout: 600_000 }, async () => {
  const milp = await milpSolver(LIMIT_SECONDS);
  let proven = 0;
  for (let index = 0; index < CASES; index++) {
    const problem = smallCase(index);
    const exact = milp(problem);
    if (!exact.proven) continue;
    proven++;
    for (const seed of [1, 2]) {
      const solution = solve(problem, { random: seededRandom(seed), goal: 'lateness', iterations: 3_000 });
      if (solution.kind === 'refused') throw new Error(solution.detail);
      expect(faults(problem, solution), `case ${index}, seed ${seed}`).toEqual([]);
      expect(solution.maxLateness, `case ${index}, seed ${seed}`).toBe(exact.maxLateness);
    }
  }
  expect(proven).toBeGreaterThanOrEqual(60);
});
