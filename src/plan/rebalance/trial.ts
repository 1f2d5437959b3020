/**
 * Tries out who does what in which order: plays it forward, by the same rule and with the same usual lengths as the
 * forecast, and says what it is worth.
 */
import type { PlanInput } from '../model.ts';
import { neededByTimes, ownersOf, type Owners } from '../neededBy.ts';
import { Play, type Lengths } from '../simulate/play.ts';
import { leftAfter, leftMs, NOBODY, shopOf, usualMs, type Shop } from '../simulate/shop.ts';
import { StageTimes } from '../stageTimes.ts';
import { range } from './range.ts';

/** Per worker, pieces in order, by their number in the shop. Only open pieces that nobody is on. */
export type Queues = readonly (readonly number[])[];

/** Lower is better, level by level; ms. */
export type Value = {
  readonly undone: number;
  /** -Infinity: no horse gets ready. */
  readonly lateness: number;
  readonly tardiness: number;
  /** Times a horse goes from one person to another. */
  readonly handovers: number;
  /** Between one horse and the next, over everybody. */
  readonly metres: number;
};

export type TrialOptions = {
  /** Chance that a feet check takes the horse off the lesson. */
  readonly findingRate: number;
  /** Lateness below minus this counts as this: who has time to spare needs no more of it. */
  readonly spareMs: number;
};

export class Trial {
  readonly input: PlanInput;
  readonly shop: Shop;
  readonly play: Play;
  /** The queues in force, without what their owners may not do. */
  readonly queues: Queues;
  readonly options: TrialOptions;
  /** Per piece who is on it, or has more likely than not begun it without a tap; such a piece stays where it is. */
  readonly begunBy: Int32Array;
  readonly #lengths: Lengths;
  readonly #times: StageTimes;
  /** Owners that count for nothing: not cleared. */
  readonly #uncleared: ReadonlyMap<string, string>;
  /** Whose the pieces were when `urgency` was worked out. */
  readonly #urgencyOwner: Int32Array;
  readonly #urgencies = new Map<string, readonly number[]>();
  /** Per piece: the feet-by time in ms after now for feet still to check; NaN: none. */
  readonly #feetBy: Float64Array;
  /** The piece its doer did before, as of the last run. */
  readonly doneBefore: Int32Array;

