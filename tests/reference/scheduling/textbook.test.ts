/** Textbook examples. Inputs are from memory; each answer was recomputed, those marked "brute" by trying all orders. */
import { describe, expect, test } from 'vitest';
import { criticalPath, pertEstimate } from '#core/plan/criticalPath.ts';
import { alternatives } from '#core/plan/search/alternatives.ts';
import { listSchedule } from '#core/plan/search/listSchedule.ts';
import type { Job, Problem, Solution } from '#core/plan/search/problem.ts';
import { seededRandom } from '#core/plan/search/random.ts';
import { solve } from '#core/plan/search/solve.ts';
import { faults } from '../../unit/plan-search/check.ts';
import { source } from '../source.ts';

function best(problem: Problem): Solution {
  const solution = solve(problem, { random: seededRandom(1), iterations: 3_000 });
  if (solution.kind === 'refused') throw new Error(solution.detail);
  expect(faults(problem, solution)).toEqual([]);
  return solution;
}

/** Jobs of one operation on machine 0. */
function singleMachine(jobs: readonly { r?: number; p: number; d: number }[]): Problem {
  return {
    machineCount: 1,
    jobs: jobs.map(({ r = 0, p, d }) => ({
      release: r,
      due: d,
      weight: 1,
      operations: [{ alternatives: [{ machine: 0, time: p }] }],
    })),
  };
}

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((item, i) => permutations(items.toSpliced(i, 1)).map((rest) => [item, ...rest]));
}

describe(
  'list scheduling: anomalies of Graham, Bell System Tech. J. 45, 1966 (inputs from memory)',
  source('anomalies of Graham, Bell System Tech. J. 45, 1966 (inputs from memory)'),
  () => {
    const times = [3, 2, 2, 2, 4, 4, 4, 4, 9];
    const precedence: [number, number][] = [[1, 9], [4, 5], [4, 6], [4, 7], [4, 8]]; // prettier-ignore
    const end = (machines: number, list: number[], shorter = 0, arcs = precedence): number => {
      const tasks = times.map((time, i) => ({
        time: time - shorter,
        after: arcs.filter(([, to]) => to === i + 1).map(([from]) => from - 1),
      }));
      const schedule = listSchedule(
        tasks,
        machines,
        list.map((i) => i - 1),
      );
      return Math.max(...(schedule ?? []).map((task) => task.end));
    };
    const inOrder = [1, 2, 3, 4, 5, 6, 7, 8, 9];

    test('three processors need 12', () => expect(end(3, inOrder)).toBe(12));
    test('a fourth processor makes it 15', () => expect(end(4, inOrder)).toBe(15));
    test('shorter tasks make it 13', () => expect(end(3, inOrder, 1)).toBe(13));
    test('fewer precedences make it 16', () =>
    expect(end(3, inOrder, 0, precedence.filter(([from, to]) => !(from === 4 && to <= 6)))).toBe(16)); // prettier-ignore
    test('another list makes it 14', () => expect(end(3, [1, 2, 4, 5, 6, 3, 9, 7, 8])).toBe(14));
  },
);

describe(
  'two machines in a row: Johnson, Naval Res. Logistics Quarterly 1, 1954 (inputs from memory)',
  source('Johnson, Naval Res. Logistics Quarterly 1, 1954 (inputs from memory)'),
  () => {
    const flow = (times: readonly (readonly [number, number])[]): Problem => ({
      machineCount: 2,
      jobs: times.map((pair) => ({
        release: 0,
        due: 0,
        weight: 0,
        operations: pair.map((time, machine) => ({ alternatives: [{ machine, time }] })),
      })),
    });
    test('C A D E B ends at 20.5 (brute), in tenths', () => {
      const times = [[32, 42], [47, 15], [22, 50], [58, 40], [31, 28]] as const; // prettier-ignore
      expect(best(flow(times)).maxLateness).toBe(205);
    });
    test('3 1 4 5 2 ends at 24 (brute)', () => {
      const times = [[3, 6], [5, 2], [1, 2], [6, 6], [7, 5]] as const; // prettier-ignore
      expect(best(flow(times)).maxLateness).toBe(24);
    });
  },
);

describe(
  'one machine with due dates: Jackson 1955, Moore & Hodgson 1968 (inputs from memory)',
  source('Jackson 1955, Moore & Hodgson 1968 (inputs from memory)'),
  () => {
    const jobs = [{ p: 7, d: 9 }, { p: 8, d: 17 }, { p: 4, d: 18 }, { p: 6, d: 19 }, { p: 6, d: 21 }]; // prettier-ignore

    test('the smallest maximum lateness is that of earliest due date, 10 (brute), and proven', () => {
      const solution = best(singleMachine(jobs));
      expect([solution.maxLateness, solution.proven]).toEqual([10, true]);
    });

    test('below it the total tardiness is the smallest (all 120 orders)', () => {
      const values = permutations(jobs).map((order) => {
        let clock = 0;
        const late = order.map(({ p, d }) => (clock += p) - d);
        return { max: Math.max(...late), total: late.reduce((sum, x) => sum + Math.max(0, x), 0) };
      });
      const least = Math.min(...values.filter((v) => v.max === 10).map((v) => v.total));
      expect(best(singleMachine(jobs)).weightedTardiness).toBe(least);
    });

    test('two jobs must be late: 3, 4, 5 can all be on time, no four jobs can', () => {
      expect(best(singleMachine(jobs.slice(2))).maxLateness).toBeLessThanOrEqual(0);
      for (let i = 0; i < jobs.length; i++) {
        expect(best(singleMachine(jobs.toSpliced(i, 1))).lowerBound).toBeGreaterThan(0);
      }
    });
  },
);

