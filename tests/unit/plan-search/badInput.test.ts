/** What the search answers to input that cannot be planned: a reason for each part, never a crash or a silent drop. */
import { describe, expect, test } from 'vitest';
import type { Job, Problem, Solution } from '#core/plan/search/problem.ts';
import { seededRandom } from '#core/plan/search/random.ts';
import { solve } from '#core/plan/search/solve.ts';
import { faults } from './check.ts';

const job = (times: readonly number[], more: Partial<Job> = {}): Job => ({
  release: 0,
  due: 100,
  weight: 1,
  operations: times.map((time) => ({ alternatives: [{ machine: 0, time }] })),
  ...more,
});

function plan(problem: Problem): Solution {
  const solution = solve(problem, { random: seededRandom(1), iterations: 200 });
  if (solution.kind === 'refused') throw new Error(solution.detail);
  expect(faults(problem, solution)).toEqual([]);
  return solution;
}

const reasons = (solution: Solution): string[] =>
  solution.unplanned.map((u) => `${u.job}/${u.operation} ${u.reason}`);

describe('operations that cannot be planned', () => {
  test.each([NaN, Infinity, 0, -5, 2.5, 1e12])(
    'a duration of %d is left out, and what follows in the job',
    (time) => {
      const solution = plan({ machineCount: 1, jobs: [job([3, time, 4]), job([5])] });
      expect(reasons(solution)).toEqual(['0/1 noUsableAlternative', '0/2 afterUnplanned']);
      expect(solution.dropped).toEqual([{ job: 0, operation: 1, machine: 0, reason: 'badTime' }]);
    },
  );

  test('no eligible machine', () => {
    const solution = plan({
      machineCount: 1,
      jobs: [job([], { operations: [{ alternatives: [] }] }), job([5])],
    });
    expect(reasons(solution)).toEqual(['0/0 noAlternatives']);
  });

  test('a machine that does not exist', () => {
    const solution = plan({
      machineCount: 1,
      jobs: [job([], { operations: [{ alternatives: [{ machine: 7, time: 3 }] }] })],
    });
    expect(solution.dropped[0]?.reason).toBe('noSuchMachine');
    expect(reasons(solution)).toEqual(['0/0 noUsableAlternative']);
  });

  test.each([{ due: NaN }, { due: Infinity }, { release: NaN }, { weight: NaN }, { weight: -1 }])(
    'a job with %o',
    (more) => {
      expect(reasons(plan({ machineCount: 1, jobs: [job([1], more), job([5])] }))).toEqual(['0/0 badJob']);
    },
  );

  test('a machine that never comes', () => {
    const absences = [[{ from: -Infinity, to: Infinity }]];
    const solution = plan({ machineCount: 1, absences, jobs: [job([3])] });
    expect(solution.dropped[0]?.reason).toBe('neverPresent');
    expect(reasons(solution)).toEqual(['0/0 noUsableAlternative']);
    expect(solution.maxLateness).toBe(-Infinity);
  });

  test('a machine that leaves before all is done', () => {
    const absences = [[{ from: 10, to: Infinity }]];
    const solution = plan({ machineCount: 1, absences, jobs: [job([4]), job([4]), job([4])] });
    expect(solution.unplanned.map((u) => u.reason)).toEqual(['noRoom']);
    expect(solution.maxLateness).toBe(8 - 100);
    expect(solution.proven).toBe(false);
  });

  test('an operation under way that is not the first of its job', () => {
    const operations = [
      { alternatives: [{ machine: 0, time: 3 }] },
      { alternatives: [{ machine: 0, time: 3 }], underWay: { machine: 0, start: 0 } },
    ];
    expect(reasons(plan({ machineCount: 1, now: 5, jobs: [job([], { operations })] }))).toEqual([
      '0/1 badUnderWay',
    ]);
  });

  test('two operations under way on one machine', () => {
    const operations = [{ alternatives: [{ machine: 0, time: 9 }], underWay: { machine: 0, start: 0 } }];
    const solution = plan({
      machineCount: 1,
      now: 5,
      jobs: [job([], { operations }), job([], { operations })],
    });
    expect(reasons(solution)).toEqual(['1/0 badUnderWay']);
  });
});

describe('odd but plannable', () => {
  test('due in the past: planned, and late', () => {
    expect(plan({ machineCount: 1, now: 50, jobs: [job([3], { due: 10 })] }).maxLateness).toBe(43);
  });

  test('nothing to plan', () => {
    const solution = plan({ machineCount: 0, jobs: [] });
    expect([solution.maxLateness, solution.proven]).toEqual([-Infinity, true]);
  });

  test('an operation under way stays, also through an absence', () => {
    const operations = [{ alternatives: [{ machine: 0, time: 9 }], underWay: { machine: 0, start: 0 } }];
    const absences = [[{ from: 3, to: 4 }]];
    const solution = plan({ machineCount: 1, now: 5, absences, jobs: [job([], { operations }), job([5])] });
    expect(solution.operations[0]?.[0]).toMatchObject({ start: 0, end: 9 });
    expect(solution.operations[1]?.[0]).toMatchObject({ start: 9, end: 14 });
  });

  test('an own due of an operation counts', () => {
    const operations = [
      { alternatives: [{ machine: 0, time: 3 }], due: 2 },
      { alternatives: [{ machine: 0, time: 3 }] },
    ];
    expect(plan({ machineCount: 1, jobs: [job([], { operations })] }).maxLateness).toBe(1);
  });
});

describe('problems that cannot be read', () => {
  const refusal = (problem: Problem): string => {
    const answer = solve(problem, { random: seededRandom(1), iterations: 10 });
    return answer.kind === 'refused' ? answer.reason : 'planned';
  };
  test.each([
    [{ machineCount: -1, jobs: [] }, 'badMachineCount'],
    [{ machineCount: NaN, jobs: [] }, 'badMachineCount'],
    [{ machineCount: 1e9, jobs: [] }, 'tooLarge'],
    [{ machineCount: 1, jobs: [], now: NaN }, 'badNow'],
    [{ machineCount: 1, jobs: [job([1])], absences: [[{ from: NaN, to: 3 }]] }, 'badAbsence'],
    [{ machineCount: 1, jobs: [job([1])], current: [[{ job: 4, operation: 0 }]] }, 'badCurrent'],
    [{ machineCount: 1, jobs: [job([1]), job([1], { release: 1e12 })] }, 'timesTooFarApart'],
  ] satisfies [Problem, string][])('%o: %s', (problem, reason) => {
    expect(refusal(problem)).toBe(reason);
  });
});
