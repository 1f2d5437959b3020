/** Tabu search for the smallest maximum lateness, over moves of operations on a critical path. */
import type { Model } from './model.ts';
import { Neighbourhood } from './moves.ts';
import type { Random } from './random.ts';
import { Schedule } from './schedule.ts';

const NONE = 2 ** 30;

export class TabuSearch {
  readonly now: Schedule;
  readonly best: Schedule;
  readonly #model: Model;
  readonly #random: Random;
  readonly #moves: Neighbourhood;
  /** Index operation * m + machine: the iteration until which the operation may not be put there. */
  readonly #tabuUntil: Int32Array;
  readonly #path: Int32Array;
  #iteration = 0;
  /** Iteration of the last improvement of `best` since the last `restart`. */
  improvedAt = 0;

  // The best candidate of the iteration at hand.
  #operation = -1;
  #machine = -1;
  #place = -1;
  #estimate = NONE;
  #ties = 0;
  #cutoff = NONE;

  constructor(model: Model, random: Random) {
    this.#model = model;
    this.#random = random;
    this.#moves = new Neighbourhood(model);
    this.now = new Schedule(model);
    this.best = new Schedule(model);
    this.#tabuUntil = new Int32Array(model.n * model.m);
    this.#path = new Int32Array(model.n);
  }

  get iteration(): number {
    return this.#iteration;
  }

  /** Starts anew from an evaluated schedule; `best` becomes that schedule. */
  restart(from: Schedule): void {
    this.now.copyFrom(from);
    this.now.computeTails();
    this.best.copyFrom(this.now);
    this.#tabuUntil.fill(0);
    this.improvedAt = this.#iteration;
  }

  /** One move. False: nothing can be moved at all. */
  step(): boolean {
    const { now } = this;
    const { m, altStart, altMachine, fixed } = this.#model;
    const length = this.#criticalPath();
    this.#iteration++;
    this.#operation = -1;
    this.#estimate = NONE;
    for (let i = 0; i < length; i++) {
      const o = this.#path[i]!;
      if (fixed[o] === 1) continue;
      for (let a = altStart[o]!, end = altStart[o + 1]!; a < end; a++) {
        const k = altMachine[a]!;
        const tabu = this.#tabuUntil[o * m + k]! > this.#iteration;
        // A forbidden move must promise a new best.
        const cutoff = tabu ? Math.min(this.#estimate, this.best.lateness - 1) : this.#estimate;
        this.#cutoff = cutoff;
        this.#moves.visitInsertions(now, o, k, cutoff, this.#consider);
      }
    }
    if (this.#operation < 0 && !this.#leastForbidden(length)) return false;
    const o = this.#operation;
    const tenure = length + altStart[o + 1]! - altStart[o]!;
    this.#tabuUntil[o * m + now.machine[o]!] =
      this.#iteration + tenure + this.#random.below(1 + (tenure >> 1));
    if (!now.relocate(o, this.#machine, this.#place)) throw new Error('a move made a cycle');
    if (now.lateness < this.best.lateness) {
      this.best.copyFrom(now);
      this.improvedAt = this.#iteration;
    }
    return true;
  }

  readonly #consider = (o: number, k: number, place: number, estimate: number): void => {
    if (estimate > this.#cutoff) return;
    if (estimate < this.#estimate) {
      this.#estimate = estimate;
      this.#cutoff = Math.min(this.#cutoff, estimate);
      this.#ties = 0;
    }
    if (this.#random.below(++this.#ties) !== 0) return;
    this.#operation = o;
    this.#machine = k;
    this.#place = place;
  };

  /** All is forbidden: takes the pair of operation and machine that is free again soonest. */
  #leastForbidden(length: number): boolean {
    const { m, altStart, altMachine, fixed } = this.#model;
    let soonest = NONE;
    for (let i = 0; i < length; i++) {
      const o = this.#path[i]!;
      if (fixed[o] === 1) continue;
      for (let a = altStart[o]!, end = altStart[o + 1]!; a < end; a++) {
        const k = altMachine[a]!;
        const until = this.#tabuUntil[o * m + k]!;
        if (until >= soonest) continue;
        let ties = 0;
        this.#moves.visitInsertions(this.now, o, k, NONE, (_, __, place) => {
          if (this.#random.below(++ties) !== 0) return;
          soonest = until;
          this.#operation = o;
          this.#machine = k;
          this.#place = place;
        });
      }
    }
    return this.#operation >= 0;
  }

  /** Fills #path with the operations of one critical path, last first; ties are drawn. Returns its length. */
  #criticalPath(): number {
    const { now } = this;
    const { n, jobPrev, release, dueTail, dueOperations } = this.#model;
    const { head, end, machinePrev } = now;
    let o = n;
    let ties = 0;
    for (let i = 0; i < dueOperations.length; i++) {
      const x = dueOperations[i]!;
      if (end[x]! + dueTail[x]! === now.lateness && this.#random.below(++ties) === 0) o = x;
    }
    let length = 0;
    while (o < n) {
      this.#path[length++] = o;
      const jp = jobPrev[o]!;
      const mp = machinePrev[o]!;
      const jobEnd = end[jp]!;
      const machineEnd = end[mp]!;
      const before = Math.max(jobEnd, machineEnd);
      if (before < release[o]!) break;
      // A job's own release binds as well as what came before it: then the path may end here.
      if (before === release[o]! && head[o] === before) break;
      if (jobEnd === machineEnd) o = this.#random.below(2) === 0 ? jp : mp;
      else o = jobEnd > machineEnd ? jp : mp;
    }
    return length;
  }
}
