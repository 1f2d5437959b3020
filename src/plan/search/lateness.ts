/** Tabu search with elites: restarts from kicked or relinked good schedules when a run stands still. */
import type { Model } from './model.ts';
import { Neighbourhood } from './moves.ts';
import type { Random } from './random.ts';
import { Schedule } from './schedule.ts';
import { TabuSearch } from './tabu.ts';

/** Iterations without improvement after which a run ends. */
const PATIENCE = 4_000;

export class LatenessSearch {
  readonly best: Schedule;
  readonly #tabu: TabuSearch;
  readonly #bound: number;
  readonly #random: Random;
  readonly #model: Model;
  readonly #moves: Neighbourhood;
  /** No operation on the critical path can be moved: the best is optimal. */
  stuck = false;

  constructor(model: Model, starts: readonly Schedule[], bound: number, random: Random) {
    this.#model = model;
    this.#random = random;
    this.#bound = bound;
    this.#moves = new Neighbourhood(model);
    this.#tabu = new TabuSearch(model, random);
    this.best = new Schedule(model);
    const first = starts.reduce((a, b) => (b.lateness < a.lateness ? b : a));
    this.best.copyFrom(first);
    this.#tabu.restart(first);
  }

  /** Takes over a better schedule found elsewhere. */
  offer(schedule: Schedule): void {
    if (schedule.lateness >= this.best.lateness) return;
    this.best.copyFrom(schedule);
    this.#tabu.restart(schedule);
  }

  run(iterations: number): void {
    const tabu = this.#tabu;
    for (let i = 0; i < iterations && this.best.lateness > this.#bound; i++) {
      if (!tabu.step()) {
        this.stuck = true;
        return;
      }
      if (tabu.best.lateness < this.best.lateness) this.best.copyFrom(tabu.best);
      if (tabu.iteration - tabu.improvedAt >= PATIENCE) this.#renew();
    }
  }

  #renew(): void {
    const next = this.best.clone();
    const { n, altStart, altMachine, fixed } = this.#model;
    const strength = 3 + this.#random.below(Math.max(1, n >> 3));
    for (let i = 0; i < strength; i++) {
      const o = this.#random.below(n);
      if (fixed[o] === 1) continue;
      const k = altMachine[altStart[o]! + this.#random.below(altStart[o + 1]! - altStart[o]!)]!;
      next.move(o, k, this.#moves.randomPlace(next, o, k, this.#random));
      if (!next.evaluate()) throw new Error('a kick made a cycle');
    }
    this.#tabu.restart(next);
  }
}
