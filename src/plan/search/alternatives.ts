/** Good plans that differ little from the current one, for a person to choose from. */
import { lowerBound } from './bound.ts';
import type { Model } from './model.ts';
import { compile } from './model.ts';
import { Neighbourhood } from './moves.ts';
import { objectiveOf } from './objective.ts';
import type { Objective, Problem, Refusal, Solution } from './problem.ts';
import { compareObjectives } from './problem.ts';
import type { Schedule } from './schedule.ts';
import type { SolveOptions } from './solve.ts';
import { searchModel, toSolution } from './solve.ts';
import { currentSchedule } from './start.ts';

export interface AlternativesOptions extends SolveOptions {
  /** At most this many plans. */
  readonly count: number;
  /** Largest number of moved operations tried step by step. Default 2. */
  readonly maxMoves?: number;
}

export interface Alternative {
  readonly solution: Solution;
  /** Operations taken out of the current plan and put elsewhere; null: without limit. */
  readonly moves: number | null;
}

/** Plans kept between one move and the next; all single moves are tried, pairs only from these. */
const BEAM = 12;

/**
 * Up to `count` plans: the current one, the best after one moved operation, after two, …, and the best
 * found without limit. A plan with more moves is listed only when it is better on lateness or tardiness
 * than every one with fewer. One move is exact (every operation, machine and place that can be made at once
 * is tried); two and more are sought from the best of the step before. Without a current plan the list has
 * the best plan alone.
 */
export function alternatives(
  problem: Problem,
  options: AlternativesOptions,
): readonly Alternative[] | Refusal {
  const model = compile(problem);
  if (model.kind === 'refused') return model;
  const bound = lowerBound(model);
  const found: { schedule: Schedule; value: Objective; moves: number | null }[] = [];
  const better = (value: Objective): boolean =>
    found.every(
      (other) =>
        compareObjectives({ ...value, changes: 0, walking: 0 }, { ...other.value, changes: 0, walking: 0 }) <
        0,
    );

  const current = currentSchedule(model);
  if (current !== null) {
    found.push({ schedule: current, value: objectiveOf(current), moves: 0 });
    let beam = [current];
    for (let moves = 1; moves <= (options.maxMoves ?? 2); moves++) {
      beam = bestNeighbours(model, beam, options.deadline ?? (() => false));
      const [first] = beam;
      if (first === undefined || options.deadline?.() === true) break;
      const value = objectiveOf(first);
      if (better(value)) found.push({ schedule: first, value, moves });
    }
  }

  const search = searchModel(
    model,
    options.random,
    'all',
    found.map(({ schedule }) => schedule),
  );
  const limit = options.iterations ?? Infinity;
  const late = options.deadline ?? (() => limit === Infinity);
  while (search.iterations < limit && !late() && !search.step(Math.min(500, limit - search.iterations)));
  const free = search.bestSchedule();
  if (better(objectiveOf(free))) found.push({ schedule: free, value: objectiveOf(free), moves: null });

  // The least late plan must be among those shown.
  const shown = found.length > options.count ? [...found.slice(0, options.count - 1), found.at(-1)!] : found;
  return shown
    .slice(0, options.count)
    .map(({ schedule, moves }) => ({ solution: toSolution(schedule, bound), moves }));
}

/** The best schedules one move away from any of `from`, best first. */
function bestNeighbours(model: Model, from: readonly Schedule[], late: () => boolean): Schedule[] {
  const moves = new Neighbourhood(model);
  const kept: { value: Objective; source: Schedule; o: number; k: number; place: number }[] = [];
  for (const source of from) {
    const trial = source.clone();
    for (let o = 0; o < model.n; o++) {
      if (model.fixed[o] === 1 || late()) continue;
      const oldMachine = trial.machine[o]!;
      const oldPlace = trial.place[o]!;
      for (let a = model.altStart[o]!; a < model.altStart[o + 1]!; a++) {
        const k = model.altMachine[a]!;
        const [first, last] = moves.safePlaces(source, o, k);
        for (let place = first; place <= last; place++) {
          if (k === oldMachine && place === oldPlace) continue;
          trial.move(o, k, place);
          if (!trial.computeHeads()) throw new Error('a move made a cycle');
          const worst = kept.at(-1);
          if (kept.length < BEAM || trial.lateness <= worst!.value.maxLateness) {
            const value = objectiveOf(trial);
            if (kept.length < BEAM || compareObjectives(value, worst!.value) < 0) {
              if (kept.length === BEAM) kept.pop();
              kept.push({ value, source, o, k, place });
              kept.sort((x, y) => compareObjectives(x.value, y.value));
            }
          }
          trial.move(o, oldMachine, oldPlace);
        }
      }
    }
    trial.computeHeads();
  }
  return kept.map(({ source, o, k, place }) => {
    const schedule = source.clone();
    schedule.move(o, k, place);
    schedule.evaluate();
    return schedule;
  });
}
