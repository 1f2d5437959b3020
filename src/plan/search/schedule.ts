/**
 * A complete schedule as a disjunctive graph: machine sequences with heads and tails.
 *
 * The head of an operation is its earliest start; its tail is the longest way from its completion to a
 * lateness, where the tail of a job's end is -due. So head + time + tail is the lateness forced through the
 * operation, and makespan is the case in which all dues are 0. With absences a head is the earliest fit,
 * and a tail is the mirror image seen from the target "one less late than now".
 */
import { earliestStart, latestEnd } from './calendar.ts';
import type { Model } from './model.ts';

const NO_WAY = -(2 ** 30);

export class Schedule {
  readonly model: Model;
  /** Machine k runs sequence[k * n] … sequence[k * n + length[k] - 1]. */
  readonly sequence: Int32Array;
  readonly length: Int32Array;
  readonly machine: Int32Array;
  readonly place: Int32Array;
  readonly time: Int32Array;
  /** Neighbours on the machine; n: none. */
  readonly machinePrev: Int32Array;
  readonly machineNext: Int32Array;
  readonly head: Int32Array;
  readonly tail: Int32Array;
  /** head + time and time + tail; index n, "none", holds a value that loses every comparison. */
  readonly end: Int32Array;
  readonly way: Int32Array;
  /** A topological order of the graph, and each operation's place in it. */
  readonly order: Int32Array;
  readonly rank: Int32Array;
  readonly #waiting: Int8Array;
  readonly #marked: Uint8Array;
  readonly #stash: Int32Array;
  /** Maximum lateness, in times from `model.origin`. */
  lateness = 0;

  constructor(model: Model) {
    const { n, m } = model;
    this.model = model;
    this.sequence = new Int32Array(n * m);
    this.length = new Int32Array(m);
    this.machine = new Int32Array(n).fill(-1);
    this.place = new Int32Array(n);
    this.time = new Int32Array(n);
    this.machinePrev = new Int32Array(n).fill(n);
    this.machineNext = new Int32Array(n).fill(n);
    this.head = new Int32Array(n);
    this.tail = new Int32Array(n);
    this.end = new Int32Array(n + 1).fill(NO_WAY, n);
    this.way = new Int32Array(n + 1).fill(NO_WAY, n);
    this.order = new Int32Array(n);
    this.rank = new Int32Array(n);
    this.#waiting = new Int8Array(n);
    this.#marked = new Uint8Array(n + 1);
    this.#stash = new Int32Array(n);
  }

  copyFrom(other: Schedule): void {
    this.sequence.set(other.sequence);
    this.length.set(other.length);
    this.machine.set(other.machine);
    this.place.set(other.place);
    this.time.set(other.time);
    this.machinePrev.set(other.machinePrev);
    this.machineNext.set(other.machineNext);
    this.head.set(other.head);
    this.tail.set(other.tail);
    this.end.set(other.end);
    this.way.set(other.way);
    this.order.set(other.order);
    this.rank.set(other.rank);
    this.lateness = other.lateness;
  }

  clone(): Schedule {
    const copy = new Schedule(this.model);
    copy.copyFrom(this);
    return copy;
  }

  /** Puts an operation that is on no machine at `place` of machine `k`. */
  insert(o: number, k: number, place: number): void {
    const { n, m, time } = this.model;
    const { sequence } = this;
    const base = k * n;
    const length = this.length[k]!++;
    for (let i = length; i > place; i--) {
      const x = sequence[base + i - 1]!;
      sequence[base + i] = x;
      this.place[x] = i;
    }
    sequence[base + place] = o;
    this.place[o] = place;
    this.machine[o] = k;
    this.time[o] = time[o * m + k]!;
    const before = place > 0 ? sequence[base + place - 1]! : n;
    const after = place < length ? sequence[base + place + 1]! : n;
    this.machinePrev[o] = before;
    this.machineNext[o] = after;
    if (before < n) this.machineNext[before] = o;
    if (after < n) this.machinePrev[after] = o;
  }

