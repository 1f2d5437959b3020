/**
 * Will every horse be ready, and how sure is that? The work is played forward from now many times with drawn stage
 * times, and once with the usual ones. Same input, same seed: same answer, to the millisecond.
 */
import { isCleared } from '../barn/stage.ts';
import { fitIn, type Preparing } from './after/fitIn.ts';
import { behind, type Given } from './behind.ts';
import { extrasFor } from './extras.ts';
import { floats, type Floats } from './floats.ts';
import { lessonForecast, roundedChance } from './lessonForecast.ts';
import type {
  Forecast,
  HandsForecast,
  Piece,
  PieceForecast,
  PlanInput,
  PrepForecast,
  Unplanned,
  Work,
  Worker,
} from './model.ts';
import { feetByTime, inWorkingOrder, neededByTimes, ownersOf, type Owners } from './neededBy.ts';
import { draw, usualPlay, type Draws } from './simulate/monteCarlo.ts';
import type { Play } from './simulate/play.ts';
import { shopOf, type Shop } from './simulate/shop.ts';
import { quantileOf, StageTimes } from './stageTimes.ts';
import { instantAfter, usable } from './usable.ts';

export type ForecastOptions = {
  /** How often the work is played forward; a chance is then within about 1 / (2 √draws) of what endless draws say. */
  readonly draws?: number;
  /** Another seed, another luck. */
  readonly seed?: number;
};

export const DRAWS = 256;

/** Of `input`; whatever in it cannot be reckoned with is named in `leftOut` or `unplanned`. Never throws. */
export function forecast(input: PlanInput, { draws = DRAWS, seed = 1 }: ForecastOptions = {}): Forecast {
  const known = usable(input);
  const times = new StageTimes(known);
  const owners = ownersOf(known);
  const needed = new Map(known.works.flatMap((work) => [...neededByTimes(work, known, owners, times)]));
  const shop = shopOf(known, needed, times);
  const seen = new Seen(known, shop, owners, needed, draw(shop, draws, seed), usualPlay(shop));
  const preps = known.works.map((work, j) => seen.prep(work, j, times));
  const after = fitIn(known, [...seen.usual, ...preparingOf(known, preps)]);
  return {
    asOf: known.now,
    preps: Object.fromEntries(preps.map((prep) => [prep.prep, prep])),
    after,
    lessons: Object.fromEntries(
      known.lessons.map((one) => [one.id, lessonForecast(one, known, seen.readyDraws)]),
    ),
    hands: Object.fromEntries(known.workers.map((worker, w) => [worker.id, seen.hands(worker, w, after)])),
    leftOut: [...known.leftOut],
  };
}

const NEVER = Float64Array.of(Infinity);

/** What the playings showed, read prep by prep and person by person. */
class Seen {
  readonly #input: PlanInput;
  readonly #shop: Shop;
  readonly #owners: Owners;
  readonly #needed: ReadonlyMap<string, number>;
  readonly #draws: Draws;
  readonly #indexOf: Map<string, number>;
  readonly #plan: ReadonlyMap<string, Given>;
  readonly #floats: Floats;
  readonly readyDraws: Map<string, Float64Array>;
  /** The same, sorted. */
  readonly #sorted: Map<string, Float64Array>;
  readonly #rampTimes: Map<string, number>;
  readonly #planOf: Map<string, Given[]>;