describe(
  'one machine with releases and tails: Carlier, EJOR 11, 1982 (inputs from memory)',
  source('Carlier, EJOR 11, 1982 (inputs from memory)'),
  () => {
    const r = [10, 13, 11, 20, 30, 0, 30];
    const p = [5, 6, 7, 4, 3, 6, 2];
    const q = [7, 26, 24, 21, 8, 17, 0];
    const problem = singleMachine(p.map((time, i) => ({ r: r[i] ?? 0, p: time, d: -(q[i] ?? 0) })));

    test('optimum 50 (brute) against the preemptive bound 49', () => {
      const solution = best(problem);
      expect([solution.maxLateness, solution.lowerBound]).toEqual([50, 49]);
    });

    test("Schrage's order 6 1 2 3 4 5 7 gives 53; alternatives to it lead down to 50", () => {
      const current = [[6, 1, 2, 3, 4, 5, 7].map((i) => ({ job: i - 1, operation: 0 }))];
      const options = alternatives(
        { ...problem, current },
        { random: seededRandom(1), iterations: 500, count: 4 },
      );
      if ('kind' in options) throw new Error(options.detail);
      expect(options[0]?.solution.maxLateness).toBe(53);
      expect(options.at(-1)?.solution.maxLateness).toBe(50);
    });
  },
);

test(
  'two equal machines: longest first gives 7, the optimum is 6: Graham, SIAM J. Appl. Math. 17, 1969',
  source('Graham, SIAM J. Appl. Math. 17, 1969'),
  () => {
    const times = [3, 3, 2, 2, 2];
    const longestFirst = listSchedule(times.map((time) => ({ time, after: [] })), 2, [0, 1, 2, 3, 4]); // prettier-ignore
    expect(Math.max(...(longestFirst ?? []).map((task) => task.end))).toBe(7);
    const jobs = times.map((time): Job => ({
      release: 0,
      due: 0,
      weight: 0,
      operations: [{ alternatives: [{ machine: 0, time }, { machine: 1, time }] }], // prettier-ignore
    }));
    const solution = best({ machineCount: 2, jobs });
    expect([solution.maxLateness, solution.proven]).toEqual([6, true]);
  },
);

describe(
  'critical path with three estimates: Malcolm et al., Operations Research 7, 1959 (inputs from memory)',
  source('Malcolm et al., Operations Research 7, 1959 (inputs from memory)'),
  () => {
    const estimates: Record<string, [number, number, number, string]> = {
      A: [1, 2, 3, ''],
      B: [2, 3, 4, ''],
      C: [1, 2, 3, 'A'],
      D: [2, 4, 6, 'AB'],
      E: [1, 4, 7, 'C'],
      F: [1, 2, 9, 'C'],
      G: [3, 4, 11, 'DE'],
      H: [1, 2, 3, 'FG'],
    };
    const names = Object.keys(estimates);
    const rows = Object.values(estimates);
    const pert = rows.map(([a, m, b]) => pertEstimate(a, m, b));
    const network = criticalPath(
      rows.map(([, , , after], i) => ({
        duration: pert[i]?.mean ?? NaN,
        after: after.split('').map((name) => names.indexOf(name)),
      })),
    );

    test('means and variances', () => {
      expect(pert.map((e) => e.mean)).toEqual([2, 3, 2, 4, 4, 3, 5, 2]);
      expect(pert.map((e) => Math.round(e.variance * 9))).toEqual([1, 1, 1, 4, 9, 16, 16, 1]);
    });

    test('earliest and latest times and floats', () => {
      if (network.kind === 'refused') throw new Error(network.reason);
      const table = network.activities.map((a) => [
        a.earliestStart,
        a.earliestFinish,
        a.latestStart,
        a.latestFinish,
        a.totalFloat,
        a.freeFloat,
      ]);
      expect(table).toEqual([
        [0, 2, 0, 2, 0, 0],
        [0, 3, 1, 4, 1, 0],
        [2, 4, 2, 4, 0, 0],
        [3, 7, 4, 8, 1, 1],
        [4, 8, 4, 8, 0, 0],
        [4, 7, 10, 13, 6, 6],
        [8, 13, 8, 13, 0, 0],
        [13, 15, 13, 15, 0, 0],
      ]);
    });

    test('A C E G H is critical: 15, variance 28/9', () => {
      if (network.kind === 'refused') throw new Error(network.reason);
      expect(network.duration).toBe(15);
      expect(network.critical.map((i) => names[i]).join('')).toBe('ACEGH');
      const variance = network.critical.reduce((sum, i) => sum + (pert[i]?.variance ?? NaN), 0);
      expect(variance).toBeCloseTo(28 / 9, 12);
    });
  },
);
