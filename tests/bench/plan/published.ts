/** Time to the proven optimum of each published instance. */
import { readFileSync } from 'node:fs';
import { seededRandom } from '#core/plan/search/random.ts';
import { startSearch } from '#core/plan/search/solve.ts';
import { publishedInstances } from '../../reference/scheduling/instances.ts';

/** An instance is given up after this. */
const LIMIT_MS = 5_000;

export interface PublishedFigure {
  readonly instance: string;
  readonly optimum: number;
  readonly found: number;
  /** From reading the problem to the first plan as good as `found`. */
  readonly ms: number;
}

export function benchPublished(): PublishedFigure[] {
  const text = readFileSync(new URL('../../reference/scheduling/published.json', import.meta.url), 'utf8');
  return publishedInstances(text).map(({ name, optimum, problem }) => {
    const begin = performance.now();
    const search = startSearch(problem, { random: seededRandom(1), goal: 'lateness' });
    if (search.kind === 'refused') throw new Error(search.detail);
    let found = search.best().maxLateness;
    let ms = performance.now() - begin;
    while (found > optimum && performance.now() - begin < LIMIT_MS) {
      search.step(100);
      const value = search.best().maxLateness;
      if (value < found) ms = performance.now() - begin;
      found = value;
    }
    return { instance: name, optimum, found, ms: Math.round(ms) };
  });
}
