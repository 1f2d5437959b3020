/** The anytime search as a whole: start, tabu search, relinking, polish, bound and answer. */
import { lowerBound } from './bound.ts';
import { LatenessSearch } from './lateness.ts';
import type { Model } from './model.ts';
import { compile, NEVER } from './model.ts';
import { objectiveBefore, objectiveOf } from './objective.ts';
import { Polish } from './polish.ts';
import type { PlannedOperation, Problem, Refusal, Solution, Unplanned } from './problem.ts';
import type { Random } from './random.ts';
import type { Schedule } from './schedule.ts';
import { startSchedules } from './start.ts';

/** `lateness`: stop once the maximum lateness is proven smallest. `all`: go on with the other levels. */
export type Goal = 'lateness' | 'all';

/** Iterations of one kind before the other has its turn. */
const TURN = 500;
/** Polish steps that count as one turn. */
const POLISH_TURN = 60;

/** A search that can be stepped and asked for its best plan at any time. */
export interface Search {
  readonly kind: 'search';
  /** Iterations done. */
  readonly iterations: number;
  /** Does about `iterations` more. True: nothing left to gain. */
  step(iterations: number): boolean;
  /** The best plan so far. */
  best(): Solution;
}

export interface SolveOptions {
  readonly random: Random;
  readonly goal?: Goal;
  /** Stop after this many iterations. */
  readonly iterations?: number;
  /** Asked between slices; true: stop now. One of the two limits must be given. */
  readonly deadline?: () => boolean;
}

/** Reads the problem and builds the first plans. */
export function startSearch(problem: Problem, options: { random: Random; goal?: Goal }): Search | Refusal {
  const model = compile(problem);
  if (model.kind === 'refused') return model;
  return searchModel(model, options.random, options.goal ?? 'all');
}

/** The search on a model already read, from further `starts` beside its own. */
export function searchModel(
  model: Model,
  random: Random,
  goal: Goal,
  starts: readonly Schedule[] = [],
): Search & { bestSchedule(): Schedule } {
  const bound = lowerBound(model);
  const all = [...starts, ...startSchedules(model, random)];
  const lateness = new LatenessSearch(model, all, bound, random);
  const polish = goal === 'all' && model.n > 0 ? new Polish(lateness.best, random) : null;
  // Among starts that are equally late the current plan is the one with the fewest changes.
  for (const start of all) polish?.offer(start);
  let iterations = 0;
  return {
    kind: 'search',
    get iterations() {
      return iterations;
    },
    step(count) {
      for (const end = iterations + count; iterations < end;) {
        const proven = lateness.best.lateness <= bound || lateness.stuck;
        if (proven && (polish === null || (polish.perfect && polish.bestValue.maxLateness <= bound)))
          return true;
        const turn = Math.min(TURN, end - iterations);
        if (!proven) lateness.run(turn);
        if (polish !== null) {
          polish.offer(lateness.best);
          for (let i = 0; i < (proven ? turn : (turn * POLISH_TURN) / TURN); i++) polish.step();
          lateness.offer(polish.best);
        }
        iterations += turn;
      }
      return false;
    },
    best: () => toSolution(polish?.best ?? lateness.best, bound),
    bestSchedule: () => polish?.best ?? lateness.best,
  };
}

/** Solves within the limits. Same problem, same random seed, same iterations: same answer. */
export function solve(problem: Problem, options: SolveOptions): Solution | Refusal {
  const search = startSearch(problem, options);
  if (search.kind === 'refused') return search;
  const limit = options.iterations ?? Infinity;
  const late = options.deadline ?? (() => limit === Infinity);
  while (search.iterations < limit && !late()) {
    if (search.step(Math.min(TURN, limit - search.iterations))) break;
  }
  return search.best();
}

/** The answer in the problem's own numbers. */
export function toSolution(schedule: Schedule, bound: number): Solution {
  const { model } = schedule;
  const { n, m, origin, refs } = model;
  const operations = model.shape.map((count) =>
    Array.from({ length: count }, (): PlannedOperation | null => null),
  );
  const unplanned: Unplanned[] = [...model.unplanned];
  for (let o = 0; o < n; o++) {
    const ref = refs[o]!;
    if (schedule.head[o]! >= NEVER) {
      unplanned.push({ ...ref, reason: 'noRoom' });
      continue;
    }
    const start = schedule.head[o]! + origin;
    operations[ref.job]![ref.operation] = {
      ...ref,
      machine: schedule.machine[o]!,
      start,
      end: start + schedule.time[o]!,
    };
  }
  const sequences = Array.from({ length: m }, (_, k) =>
    Array.from(schedule.sequence.subarray(k * n, k * n + schedule.length[k]!), (o) => refs[o]!).filter(
      ({ job, operation }) => operations[job]![operation] !== null,
    ),
  );
  // What has no room makes the bound, which is for all operations, say nothing about the others.
  const whole = unplanned.length === model.unplanned.length;
  const objective = whole ? objectiveOf(schedule) : objectiveBefore(schedule, NEVER);
  return {
    kind: 'solution',
    ...objective,
    maxLateness: n === 0 ? -Infinity : objective.maxLateness,
    operations,
    sequences,
    lowerBound: n === 0 || !whole ? -Infinity : bound,
    proven: n === 0 || (whole && objective.maxLateness <= bound),
    unplanned,
    dropped: model.dropped,
  };
}
