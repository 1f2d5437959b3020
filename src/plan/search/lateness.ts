/** Tabu search with elites: when a run stands still, the next starts between two good schedules. */
import type { Model } from './model.ts';
import { Neighbourhood } from './moves.ts';
import type { Random } from './random.ts';
import { distance, kick, relink } from './relink.ts';
import { Schedule } from './schedule.ts';
import { TabuSearch } from './tabu.ts';

/** Iterations without improvement after which a run ends. */
const PATIENCE = 1_000;
/** Elite schedules kept. */
const ELITES = 6;
/** Elites closer to each other than this share of operations count as one. */
const APART = 0.05;
/** Share of the second parent in a relinking, thousandths: from 100 to 900. */
const LEAST_SHARE = 100;
const SHARES = 800;

export class LatenessSearch {
  readonly best: Schedule;
  readonly #tabu: TabuSearch;
  readonly #bound: number;
  readonly #random: Random;
  readonly #moves: Neighbourhood;
  readonly #starts: Schedule[];
  readonly #elites: Schedule[] = [];
  /** No operation on the critical path can be moved: the best is optimal. */
  stuck = false;

  constructor(model: Model, starts: readonly Schedule[], bound: number, random: Random) {
    this.#random = random;
    this.#bound = bound;
    this.#moves = new Neighbourhood(model);
    this.#tabu = new TabuSearch(model, random);
    this.best = new Schedule(model);
    // Best last: they are taken from the end.
    this.#starts = [...starts].sort((a, b) => b.lateness - a.lateness);
    const first = this.#starts.pop()!;
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
      if (tabu.iteration - tabu.improvedAt >= PATIENCE) {
        this.#keep(tabu.best);
        tabu.restart(this.#next());
      }
    }
  }

  /** Puts a schedule among the elites: in place of those very like it, or of the worst. */
  #keep(schedule: Schedule): void {
    const elites = this.#elites;
    const like = elites.findIndex((elite) => distance(elite, schedule) < APART);
    if (like >= 0) {
      if (schedule.lateness <= elites[like]!.lateness) elites[like]!.copyFrom(schedule);
      return;
    }
    if (elites.length < ELITES) {
      elites.push(schedule.clone());
      return;
    }
    const worst = elites.reduce((a, b) => (b.lateness > a.lateness ? b : a));
    if (schedule.lateness <= worst.lateness) worst.copyFrom(schedule);
  }

  #next(): Schedule {
    const random = this.#random;
    const elites = this.#elites;
    if (elites.length < ELITES) {
      const start = this.#starts.pop();
      if (start !== undefined) return start;
    }
    const a = elites[random.below(elites.length)]!;
    const b = elites[random.below(elites.length)]!;
    if (a !== b) return relink(a, b, LEAST_SHARE + random.below(SHARES), random);
    const next = a.clone();
    kick(next, 3 + random.below(Math.max(1, a.model.n >> 3)), this.#moves, random);
    return next;
  }
}
