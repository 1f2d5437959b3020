/** How the search behaves step by step, and how the lower levels of the objective are counted. */
import { describe, expect, test } from 'vitest';
import { alternatives } from '#core/plan/search/alternatives.ts';
import type { Problem, Solution } from '#core/plan/search/problem.ts';
import { compareObjectives } from '#core/plan/search/problem.ts';
import { seededRandom } from '#core/plan/search/random.ts';
import { solve, startSearch } from '#core/plan/search/solve.ts';
import { faults } from './check.ts';

/** Twelve jobs of three operations on four machines, from a seed. */
function shop(seed: number, more: Partial<Problem> = {}): Problem {
  const random = seededRandom(seed);
  return {
    machineCount: 4,
    jobs: Array.from({ length: 12 }, (_, j) => ({
      release: random.below(60),
      due: 60 + random.below(200),
      weight: 1 + random.below(3),
      position: j * 4,
      operations: Array.from({ length: 3 }, () => ({
        alternatives: [0, 1, 2, 3]
          .filter((k) => k === j % 4 || random.below(2) === 0)
          .map((machine) => ({ machine, time: 5 + random.below(20) })),
      })),
    })),
    ...more,
  };
}

function plan(problem: Problem, iterations: number, seed = 1): Solution {
  const solution = solve(problem, { random: seededRandom(seed), iterations });
  if (solution.kind === 'refused') throw new Error(solution.detail);
  expect(faults(problem, solution)).toEqual([]);
  return solution;
}

describe('anytime', () => {
  test('the best plan never gets worse from step to step', () => {
    const search = startSearch(shop(3), { random: seededRandom(1) });
    if (search.kind === 'refused') throw new Error(search.detail);
    let before = search.best();
    for (let i = 0; i < 20; i++) {
      search.step(200);
      const after = search.best();
      expect(compareObjectives(after, before)).toBeLessThanOrEqual(0);
      before = after;
    }
  });

  test('same seed and iterations: same plan', () => {
    expect(plan(shop(4), 2_000, 9)).toEqual(plan(shop(4), 2_000, 9));
  });

  test('a deadline that has passed still gives a sound plan', () => {
    const problem = shop(5);
    const solution = solve(problem, { random: seededRandom(1), deadline: () => true });
    if (solution.kind === 'refused') throw new Error(solution.detail);
    expect(faults(problem, solution)).toEqual([]);
  });
});

describe('changes and walking', () => {
  const two = (current: Problem['current'], changeRule?: Problem['changeRule']): Problem => ({
    machineCount: 2,
    jobs: [0, 40, 10].map((position) => ({
      release: 0,
      due: 1_000,
      weight: 1,
      position,
      operations: [{ alternatives: [{ machine: 0, time: 10 }, { machine: 1, time: 10 }] }], // prettier-ignore
    })),
    ...(current === undefined ? {} : { current }),
    ...(changeRule === undefined ? {} : { changeRule }),
  });
  const ref = (job: number): { job: number; operation: number } => ({ job, operation: 0 });

  test('a plan in force that is as good as any is kept', () => {
    const best = plan(two([[ref(0)], [ref(2), ref(1)]]), 500);
    expect(best.changes).toBe(0);
    expect(best.sequences).toEqual([[ref(0)], [ref(2), ref(1)]]);
  });

  test('without a plan in force the shortest way is taken', () => {
    // Lateness comes first: two on one machine, one on the other; jobs 0 and 2 are 10 m apart.
    expect(plan(two(undefined), 500).walking).toBe(10);
  });

  test('order on the same machine counts as a change unless the rule says machine only', () => {
    // Job 0 on machine 1 is forced by its due; what is left is the order of 1 and 2.
    const base = two([[ref(1), ref(2), ref(0)], []]);
    const jobs = base.jobs.map((j, i) => ({ ...j, due: i === 0 ? 10 : i === 2 ? 10 : 20 }));
    const both = plan({ ...base, jobs, changeRule: 'machineAndOrder' }, 500);
    const machineOnly = plan({ ...base, jobs, changeRule: 'machine' }, 500);
    expect(both.maxLateness).toBe(0);
    expect([both.changes, machineOnly.changes]).toEqual([2, 1]);
  });
});

describe('alternatives', () => {
  const problem = shop(6);
  const bad = solve(problem, { random: seededRandom(1), iterations: 1 });
  if (bad.kind === 'refused') throw new Error(bad.detail);
  // A poor plan in force: each machine's operations by job number instead of by time.
  const current = bad.sequences.map((sequence) =>
    sequence.toSorted((a, b) => a.operation - b.operation || a.job - b.job),
  );
  const found = alternatives(
    { ...problem, current },
    { random: seededRandom(2), iterations: 3_000, count: 4 },
  );

  test('start from the plan in force, each better than those before it, none with more changes than moves', () => {
    if ('kind' in found) throw new Error(found.detail);
    expect(found.length).toBeGreaterThan(2);
    expect(found[0]?.moves).toBe(0);
    expect(found[0]?.solution.sequences).toEqual(current);
    found.forEach(({ solution, moves }, i) => {
      expect(faults({ ...problem, current }, solution)).toEqual([]);
      if (moves !== null) expect(solution.changes).toBeLessThanOrEqual(moves);
      const before = found[i - 1];
      if (before !== undefined) expect(compareObjectives(solution, before.solution)).toBeLessThan(0);
    });
  });

  test('the best single move is the best of all single moves, tried one by one', () => {
    if ('kind' in found) throw new Error(found.detail);
    const one = found.find(({ moves }) => moves === 1)?.solution;
    let least = Infinity;
    problem.jobs.forEach((job, j) =>
      job.operations.forEach((operation, i) => {
        for (const { machine } of operation.alternatives) {
          const without = current.map((s) => s.filter((r) => r.job !== j || r.operation !== i));
          for (let place = 0; place <= (without[machine]?.length ?? 0); place++) {
            const trial = without.map((s, k) =>
              k === machine ? s.toSpliced(place, 0, { job: j, operation: i }) : s,
            );
            least = Math.min(least, latenessOf(problem, trial));
          }
        }
      }),
    );
    expect(one?.maxLateness).toBe(least);
  });
});

/** Maximum lateness of given sequences by playing them forward; Infinity when they are circular. */
function latenessOf(problem: Problem, sequences: Solution['sequences']): number {
  const ends = new Map<string, number>();
  const total = problem.jobs.reduce((sum, job) => sum + job.operations.length, 0);
  const at = sequences.map(() => 0);
  for (let moved = true; moved;) {
    moved = false;
    sequences.forEach((sequence, k) => {
      const next = sequence[at[k] ?? 0];
      if (next === undefined) return;
      const job = problem.jobs[next.job];
      const ready = next.operation === 0 ? job?.release : ends.get(`${next.job}/${next.operation - 1}`);
      const time = job?.operations[next.operation]?.alternatives.find((a) => a.machine === k)?.time;
      if (ready === undefined || time === undefined) return;
      const last = sequence[(at[k] ?? 0) - 1];
      const free = last === undefined ? -Infinity : (ends.get(`${last.job}/${last.operation}`) ?? Infinity);
      ends.set(`${next.job}/${next.operation}`, Math.max(ready, free) + time);
      at[k] = (at[k] ?? 0) + 1;
      moved = true;
    });
  }
  if (ends.size < total) return Infinity;
  return Math.max(
    ...problem.jobs.map((job, j) => (ends.get(`${j}/${job.operations.length - 1}`) ?? Infinity) - job.due),
  );
}