  append(o: number, k: number): void {
    this.insert(o, k, this.length[k]!);
  }

  remove(o: number): void {
    const { n } = this.model;
    const { sequence } = this;
    const k = this.machine[o]!;
    const base = k * n;
    const length = --this.length[k]!;
    for (let i = this.place[o]!; i < length; i++) {
      const x = sequence[base + i + 1]!;
      sequence[base + i] = x;
      this.place[x] = i;
    }
    const before = this.machinePrev[o]!;
    const after = this.machineNext[o]!;
    if (before < n) this.machineNext[before] = after;
    if (after < n) this.machinePrev[after] = before;
    this.machine[o] = -1;
  }

  /** Moves an operation to `place` of machine `k`; `place` counts without the operation itself. */
  move(o: number, k: number, place: number): void {
    this.remove(o);
    this.insert(o, k, place);
  }

  /** Finds `order` anew, then heads and `lateness`. False: the sequences contradict each other (a cycle). */
  computeHeads(): boolean {
    const { model, order, rank, machinePrev, machineNext } = this;
    const { n, jobPrev, jobNext } = model;
    const waiting = this.#waiting;
    let filled = 0;
    for (let o = 0; o < n; o++) {
      const count = (jobPrev[o]! < n ? 1 : 0) + (machinePrev[o]! < n ? 1 : 0);
      waiting[o] = count;
      if (count === 0) order[filled++] = o;
    }
    for (let i = 0; i < filled; i++) {
      const o = order[i]!;
      rank[o] = i;
      const jn = jobNext[o]!;
      if (jn < n && --waiting[jn]! === 0) order[filled++] = jn;
      const mn = machineNext[o]!;
      if (mn < n && --waiting[mn]! === 0) order[filled++] = mn;
    }
    if (filled < n) return false;
    this.#headsFrom(0);
    return true;
  }

