/** Published instances with proven optimal makespan; the source stands beside each in published.json. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Problem } from '#core/plan/search/problem.ts';
import { seededRandom } from '#core/plan/search/random.ts';
import { solve } from '#core/plan/search/solve.ts';
import { faults } from '../../unit/plan-search/check.ts';
import { source as from } from '../source.ts';
import { dueCases, publishedInstances } from './instances.ts';

function read(name: string): string {
  return readFileSync(new URL(name, import.meta.url), 'utf8');
}

function answer(problem: Problem, iterations: number): number {
  const solution = solve(problem, { random: seededRandom(1), goal: 'lateness', iterations });
  if (solution.kind === 'refused') throw new Error(solution.detail);
  expect(faults(problem, solution)).toEqual([]);
  return solution.maxLateness;
}

describe('makespan of published instances', () => {
  for (const { name, source, optimum, problem } of publishedInstances(read('published.json'))) {
    test(`${name}: ${optimum} (${source})`, from(source), () => {
      expect(answer(problem, 60_000)).toBe(optimum);
    });
  }
});

describe(
  'maximum lateness with release and due dates, proven by a constraint solver',
  from('due-cases.json: proven by a constraint solver'),
  () => {
    for (const { name, maxLateness, problem } of dueCases(read('due-cases.json'))) {
      test(`${name}: ${maxLateness}`, () => {
        expect(answer(problem, 20_000)).toBe(maxLateness);
      });
    }
  },
);