  constructor(
    input: PlanInput,
    shop: Shop,
    owners: Owners,
    needed: ReadonlyMap<string, number>,
    draws: Draws,
    usual: Play,
  ) {
    this.#input = input;
    this.#shop = shop;
    this.#owners = owners;
    this.#needed = needed;
    this.#draws = draws;
    this.#indexOf = new Map(shop.pieces.map((piece, p) => [piece.id, p]));
    this.#plan = planOf(input, shop, owners, needed, usual);
    const workers = new Map(input.workers.map((worker) => [worker.id, worker]));
    this.#floats = floats([...this.#plan.values()], (person) => {
      const worker = workers.get(person);
      return { duties: worker?.busy ?? [], until: worker?.until ?? null };
    });
    this.readyDraws = new Map(input.works.map((work, j) => [work.prep, this.#readyOf(work, j)]));
    this.#sorted = new Map([...this.readyDraws].map(([prep, ready]) => [prep, ready.slice().sort()]));
    this.#rampTimes = new Map(input.works.map((work) => [work.prep, work.rampTime]));
    this.#planOf = new Map(input.workers.map((worker) => [worker.id, []]));
    for (const piece of this.#plan.values()) this.#planOf.get(piece.by)?.push(piece);
    for (const mine of this.#planOf.values()) mine.sort((a, b) => a.start - b.start);
  }

  #readyOf(work: Work, j: number): Float64Array {
    const { count, end } = this.#draws;
    const last = this.#shop.firstOf[j + 1] ?? 0;
    if (work.pieces.length > 0) return end.subarray((last - 1) * count, last * count);
    const at = Math.max(work.markedAt ?? this.#input.now, work.freeFrom ?? -Infinity);
    return new Float64Array(count).fill(at - this.#input.now);
  }

  /** Who is on which horse when, with the moment before it, should everything take its usual time. */
  get usual(): Preparing[] {
    return [...this.#plan.values()].map(({ by, horse, start, end, lead }) => ({
      by,
      horse,
      from: start - lead,
      until: end,
    }));
  }

  prep(work: Work, j: number, times: StageTimes): PrepForecast {
    const { now } = this.#input;
    const sorted = this.#sorted.get(work.prep) ?? NEVER;
    const at = (p: number): number | null => instantAfter(now, quantileOf(sorted, p));
    const ready = at(0.5);
    const dueIn = work.rampTime - now;
    const stuck = ready === null ? this.#stuckPiece(j) : null;
    const float = stuck ? null : this.#floats.ofWork.get(work.prep);
    return {
      prep: work.prep,
      rampTime: Math.round(work.rampTime),
      feetBy: feetByTime(work, this.#input, times),
      ready,
      p10: at(0.1),
      p90: at(0.9),
      chance: roundedChance(sorted.filter((end) => end <= dueIn).length / sorted.length),
      spareMs: ready === null ? null : Math.round(work.rampTime) - ready,
      unplanned: stuck && this.#whyNot(stuck),
      pieces: work.pieces.map((piece) => this.#piece(piece)),
      totalFloatMs: wholeMs(float?.totalMs),
      freeFloatMs: wholeMs(float?.freeMs),
      extras: extrasFor(work, {
        input: this.#input,
        spareMs: (prep) => this.#spareAtCertainty(prep),
        planOf: (person) => this.#planOf.get(person) ?? [],
        totalFloatMs: (person) => this.#floats.ofPerson.get(person)?.totalMs ?? Infinity,
      }),
    };
  }

  /** Ramp time less the time by which it is ready at the barn's certainty, ms. */
  #spareAtCertainty(prep: string): number {
    const { now, certainty } = this.#input;
    const dueIn = (this.#rampTimes.get(prep) ?? Infinity) - now;
    return dueIn - quantileOf(this.#sorted.get(prep) ?? NEVER, certainty);
  }

  #piece(piece: Piece): PieceForecast {
    const { now } = this.#input;
    const p = this.#indexOf.get(piece.id) ?? 0;
    const { count, start, end } = this.#draws;
    const median = (of: Float64Array): number | null =>
      instantAfter(now, quantileOf(of.slice(p * count, (p + 1) * count).sort(), 0.5));
    const ends = median(end);
    const by = ends === null ? null : this.#mostOftenBy(p);
    return {
      id: piece.id,
      stage: piece.stage,
      neededBy: this.#needed.get(piece.id) ?? now,
      by,
      given: by !== null && (by === this.#owners.get(piece.id) || by === piece.underWay?.by),
      start: by === null ? null : median(start),
      end: ends,
    };
  }

  #mostOftenBy(p: number): string | null {
    const { workerCount, workers } = this.#shop;
    const counts = this.#draws.doneBy.subarray(p * workerCount, (p + 1) * workerCount);
    let most = 0;
    for (let w = 1; w < workerCount; w += 1) if ((counts[w] ?? 0) > (counts[most] ?? 0)) most = w;
    return workers[most]?.id ?? null;
  }

  /** The first piece of a work that is not done in most draws. */
  #stuckPiece(j: number): Piece | null {
    const { count, end } = this.#draws;
    for (let p = this.#shop.firstOf[j] ?? 0; p < (this.#shop.firstOf[j + 1] ?? 0); p += 1) {
      const median = quantileOf(end.slice(p * count, (p + 1) * count).sort(), 0.5);
      if (median === Infinity) return this.#shop.pieces[p] ?? null;
    }
    return null;
  }

  #whyNot(piece: Piece): Unplanned {
    const { workers } = this.#input;
    if (workers.length === 0) return 'nobodyHere';
    const cleared = workers.filter((worker) => isCleared(worker.clearances, piece.asks));
    if (cleared.length === 0) return 'nobodyCleared';
    const times = this.#shop.times;
    return cleared.every((worker) => times.of(piece, worker.id) === null) ? 'badLength' : 'nobodyFree';
  }

  hands(worker: Worker, w: number, after: Forecast['after']): HandsForecast {
    const { now } = this.#input;
    const mine = this.#planOf.get(worker.id) ?? [];
    const float = this.#floats.ofPerson.get(worker.id);
    return {
      volunteer: worker.id,
      ...behind(mine, now + (this.#shop.from[w] ?? 0)),
      doneAt: latest(this.#doneAt(worker), givenUntil(after, worker.id)),
      since: null,
      totalFloatMs: wholeMs(float?.totalMs),
      freeFloatMs: wholeMs(float?.freeMs),
    };
  }

  /** Median of when the last piece given to them is done. */
  #doneAt(worker: Worker): number | null {
    const { count, end } = this.#draws;
    const mine = worker.queue.flatMap((id) => {
      const p = this.#indexOf.get(id);
      return p !== undefined && this.#owners.get(id) === worker.id ? [p] : [];
    });
    if (mine.length === 0) return null;
    const last = Float64Array.from({ length: count }, (_, s) =>
      Math.max(...mine.map((p) => end[p * count + s] ?? Infinity)),
    );
    return instantAfter(this.#input.now, quantileOf(last.sort(), 0.5));
  }
}

/** The same as it is told: by medians, and whoever is on it most often. */
function preparingOf({ works }: PlanInput, preps: readonly PrepForecast[]): Preparing[] {
  return preps.flatMap(({ pieces }, j) =>
    pieces.flatMap(({ by, start, end }) =>
      by === null || start === null || end === null
        ? []
        : { by, horse: works[j]?.horse ?? '', from: start, until: end },
    ),
  );
}

/** When the last work after lessons that was given to them is done; null: none is. */
function givenUntil(after: Forecast['after'], person: string): number | null {
  const ends = Object.values(after).flatMap(({ pieces }) =>
    pieces.flatMap(({ by, given, end }) => (given && by === person ? (end ?? []) : [])),
  );
  return ends.length > 0 ? Math.max(...ends) : null;
}

function latest(a: number | null, b: number | null): number | null {
  return a === null || b === null ? (a ?? b) : Math.max(a, b);
}

/** The plan in which everything takes its usual time, in instants. */
function planOf(
  input: PlanInput,
  shop: Shop,
  owners: Owners,
  needed: ReadonlyMap<string, number>,
  usual: Play,
): Map<string, Given> {
  const { now } = input;
  const plan = new Map<string, Given>();
  for (const [j, work] of input.works.entries()) {
    const pieces = inWorkingOrder(work);
    let before: Given | null = null;
    for (const [i, piece] of pieces.entries()) {
      const p = (shop.firstOf[j] ?? 0) + i;
      const by = input.workers[usual.by[p] ?? -1]?.id;
      const end = usual.end[p] ?? Infinity;
      if (by === undefined || end === Infinity) break;
      const planned: Given = {
        id: piece.id,
        work: work.prep,
        horse: work.horse,
        by,
        start: now + Math.round(usual.start[p] ?? 0),
        end: now + Math.round(end),
        lead: Math.round(usual.lead[p] ?? 0),
        neededBy: needed.get(piece.id) ?? work.rampTime,
        rampTime: i === pieces.length - 1 ? work.rampTime : null,
        given: owners.get(piece.id) === by || piece.underWay?.by === by,
        before,
        lesson:
          work.freeAfter !== null && work.freeFrom !== null
            ? { id: work.freeAfter, until: work.freeFrom }
            : null,
      };
      plan.set(piece.id, planned);
      before = planned;
    }
  }
  return plan;
}

function wholeMs(ms: number | undefined): number | null {
  return ms === undefined || !Number.isFinite(ms) ? null : Math.round(ms);
}