  /** Heads of the operations from `first` on in `order`, and `lateness`. */
  #headsFrom(first: number): void {
    const { model, order, head, time, end, machinePrev } = this;
    const { n, jobPrev, release, dueTail, dueOperations, hasAbsences } = model;
    for (let i = first; i < n; i++) {
      const o = order[i]!;
      let start = release[o]!;
      const jobEnd = end[jobPrev[o]!]!;
      if (jobEnd > start) start = jobEnd;
      const machineEnd = end[machinePrev[o]!]!;
      if (machineEnd > start) start = machineEnd;
      if (hasAbsences && model.fixed[o] === 0 && this.machine[o]! >= 0) {
        start = this.fitStart(this.machine[o]!, start, time[o]!);
      }
      head[o] = start;
      end[o] = start + time[o]!;
    }
    let lateness = -(2 ** 30);
    for (let i = 0; i < dueOperations.length; i++) {
      const o = dueOperations[i]!;
      const late = end[o]! + dueTail[o]!;
      if (late > lateness) lateness = late;
    }
    this.lateness = lateness;
  }

  /** Recomputes tails; needs `order` and `lateness` to be up to date. */
  computeTails(): void {
    this.#tailsFrom(this.model.n - 1);
  }

  /** Tails of the operations from `last` on backwards in `order`. */
  #tailsFrom(last: number): void {
    const { model, order, tail, time, way, machineNext } = this;
    const { jobNext, dueTail, hasAbsences } = model;
    const target = this.lateness - 1;
    for (let i = last; i >= 0; i--) {
      const o = order[i]!;
      let longest = dueTail[o]!;
      const jobWay = way[jobNext[o]!]!;
      if (jobWay > longest) longest = jobWay;
      const machineWay = way[machineNext[o]!]!;
      if (machineWay > longest) longest = machineWay;
      if (hasAbsences && model.fixed[o] === 0 && this.machine[o]! >= 0) {
        longest = this.fitTail(this.machine[o]!, longest, time[o]!, target);
      }
      tail[o] = longest;
      way[o] = longest + time[o]!;
    }
  }

  /** Heads and tails. False on a cycle. */
  evaluate(): boolean {
    const sound = this.computeHeads();
    if (sound) this.computeTails();
    return sound;
  }

  /**
   * `move` and `evaluate` in one, much faster: mends `order` where it must and recomputes only what lies
   * behind the change. Heads, tails and order must be current. False on a cycle: then nothing is current.
   */
  relocate(o: number, k: number, place: number): boolean {
    const { rank, machinePrev, machineNext } = this;
    const { n } = this.model;
    const oldPrev = machinePrev[o]!;
    const oldNext = machineNext[o]!;
    const oldRank = rank[o]!;
    this.move(o, k, place);
    const before = machinePrev[o]!;
    const after = machineNext[o]!;
    if (before < n && rank[before]! > oldRank) {
      if (!this.#moveBehind(o, before)) return false;
    } else if (after < n && rank[after]! < oldRank) {
      if (!this.#moveAhead(o, after)) return false;
    }
    let first = Math.min(oldRank, rank[o]!);
    let last = Math.max(oldRank, rank[o]!);
    if (after < n && rank[after]! < first) first = rank[after]!;
    if (oldNext < n && rank[oldNext]! < first) first = rank[oldNext]!;
    if (before < n && rank[before]! > last) last = rank[before]!;
    if (oldPrev < n && rank[oldPrev]! > last) last = rank[oldPrev]!;
    this.#headsFrom(first);
    // With absences tails are seen from the lateness, which has changed for all.
    this.#tailsFrom(this.model.hasAbsences ? this.model.n - 1 : last);
    return true;
  }

  /** Puts `o` and all that must follow it behind `x` in `order`. False: `x` must follow `o` (a cycle). */
  #moveBehind(o: number, x: number): boolean {
    const { order, rank, machinePrev } = this;
    const { jobPrev } = this.model;
    const marked = this.#marked;
    const stash = this.#stash;
    const last = rank[x]!;
    let write = rank[o]!;
    let stashed = 0;
    for (let i = write; i <= last; i++) {
      const u = order[i]!;
      const jp = jobPrev[u]!;
      const mp = machinePrev[u]!;
      if (u === o || marked[jp] === 1 || marked[mp] === 1) {
        marked[u] = 1;
        stash[stashed++] = u;
      } else {
        order[write] = u;
        rank[u] = write++;
      }
    }
    const sound = marked[x] === 0;
    for (let i = 0; i < stashed; i++) {
      const u = stash[i]!;
      marked[u] = 0;
      order[write] = u;
      rank[u] = write++;
    }
    return sound;
  }

  /** Puts `o` and all that must precede it ahead of `y` in `order`. False: `y` must precede `o` (a cycle). */
  #moveAhead(o: number, y: number): boolean {
    const { order, rank, machineNext } = this;
    const { jobNext } = this.model;
    const marked = this.#marked;
    const stash = this.#stash;
    const first = rank[y]!;
    let write = rank[o]!;
    let stashed = 0;
    for (let i = write; i >= first; i--) {
      const u = order[i]!;
      const jn = jobNext[u]!;
      const mn = machineNext[u]!;
      if (u === o || marked[jn] === 1 || marked[mn] === 1) {
        marked[u] = 1;
        stash[stashed++] = u;
      } else {
        order[write] = u;
        rank[u] = write--;
      }
    }
    const sound = marked[y] === 0;
    for (let i = 0; i < stashed; i++) {
      const u = stash[i]!;
      marked[u] = 0;
      order[write] = u;
      rank[u] = write--;
    }
    return sound;
  }

  fitStart(k: number, ready: number, time: number): number {
    const { awayStart, awayFrom, awayTo } = this.model;
    return earliestStart(awayStart, awayFrom, awayTo, k, ready, time);
  }

  fitTail(k: number, tail: number, time: number, target: number): number {
    const { awayStart, awayFrom, awayTo } = this.model;
    return target - latestEnd(awayStart, awayFrom, awayTo, k, target - tail, time);
  }
}
