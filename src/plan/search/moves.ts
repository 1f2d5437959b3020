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

  /** Visits the insertions of operation `o` on machine `k`. The schedule's heads and tails must be current. */
  visitInsertions(schedule: Schedule, o: number, k: number, visit: Visit): void {
    const { n, m, jobPrev, jobNext, release, dueTail, hasAbsences, locked } = this.#model;
    const { head, tail, time, sequence } = schedule;
    const duration = this.#model.time[o * m + k]!;
    const jp = jobPrev[o]!;
    const jn = jobNext[o]!;
    let ready = release[o]!;
    if (jp >= 0 && head[jp]! + time[jp]! > ready) ready = head[jp]! + time[jp]!;
    let rest = dueTail[o]!;
    if (jn >= 0 && time[jn]! + tail[jn]! > rest) rest = time[jn]! + tail[jn]!;

    const base = k * n;
    const same = schedule.machine[o] === k;
    const target = schedule.lateness - 1;
    let count = schedule.length[k]!;
    const ends = this.#ends;
    const ways = this.#ways;
    const lowest = locked[k]!;
    const own = same ? schedule.place[o]! : -1;
    let from: number;
    let to: number;
    if (same) {
      this.#withoutOwn(schedule, o, k);
      count--;
      from = lowest;
      while (from < count && ends[from]! <= ready) from++;
      to = count;
      while (to > lowest && ways[to - 1]! <= rest) to--;
    } else {
      // Ends rise and ways fall along a machine: halve to find both borders.
      let low = lowest;
      let high = count;
      while (low < high) {
        const middle = (low + high) >> 1;
        const x = sequence[base + middle]!;
        if (head[x]! + time[x]! <= ready) low = middle + 1;
        else high = middle;
      }
      from = low;
      low = lowest;
      high = count;
      while (low < high) {
        const middle = (low + high) >> 1;
        const x = sequence[base + middle]!;
        if (time[x]! + tail[x]! > rest) low = middle + 1;
        else high = middle;
      }
      to = low;
    }
    // `from`: first place with something of L behind it; `to`: last place with something of R before it.
    if (from > to) {
      const swap = from;
      from = to;
      to = swap;
    }
    for (let place = from; place <= to; place++) {
      if (place === own) continue;
      let start = ready;
      let way = rest;
      if (place > 0) {
        const before = sequence[base + place - 1]!;
        const end = same ? ends[place - 1]! : head[before]! + time[before]!;
        if (end > start) start = end;
      }
      if (place < count) {
        const after = sequence[base + place]!;
        const next = same ? ways[place]! : time[after]! + tail[after]!;
        if (next > way) way = next;
      }
      if (hasAbsences) {
        start = schedule.fitStart(k, start, duration);
        way = schedule.fitTail(k, way, duration, target);
      }
      visit(o, k, place, start + duration + way);
    }
  }

  /** Fills ends and ways of machine `k` as they are when `o`, which is on it, is taken out. */
  #withoutOwn(schedule: Schedule, o: number, k: number): void {
    const { n, jobPrev, jobNext, release, dueTail, hasAbsences, fixed } = this.#model;
    const { head, tail, time, sequence } = schedule;
    const base = k * n;
    const own = schedule.place[o]!;
    const count = schedule.length[k]! - 1;
    const target = schedule.lateness - 1;
    const ends = this.#ends;
    const ways = this.#ways;
    for (let i = 0; i < own; i++) {
      const x = sequence[base + i]!;
      ends[i] = head[x]! + time[x]!;
    }
    for (let i = own; i < count; i++) {
      const x = sequence[base + i + 1]!;
      let start = release[x]!;
      const jp = jobPrev[x]!;
      if (jp >= 0 && head[jp]! + time[jp]! > start) start = head[jp]! + time[jp]!;
      if (i > 0 && ends[i - 1]! > start) start = ends[i - 1]!;
      if (hasAbsences) start = schedule.fitStart(k, start, time[x]!);
      ends[i] = start + time[x]!;
    }
    for (let i = own; i < count; i++) {
      const x = sequence[base + i + 1]!;
      ways[i] = time[x]! + tail[x]!;
    }
    for (let i = own - 1; i >= 0; i--) {
      const x = sequence[base + i]!;
      let way = dueTail[x]!;
      const jn = jobNext[x]!;
      if (jn >= 0 && time[jn]! + tail[jn]! > way) way = time[jn]! + tail[jn]!;
      if (i + 1 < count && ways[i + 1]! > way) way = ways[i + 1]!;
      if (hasAbsences && fixed[x] === 0) way = schedule.fitTail(k, way, time[x]!, target);
      ways[i] = time[x]! + way;
    }
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