  /** `input` must be `usable`. */
  constructor(input: PlanInput, options: TrialOptions) {
    this.input = input;
    this.options = options;
    const times = new StageTimes(input);
    const owners = ownersOf(input);
    this.#times = times;
    const needed = new Map(input.works.flatMap((work) => [...neededByTimes(work, input, owners, times)]));
    const shop = shopOf(input, needed, times);
    const { pieceCount, workerCount } = shop;
    this.begunBy = begunIn(shop);
    this.queues = input.workers.map((_, w) => {
      const mine = shop.queue.subarray(shop.queueOf[w], shop.queueOf[w + 1]);
      return [...mine].filter((p) => this.begunBy[p] === NOBODY && shop.cleared[p * workerCount + w] === 1);
    });
    const given = new Set(this.queues.flat());
    this.#uncleared = new Map(
      shop.pieces.flatMap(({ id }, p): [string, string][] => {
        const owner = owners.get(id);
        return owner === undefined || given.has(p) ? [] : [[id, owner]];
      }),
    );
    this.#urgencyOwner = shop.owner.map((w, p) => (given.has(p) ? w : NOBODY));
    // Room for everything in the queues, which `run` writes anew.
    this.shop = {
      ...shop,
      owner: new Int32Array(pieceCount),
      queue: new Int32Array(pieceCount),
      queueOf: new Int32Array(workerCount + 1),
    };
    this.play = new Play(this.shop);
    this.#lengths = {
      whole: (p, w) => usualMs(shop, p, w),
      left: (p) => this.leftOf(p),
      unseenLeft: (p, w) => (this.begunBy[p] === w ? this.leftOf(p) : Infinity),
    };
    this.doneBefore = new Int32Array(pieceCount);
    this.#feetBy = Float64Array.from(shop.pieces, (piece, p) => {
      const feetBy = input.works[shop.workOf[p] ?? -1]?.feetBy ?? null;
      return piece.stage === 'feet' && feetBy !== null && this.begunBy[p] === NOBODY
        ? feetBy - input.now
        : NaN;
    });
  }

  /** What is left of a piece begun, ms from now. */
  leftOf(p: number): number {
    const { shop } = this;
    const w = this.begunBy[p] ?? NOBODY;
    if (shop.onIt[p] !== NOBODY) return leftMs(shop, p, w, 0.5);
    return leftAfter(shop, p, w, shop.unseenFor[w] ?? 0, 0.5);
  }

  /** Plays `queues`; starts and ends stay in `play` until the next run. */
  run(queues: Queues): Value {
    const { shop } = this;
    shop.owner.fill(NOBODY);
    let filled = 0;
    queues.forEach((queue, w) => {
      shop.queueOf[w] = filled;
      for (const p of queue) {
        shop.queue[filled++] = p;
        shop.owner[p] = w;
      }
    });
    shop.queueOf[queues.length] = filled;
    this.#findUrgencies();
    this.play.run(this.#lengths);
    this.#findDoneBefore();
    return this.#value();
  }

  /** What is urgent depends on whose the rest of the horse is. */
  #findUrgencies(): void {
    const { input, shop } = this;
    for (const [j, work] of input.works.entries()) {
      const pieces = range(shop.firstOf[j] ?? 0, shop.firstOf[j + 1] ?? 0);
      if (pieces.every((p) => shop.owner[p] === this.#urgencyOwner[p])) continue;
      const key = `${j}:${pieces.map((p) => shop.owner[p]).join()}`;
      let urgencies = this.#urgencies.get(key);
      if (!urgencies) {
        const needed = neededByTimes(work, input, this.#ownersOf(pieces), this.#times);
        urgencies = pieces.map((p) => (needed.get(shop.pieces[p]?.id ?? '') ?? input.now) - input.now);
        this.#urgencies.set(key, urgencies);
      }
      for (const [i, p] of pieces.entries()) {
        shop.urgency[p] = urgencies[i] ?? 0;
        this.#urgencyOwner[p] = shop.owner[p] ?? NOBODY;
      }
    }
  }

  #ownersOf(pieces: readonly number[]): Owners {
    const { input, shop } = this;
    return new Map(
      pieces.flatMap((p): [string, string][] => {
        const id = shop.pieces[p]?.id ?? '';
        const owner = input.workers[shop.owner[p] ?? NOBODY]?.id ?? this.#uncleared.get(id);
        return owner === undefined ? [] : [[id, owner]];
      }),
    );
  }

  /** Lateness of work `j` in the last run, ms; Infinity: not ready today. NaN: nothing was to do. */
  lateness(j: number): number {
    const { firstOf } = this.shop;
    const last = (firstOf[j + 1] ?? 0) - 1;
    if (last < (firstOf[j] ?? 0)) return NaN;
    return (this.play.end[last] ?? Infinity) - ((this.input.works[j]?.rampTime ?? 0) - this.input.now);
  }

  /** What the feet of piece `p`, checked when the last run checks them, are expected to cost, ms; 0 for other pieces. */
  feetCost(p: number): number {
    const late = (this.play.end[p] ?? Infinity) - (this.#feetBy[p] ?? NaN);
    return late > 0 && late < Infinity ? this.options.findingRate * late : 0;
  }

  #findDoneBefore(): void {
    const { by, start, lead } = this.play;
    const { workerCount, pieceCount } = this.shop;
    const lists: number[][] = Array.from({ length: workerCount }, () => []);
    for (let p = 0; p < pieceCount; p += 1) lists[by[p] ?? NOBODY]?.push(p);
    this.doneBefore.fill(NOBODY);
    const from = (p: number): number => (start[p] ?? 0) - (lead[p] ?? 0);
    for (const list of lists) {
      list.sort((a, b) => from(a) - from(b));
      for (let i = 1; i < list.length; i += 1) this.doneBefore[list[i] ?? 0] = list[i - 1] ?? NOBODY;
    }
  }

  #value(): Value {
    const { input, shop, play } = this;
    let undone = 0;
    let lateness = -Infinity;
    let tardiness = 0;
    let handovers = 0;
    let metres = 0;
    for (let j = 0; j < shop.workCount; j += 1) {
      const late = this.lateness(j);
      if (late === Infinity) undone += 1;
      else if (!Number.isNaN(late)) {
        lateness = Math.max(lateness, late);
        tardiness += Math.max(0, late);
      }
      for (let p = (shop.firstOf[j] ?? 0) + 1; p < (shop.firstOf[j + 1] ?? 0); p += 1) {
        if (play.by[p] !== play.by[p - 1] && play.by[p] !== NOBODY) handovers += 1;
      }
    }
    for (let p = 0; p < shop.pieceCount; p += 1) {
      tardiness += this.feetCost(p);
      const before = this.doneBefore[p] ?? NOBODY;
      if (before === NOBODY) continue;
      const from = input.works[shop.workOf[before] ?? 0]?.metres ?? 0;
      const to = input.works[shop.workOf[p] ?? 0]?.metres ?? 0;
      if (Number.isFinite(from - to)) metres += Math.abs(from - to);
    }
    return { undone, lateness, tardiness, handovers, metres };
  }

  /** Lateness as it counts. */
  counted({ lateness }: Value): number {
    return Math.max(lateness, -this.options.spareMs);
  }

  /** Negative: `a` is better on what a horse or rider would notice. To the second. */
  compareMain(a: Value, b: Value): number {
    return (
      a.undone - b.undone ||
      seconds(this.counted(a)) - seconds(this.counted(b)) ||
      seconds(a.tardiness) - seconds(b.tardiness)
    );
  }

  /** As `compareMain`; among equals, horses that stay with one person, then less walking. */
  compare(a: Value, b: Value): number {
    return this.compareMain(a, b) || a.handovers - b.handovers || a.metres - b.metres;
  }

  /** Whether `b` is better than `a` by enough to trouble anybody with. */
  isWorthwhile(a: Value, b: Value, minGainMs: number): boolean {
    if (a.undone !== b.undone) return b.undone < a.undone;
    const gain = Math.round(this.counted(a) - this.counted(b));
    if (gain >= minGainMs) return true;
    return seconds(gain) >= 0 && Math.round(a.tardiness - b.tardiness) >= minGainMs;
  }
}

/** As the forecast's usual play has it: what is more likely than not is taken for so. */
function begunIn({ onIt, unseen, unseenChance, workOf, firstOf, works }: Shop): Int32Array {
  const begun = onIt.slice();
  for (const [w, p] of unseen.entries()) {
    const j = workOf[p];
    const isNext = j !== undefined && works[j] !== undefined && firstOf[j] === p;
    if (isNext && begun[p] === NOBODY && (unseenChance[w] ?? 0) > 0.5) begun[p] = w;
  }
  return begun;
}

function seconds(ms: number): number {
  return Math.round(ms / 1000);
}
