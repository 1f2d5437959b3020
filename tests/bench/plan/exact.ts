/** Random small problems against a MILP: is the planner's answer optimal, and how long does each take? */
import { seededRandom } from '#core/plan/search/random.ts';
import { startSearch } from '#core/plan/search/solve.ts';
import { milpSolver } from '../../reference/scheduling/milp.ts';
import { smallCase } from '../../reference/scheduling/smallCases.ts';

const CASES = 72;
const MILP_LIMIT_SECONDS = 20;
/** The planner gets this many iterations: it does not know the optimum. */
const ITERATIONS = 1_500;

export interface ExactFigures {
  /** Cases the MILP proved. */
  readonly cases: number;
  readonly optimal: number;
  readonly plannerMs: number;
  readonly milpMs: number;
  /** Cases in which the planner took longer than the MILP. */
  readonly slower: number;
}

export async function benchExact(): Promise<ExactFigures> {
  const milp = await milpSolver(MILP_LIMIT_SECONDS);
  // Both are warm before the first case: a first call also pays for compiling.
  milp(smallCase(CASES));
  searchCase(CASES);
  const figures = { cases: 0, optimal: 0, plannerMs: 0, milpMs: 0, slower: 0 };
  for (let index = 0; index < CASES; index++) {
    const beforeMilp = performance.now();
    const exact = milp(smallCase(index));
    const milpMs = performance.now() - beforeMilp;
    if (!exact.proven) continue;
    const before = performance.now();
    const found = searchCase(index);
    const plannerMs = performance.now() - before;
    figures.cases++;
    if (found === exact.maxLateness) figures.optimal++;
    if (plannerMs > milpMs) figures.slower++;
    figures.plannerMs += plannerMs;
    figures.milpMs += milpMs;
  }
  return { ...figures, plannerMs: Math.round(figures.plannerMs), milpMs: Math.round(figures.milpMs) };
}

function searchCase(index: number): number {
  const search = startSearch(smallCase(index), { random: seededRandom(1), goal: 'lateness' });
  if (search.kind === 'refused') throw new Error(search.detail);
  search.step(ITERATIONS);
  return search.best().maxLateness;
}
