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
    const { head, tail, time, sequence } = schedule;
    const duration = this.#model.time[o * m + k]!;
    const jp = jobPrev[o]!;
    const jn = jobNext[o]!;
    let ready = release[o]!;
    if (jp >= 0 && head[jp]! + time[jp]! > ready) ready = head[jp]! + time[jp]!;
    let rest = dueTail[o]!;
    if (jn >= 0 && time[jn]! + tail[jn]! > rest) rest = time[jn]! + tail[jn]!;
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
      if (head[x]! + time[x]! <= ready) from = middle + 1;
      else high = middle;
    }
    let to = locked[k]!;
    high = count;
    while (to < high) {
      const middle = (to + high) >> 1;
      const x = sequence[base + middle]!;
      if (time[x]! + tail[x]! > rest) to = middle + 1;
      else high = middle;
    }
    if (from > to) {
      const swap = from;
      from = to;
      to = swap;
    }
    for (let place = from; place <= to; place++) {
      let start = ready;
      let way = rest;
      if (place > 0) {
        const before = sequence[base + place - 1]!;
        const end = head[before]! + time[before]!;
        if (end > start) start = end;
      }
      if (place < count) {
        const after = sequence[base + place]!;
        const next = time[after]! + tail[after]!;
        if (next > way) way = next;
      }
      if (hasAbsences) {
        start = schedule.fitStart(k, start, duration);
        way = schedule.fitTail(k, way, duration, schedule.lateness - 1);
      }
      visit(o, k, place, start + duration + way);
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
    const { head, tail, time, sequence } = schedule;
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
      if (time[x]! + tail[x]! > rest) break;
      to--;
    }
    let from = lowest;
    let high = own;
    while (from < high) {
      const middle = (from + high) >> 1;
      const x = sequence[base + middle]!;
      if (head[x]! + time[x]! <= ready) from = middle + 1;
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
      let way = rest;
      if (place > 0) {
        const before = sequence[base + place - 1]!;
        const end = place > own ? ends[place - 1]! : head[before]! + time[before]!;
        if (end > start) start = end;
      }
      if (place < count) {
        const after = sequence[base + place + 1]!;
        const next = place < own ? ways[place]! : time[after]! + tail[after]!;
        if (next > way) way = next;
      }
      if (hasAbsences) {
        start = schedule.fitStart(k, start, duration);
        way = schedule.fitTail(k, way, duration, schedule.lateness - 1);
      }
      visit(o, k, place, start + duration + way);
    }
  }

  /** End of the operation at place `i` >= `own` once the one at `own` is out; needs `i - 1` done before. */
  #endWithout(schedule: Schedule, k: number, own: number, i: number): number {
    const { n, jobPrev, release, hasAbsences } = this.#model;
    const { head, time, sequence } = schedule;
    const base = k * n;
    const x = sequence[base + i + 1]!;
    let start = release[x]!;
    const jp = jobPrev[x]!;
    if (jp >= 0 && head[jp]! + time[jp]! > start) start = head[jp]! + time[jp]!;
    if (i > own) {
      if (this.#ends[i - 1]! > start) start = this.#ends[i - 1]!;
    } else if (i > 0) {
      const before = sequence[base + i - 1]!;
      if (head[before]! + time[before]! > start) start = head[before]! + time[before]!;
    }
    if (hasAbsences) start = schedule.fitStart(k, start, time[x]!);
    return (this.#ends[i] = start + time[x]!);
  }

  /** Way to the end of the operation at place `i` < `own` likewise; needs `i + 1` done before. */
  #wayWithout(schedule: Schedule, k: number, own: number, i: number): number {
    const { n, jobNext, dueTail, hasAbsences, fixed } = this.#model;
    const { tail, time, sequence } = schedule;
    const base = k * n;
    const x = sequence[base + i]!;
    let way = dueTail[x]!;
    const jn = jobNext[x]!;
    if (jn >= 0 && time[jn]! + tail[jn]! > way) way = time[jn]! + tail[jn]!;
    if (i < own - 1) {
      if (this.#ways[i + 1]! > way) way = this.#ways[i + 1]!;
    } else if (own + 1 < schedule.length[k]!) {
      const after = sequence[base + own + 1]!;
      if (time[after]! + tail[after]! > way) way = time[after]! + tail[after]!;
    }
    if (hasAbsences && fixed[x] === 0) way = schedule.fitTail(k, way, time[x]!, schedule.lateness - 1);
    return (this.#ways[i] = time[x]! + way);
  }

  /** A random place for `o` on machine `k` that makes no cycle (any such place, good or not). */
  randomPlace(schedule: Schedule, o: number, k: number, random: Random): number {
    const [from, to] = this.safePlaces(schedule, o, k);
    return from + random.below(to - from + 1);
  }

  /** The places of `o` on machine `k` that surely make no cycle, [first, last], counted without `o`. */
  safePlaces(schedule: Schedule, o: number, k: number): [number, number] {
    const { n, jobPrev, jobNext, locked } = this.#model;
    const { head, time, sequence } = schedule;
    const base = k * n;
    const jp = jobPrev[o]!;
    const jn = jobNext[o]!;
    const same = schedule.machine[o] === k;
    const length = schedule.length[k]!;
    let from: number = locked[k]!;
    let place = from;
    // A path from y to the job predecessor needs head[predecessor] >= end of y; from the job successor to x,
    // head[x] >= end of the successor.
    const latest = jn >= 0 ? head[jn]! + time[jn]! : Infinity;
    const earliest = jp >= 0 ? head[jp]! : -Infinity;
    for (let i = from; i < length; i++) {
      const x = sequence[base + i]!;
      if (same && x === o) continue;
      if (x === jn || head[x]! >= latest) break;
      place++;
      if (x === jp || head[x]! + time[x]! <= earliest) from = place;
    }
    return [from, Math.max(from, place)];
  }
}
