/** One file in the common flexible job shop format, within a time. */
import { readFileSync } from 'node:fs';
import { seededRandom } from '#core/plan/search/random.ts';
import { startSearch } from '#core/plan/search/solve.ts';
import { parseFlexibleJobShop } from './instances.ts';

export interface InstanceFigure {
  readonly makespan: number;
  readonly lowerBound: number;
  /** From reading the problem to the end; shorter than the limit when the optimum is proven. */
  readonly ms: number;
}

export function solveFile(path: string, seconds: number): InstanceFigure {
  const problem = parseFlexibleJobShop(readFileSync(path, 'utf8'));
  const begin = performance.now();
  const search = startSearch(problem, { random: seededRandom(1), goal: 'lateness' });
  if (search.kind === 'refused') throw new Error(`${path}: ${search.detail}`);
  while (performance.now() - begin < seconds * 1_000 && !search.step(50));
  const best = search.best();
  if (best.unplanned.length > 0)
    throw new Error(`${path}: ${best.unplanned.length} operations cannot be planned`);
  return {
    makespan: best.maxLateness,
    lowerBound: best.lowerBound,
    ms: Math.round(performance.now() - begin),
  };
}
