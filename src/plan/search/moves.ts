/**
 * The neighbourhood: take one critical operation out and put it back elsewhere (Nopt1 of Mastrolilli &
 * Gambardella, "Effective neighbourhood functions for the flexible job shop problem", J. Scheduling 3, 2000).
 *
 * On a machine let L be the operations that end after the moved one could start, and R those whose way to
 * the end is longer than the moved one's tail. Every place between "before L without R" and "after R without
 * L" is free of cycles, and one of them is best. A place is valued in O(1) from heads and tails.
 */
import type { Model } from './model.ts';
import type { Random } from './random.ts';
import type { Schedule } from './schedule.ts';

export interface Move {
  operation: number;
  machine: number;
  /** Place on the machine, counted without the operation. */
  place: number;
  /** Lateness of the longest path through the moved operation: exact when nothing else is longer. */
  estimate: number;
}

/** Called for each candidate; the same numbers as a Move, without making an object for each. */
export type Visit = (operation: number, machine: number, place: number, estimate: number) => void;

export class Neighbourhood {
  readonly #model: Model;
  /** Of the machine at hand without the moved operation: ends, and ways to the end. */
  readonly #ends: Int32Array;
  readonly #ways: Int32Array;

  constructor(model: Model) {
    this.#model = model;
    this.#ends = new Int32Array(model.n + 1);
    this.#ways = new Int32Array(model.n + 1);
  }

  /**
   * Visits the insertions of operation `o` on machine `k`, unless none can have an estimate of `cutoff` or
   * less. The schedule's heads and tails must be current.
   */
  visitInsertions(schedule: Schedule, o: number, k: number, cutoff: number, visit: Visit): void {
    const { n, m, jobPrev, jobNext, release, dueTail, hasAbsences, locked } = this.#model;
    const { end, way, sequence } = schedule;
    const duration = this.#model.time[o * m + k]!;
    const jp = jobPrev[o]!;
    const jn = jobNext[o]!;
    let ready = release[o]!;
    if (end[jp]! > ready) ready = end[jp]!;
    let rest = dueTail[o]!;
    if (way[jn]! > rest) rest = way[jn]!;
    if (ready + duration + rest > cutoff) return;
    if (schedule.machine[o] === k) {
      this.#visitOwnMachine(schedule, o, k, ready, rest, visit);
      return;
    }

    // Ends rise and ways to the end fall along a machine, so halving finds both borders. `from`: first place
    // with something of L behind it; `to`: last place with something of R before it.
    const base = k * n;
    const count = schedule.length[k]!;
    let from = locked[k]!;
    let high = count;
    while (from < high) {
      const middle = (from + high) >> 1;
      const x = sequence[base + middle]!;
      if (end[x]! <= ready) from = middle + 1;
      else high = middle;
    }
    let to = locked[k]!;
    high = count;
    while (to < high) {
      const middle = (to + high) >> 1;
      const x = sequence[base + middle]!;
      if (way[x]! > rest) to = middle + 1;
      else high = middle;
    }
    if (from > to) {
      const swap = from;
      from = to;
      to = swap;
    }
    for (let place = from; place <= to; place++) {
      let start = ready;
      let tail = rest;
      if (place > 0) {
        const before = end[sequence[base + place - 1]!]!;
        if (before > start) start = before;
      }
      if (place < count) {
        const after = way[sequence[base + place]!]!;
        if (after > tail) tail = after;
      }
      if (hasAbsences) {
        start = schedule.fitStart(k, start, duration);
        tail = schedule.fitTail(k, tail, duration, schedule.lateness - 1);
      }
      visit(o, k, place, start + duration + tail);
    }
  }

