/**
 * Small barns with clearances, hours and lesson duties against a MILP of the same barn (HiGHS), proven to the end. The
 * barns are written down in minutes and the MILP solves them in minutes; the planner works in seconds and ms.
 */
import { expect, test } from 'vitest';
import { findingRate } from '#core/plan/rebalance/findingRate.ts';
import { MIN_GAIN_MS } from '#core/plan/rebalance/minGain.ts';
import { rebalance } from '#core/plan/rebalance/rebalance.ts';
import { toProblem } from '#core/plan/rebalance/toProblem.ts';
import { Trial } from '#core/plan/rebalance/trial.ts';
import type { Problem } from '#core/plan/search/problem.ts';
import { seededRandom } from '#core/plan/search/random.ts';
import { solve } from '#core/plan/search/solve.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { usable } from '#core/plan/usable.ts';
import { milpSolver } from '../scheduling/milp.ts';
import { smallBarn } from './cases.ts';
import { sourceOfAll } from '../source.ts';

sourceOfAll('HiGHS, a MILP of the same barn');

const CASES = 72;
const LIMIT_SECONDS = 3;
/** Later than any end; the MILP knows no "for good". */
const FAR_MINUTES = 2_000;

/** The problem in whole minutes, with finite absences, for the MILP. */
function inMinutes(problem: Problem): Problem {
  const whole = (seconds: number): number => {
    if (seconds === Infinity) return FAR_MINUTES;
    if (seconds === -Infinity) return -1;
    if (seconds % 60 !== 0) throw new Error(`${seconds} s are no whole minutes`);
    return seconds / 60;
  };
  return {
    machineCount: problem.machineCount,
    absences: (problem.absences ?? []).map((list) =>
      list
        .map(({ from, to }) => ({ from: whole(from), to: whole(to) }))
        .filter(({ from, to }) => to > Math.max(0, from)),
    ),
    jobs: problem.jobs.map((job) => ({
      ...job,
      release: whole(job.release),
      due: whole(job.due),
      operations: job.operations.map(({ alternatives }) => ({
        alternatives: alternatives.map(({ machine, time }) => ({ machine, time: whole(time) })),
      })),
    })),
  };
}

test(
  'the planner finds and bounds the maximum lateness that the MILP proves',
  { timeout: 240_000 },
  async () => {
    const milp = await milpSolver(LIMIT_SECONDS);
    let proven = 0;
    let reached = 0;
    for (let index = 0; index < CASES; index++) {
      const input = smallBarn(index);
      const trial = new Trial(usable(input), { findingRate: findingRate(0, 0), spareMs: MINUTE_MS * 1_000 });
      trial.run(trial.queues);
      const { problem, cannot } = toProblem(trial);
      expect(cannot).toEqual([]);
      const exact = milp(inMinutes(problem));
      if (!exact.proven || exact.maxLateness > FAR_MINUTES / 2) continue;
      proven++;

      const solution = solve(problem, { random: seededRandom(1), goal: 'lateness', iterations: 3_000 });
      if (solution.kind === 'refused') throw new Error(solution.detail);
      expect(solution.maxLateness, `case ${index}`).toBe(exact.maxLateness * 60);

      // What is offered is played forward as people work, who never wait for one horse while another is ready.
      const answer = rebalance(input, { spareMs: 1_000 * MINUTE_MS, budget: { steps: 120 } });
      const best = answer.alternatives.at(-1) ?? { worth: answer.now, proven: answer.proven };
      const exactMs = exact.maxLateness * MINUTE_MS;
      expect(best.worth.undone).toBe(0);
      expect(best.worth.latenessMs, `case ${index}`).toBeGreaterThanOrEqual(exactMs - 1_000);
      expect(answer.boundMs, `case ${index}`).toBeLessThanOrEqual(exactMs);
      if (best.proven) expect(best.worth.latenessMs, `case ${index}`).toBeLessThan(exactMs + MIN_GAIN_MS);
      if ((best.worth.latenessMs ?? Infinity) < exactMs + MIN_GAIN_MS) reached++;
    }
    expect(proven).toBeGreaterThanOrEqual(60);
    // The rest ask somebody to stand and wait for a horse, which is not played.
    expect(reached / proven).toBeGreaterThan(0.8);
  },
);
