/** Tabu search for the smallest maximum lateness, over moves of operations on a critical path. */
import type { Model } from './model.ts';
import { Neighbourhood } from './moves.ts';
import type { Random } from './random.ts';
import { Schedule } from './schedule.ts';

const NONE = 2 ** 30;

/**
 * A candidate is ranked by its estimate and by how much longer the operation takes on the new machine; the
 * estimate counts this much, the longer time as below. Where many machines are full to the end no single
 * move shortens the schedule, and it is the work taken off them that leads on.
 */
const ESTIMATE_WEIGHT = 8;
const EXTRA_TIME_WEIGHT = 2;
const EXTRA_TIME_WEIGHT_STANDING = 8;
/** Moves without a change of lateness after which the search counts as standing. */
const STANDING = 10;
/** Of 100 moves while standing, those that may not merely reorder a machine without gain. */
const FORCED_AWAY = 50;

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
  #rank = Infinity;
  #ties = 0;
  #cutoff = NONE;
  #extraWeight = EXTRA_TIME_WEIGHT;
  #forcedAway = false;
  /** Moves since the lateness last changed. */
  #unchanged = 0;

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
    const { m, time, altStart, altMachine, fixed } = this.#model;
    const length = this.#criticalPath();
    const before = now.lateness;
    this.#iteration++;
    this.#operation = -1;
    this.#rank = Infinity;
    const standing = this.#unchanged >= STANDING;
    this.#extraWeight = standing ? EXTRA_TIME_WEIGHT_STANDING : EXTRA_TIME_WEIGHT;
    this.#forcedAway = standing && this.#random.below(100) < FORCED_AWAY;
    for (let i = 0; i < length; i++) {
      const o = this.#path[i]!;
      if (fixed[o] === 1) continue;
      for (let a = altStart[o]!, end = altStart[o + 1]!; a < end; a++) {
        const k = altMachine[a]!;
        const extra = this.#extraWeight * (time[o * m + k]! - now.time[o]!);
        this.#cutoff = Math.min(NONE, Math.floor((this.#rank - extra) / ESTIMATE_WEIGHT));
        // A forbidden move must promise a new best.
        if (this.#tabuUntil[o * m + k]! > this.#iteration) {
          this.#cutoff = Math.min(this.#cutoff, this.best.lateness - 1);
        }
        this.#moves.visitInsertions(now, o, k, this.#cutoff, this.#consider);
      }
    }
    if (this.#operation < 0 && !this.#leastForbidden(length)) return false;
    const o = this.#operation;
    const tenure = length + altStart[o + 1]! - altStart[o]!;
    this.#tabuUntil[o * m + now.machine[o]!] =
      this.#iteration + tenure + this.#random.below(1 + (tenure >> 1));
    if (!now.relocate(o, this.#machine, this.#place)) throw new Error('a move made a cycle');
    this.#unchanged = now.lateness === before ? this.#unchanged + 1 : 0;
    if (now.lateness < this.best.lateness) {
      this.best.copyFrom(now);
      this.improvedAt = this.#iteration;
    }
    return true;
  }

  readonly #consider = (o: number, k: number, place: number, estimate: number): void => {
    const { now } = this;
    if (estimate > this.#cutoff) return;
    if (this.#forcedAway && estimate >= now.lateness && now.machine[o] === k) return;
    const extra = this.#model.time[o * this.#model.m + k]! - now.time[o]!;
    const rank = ESTIMATE_WEIGHT * estimate + this.#extraWeight * extra;
    if (rank > this.#rank) return;
    if (rank < this.#rank) {
      this.#rank = rank;
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