  /** The same on the machine the operation is on: as if it had been taken out, with what follows moved up. */
  #visitOwnMachine(
    schedule: Schedule,
    o: number,
    k: number,
    ready: number,
    rest: number,
    visit: Visit,
  ): void {
    const { n, hasAbsences, locked } = this.#model;
    const { end, way, time, sequence } = schedule;
    const base = k * n;
    const own = schedule.place[o]!;
    const count = schedule.length[k]! - 1;
    const duration = time[o]!;
    const ends = this.#ends;
    const ways = this.#ways;
    const lowest = locked[k]!;

    let to = count;
    while (to > own) {
      const x = sequence[base + to]!;
      if (way[x]! > rest) break;
      to--;
    }
    let from = lowest;
    let high = own;
    while (from < high) {
      const middle = (from + high) >> 1;
      const x = sequence[base + middle]!;
      if (end[x]! <= ready) from = middle + 1;
      else high = middle;
    }
    if (from === own) {
      // L may begin after the own place.
      while (from < count && this.#endWithout(schedule, k, own, from) <= ready) from++;
    }
    if (to === own) {
      // R may end before the own place.
      while (to > lowest && this.#wayWithout(schedule, k, own, to - 1) <= rest) to--;
    }
    if (from > to) {
      const swap = from;
      from = to;
      to = swap;
    }
    for (let i = own; i < to; i++) this.#endWithout(schedule, k, own, i);
    for (let i = own - 1; i >= from; i--) this.#wayWithout(schedule, k, own, i);
    for (let place = from; place <= to; place++) {
      if (place === own) continue;
      let start = ready;
      let tail = rest;
      if (place > 0) {
        const before = place > own ? ends[place - 1]! : end[sequence[base + place - 1]!]!;
        if (before > start) start = before;
      }
      if (place < count) {
        const after = place < own ? ways[place]! : way[sequence[base + place + 1]!]!;
        if (after > tail) tail = after;
      }
      if (hasAbsences) {
        start = schedule.fitStart(k, start, duration);
        tail = schedule.fitTail(k, tail, duration, schedule.lateness - 1);
      }
      visit(o, k, place, start + duration + tail);
    }
  }

  /** End of the operation at place `i` >= `own` once the one at `own` is out; needs `i - 1` done before. */
  #endWithout(schedule: Schedule, k: number, own: number, i: number): number {
    const { n, jobPrev, release, hasAbsences } = this.#model;
    const { end, time, sequence } = schedule;
    const base = k * n;
    const x = sequence[base + i + 1]!;
    let start = release[x]!;
    const jobEnd = end[jobPrev[x]!]!;
    if (jobEnd > start) start = jobEnd;
    const before = i > own ? this.#ends[i - 1]! : end[schedule.machinePrev[sequence[base + own]!]!]!;
    if (before > start) start = before;
    if (hasAbsences) start = schedule.fitStart(k, start, time[x]!);
    return (this.#ends[i] = start + time[x]!);
  }

  /** Way to the end of the operation at place `i` < `own` likewise; needs `i + 1` done before. */
  #wayWithout(schedule: Schedule, k: number, own: number, i: number): number {
    const { n, jobNext, dueTail, hasAbsences, fixed } = this.#model;
    const { way, time, sequence } = schedule;
    const base = k * n;
    const x = sequence[base + i]!;
    let tail = dueTail[x]!;
    const jobWay = way[jobNext[x]!]!;
    if (jobWay > tail) tail = jobWay;
    const after = i < own - 1 ? this.#ways[i + 1]! : way[schedule.machineNext[sequence[base + own]!]!]!;
    if (after > tail) tail = after;
    if (hasAbsences && fixed[x] === 0) tail = schedule.fitTail(k, tail, time[x]!, schedule.lateness - 1);
    return (this.#ways[i] = time[x]! + tail);
  }

  /** A random place for `o` on machine `k` that makes no cycle (any such place, good or not). */
  randomPlace(schedule: Schedule, o: number, k: number, random: Random): number {
    const [from, to] = this.safePlaces(schedule, o, k);
    return from + random.below(to - from + 1);
  }

  /** The places of `o` on machine `k` that surely make no cycle, [first, last], counted without `o`. */
  safePlaces(schedule: Schedule, o: number, k: number): [number, number] {
    const { n, jobPrev, jobNext, locked } = this.#model;
    const { head, end, sequence } = schedule;
    const base = k * n;
    const jp = jobPrev[o]!;
    const jn = jobNext[o]!;
    const same = schedule.machine[o] === k;
    const length = schedule.length[k]!;
    let from: number = locked[k]!;
    let place = from;
    // A path from y to the job predecessor needs head[predecessor] >= end of y; from the job successor to x,
    // head[x] >= end of the successor.
    const latest = jn < n ? end[jn]! : Infinity;
    const earliest = jp < n ? head[jp]! : -Infinity;
    for (let i = from; i < length; i++) {
      const x = sequence[base + i]!;
      if (same && x === o) continue;
      if (x === jn || head[x]! >= latest) break;
      place++;
      if (x === jp || end[x]! <= earliest) from = place;
    }
    return [from, Math.max(from, place)];
  }
}
