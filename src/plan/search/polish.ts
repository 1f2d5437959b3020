/**
 * Improves the lower levels of the objective (tardiness, changes, walking) without giving up a higher one:
 * iterated local search over single moves, each valued exactly.
 */
import type { Model } from './model.ts';
import { Neighbourhood } from './moves.ts';
import { changesFromCurrent, objectiveOf, walkingOf, weightedTardiness } from './objective.ts';
import type { Objective } from './problem.ts';
import { compareObjectives } from './problem.ts';
import type { Random } from './random.ts';
import type { Schedule } from './schedule.ts';

/** Random moves in a kick: 1 … this. */
const KICK = 4;

export class Polish {
  readonly now: Schedule;
  readonly best: Schedule;
  bestValue: Objective;
  #value: Objective;
  readonly #model: Model;
  readonly #random: Random;
  readonly #moves: Neighbourhood;
  readonly #movable: number[];
  /** Operations left to try before the schedule counts as a local optimum. */
  #queue: number[] = [];

  constructor(from: Schedule, random: Random) {
    this.#model = from.model;
    this.#random = random;
    this.#moves = new Neighbourhood(from.model);
    this.now = from.clone();
    this.now.evaluate();
    this.best = this.now.clone();
    this.#value = objectiveOf(this.now);
    this.bestValue = this.#value;
    this.#movable = Array.from({ length: from.model.n }, (_, o) => o).filter(
      (o) => from.model.fixed[o] === 0,
    );
    this.#refill();
  }

  /** Starts anew from another schedule if it is better than the best so far. */
  offer(schedule: Schedule): void {
    const value = objectiveOf(schedule);
    if (compareObjectives(value, this.bestValue) >= 0) return;
    this.now.copyFrom(schedule);
    this.now.evaluate();
    this.best.copyFrom(this.now);
    this.#value = value;
    this.bestValue = value;
    this.#refill();
  }

  /** Nothing below the maximum lateness can be made smaller. */
  get perfect(): boolean {
    const { weightedTardiness: tardiness, changes, walking } = this.bestValue;
    return tardiness === 0 && changes === 0 && walking === 0;
  }

  /** Tries all moves of one operation, or kicks. */
  step(): void {
    if (this.#movable.length === 0) return;
    const o = this.#queue.pop();
    if (o === undefined) {
      this.#settle();
      return;
    }
    if (this.#improve(o)) this.#refill();
  }

  #refill(): void {
    this.#queue = [...this.#movable];
    for (let i = this.#queue.length - 1; i > 0; i--) {
      const j = this.#random.below(i + 1);
      const swap = this.#queue[i]!;
      this.#queue[i] = this.#queue[j]!;
      this.#queue[j] = swap;
    }
  }

  /** At a local optimum: keep it if not worse than the best, go back to the best otherwise, and kick. */
  #settle(): void {
    if (compareObjectives(this.#value, this.bestValue) <= 0) {
      this.best.copyFrom(this.now);
      this.bestValue = this.#value;
    } else {
      this.now.copyFrom(this.best);
      this.#value = this.bestValue;
    }
    const { altStart, altMachine } = this.#model;
    for (let i = 1 + this.#random.below(KICK); i > 0; i--) {
      const o = this.#movable[this.#random.below(this.#movable.length)]!;
      const k = altMachine[altStart[o]! + this.#random.below(altStart[o + 1]! - altStart[o]!)]!;
      this.now.move(o, k, this.#moves.randomPlace(this.now, o, k, this.#random));
      if (!this.now.evaluate()) throw new Error('a kick made a cycle');
    }
    this.#value = objectiveOf(this.now);
    this.#refill();
  }

  /** Best move of operation `o` by exact value; applied when it improves. */
  #improve(o: number): boolean {
    const { now } = this;
    const { altStart, altMachine } = this.#model;
    const oldMachine = now.machine[o]!;
    const oldPlace = now.place[o]!;
    const tries: [k: number, place: number][] = [];
    for (let a = altStart[o]!; a < altStart[o + 1]!; a++) {
      const k = altMachine[a]!;
      const [first, last] = this.#moves.safePlaces(now, o, k);
      for (let place = first; place <= last; place++) {
        if (k !== oldMachine || place !== oldPlace) tries.push([k, place]);
      }
    }
    let bestMachine = -1;
    let bestPlace = -1;
    let bestValue = this.#value;
    for (const [k, place] of tries) {
      now.move(o, k, place);
      if (!now.computeHeads()) throw new Error('a move made a cycle');
      const value = this.#valueIfBetter(bestValue);
      if (value !== null) {
        bestValue = value;
        bestMachine = k;
        bestPlace = place;
      }
    }
    if (tries.length > 0) {
      now.move(o, bestMachine < 0 ? oldMachine : bestMachine, bestMachine < 0 ? oldPlace : bestPlace);
      now.computeHeads();
    }
    if (bestMachine < 0) return false;
    this.#value = bestValue;
    if (compareObjectives(bestValue, this.bestValue) < 0) {
      this.best.copyFrom(now);
      this.bestValue = bestValue;
    }
    return true;
  }

  /** The objective of `now` if it is better than `limit`; stops at the first level that is worse. */
  #valueIfBetter(limit: Objective): Objective | null {
    const maxLateness = this.now.lateness;
    if (maxLateness > limit.maxLateness) return null;
    const tardiness = weightedTardiness(this.now);
    if (maxLateness === limit.maxLateness && tardiness > limit.weightedTardiness) return null;
    const value: Objective = {
      maxLateness,
      weightedTardiness: tardiness,
      changes: changesFromCurrent(this.now),
      walking: walkingOf(this.now),
    };
    return compareObjectives(value, limit) < 0 ? value : null;
  }
}
