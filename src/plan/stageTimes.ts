/**
 * How long this person takes for this stage of this horse, as the forecast asks for it: often and fast. What was
 * learned is Student's t on the log of minutes; here it is on the log of milliseconds, with the person's pace in it.
 */
import type { Stage } from '../barn/stage.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { DurationModel } from './durations/learn.ts';
import { predict } from './durations/predict.ts';
import { studentTCdf, studentTQuantile } from './durations/studentT.ts';
import type { Piece, PlanInput } from './model.ts';

/** log(ms) is Student's t. `key` names it among those of one model, for keeping what was computed from it. */
export type LogT = {
  readonly location: number;
  readonly scale: number;
  readonly table: StudentTable;
  readonly key: string;
};

/** No stage is drawn longer or shorter than this; a log-t has no end. */
const LONGEST_MS = 240 * MINUTE_MS;
const SHORTEST_MS = MINUTE_MS / 12;

/**
 * A stage that has run longer than 98 in 100 do was more likely finished without a tap than still going on: from there
 * on the time it is given still grows no further. Common practice, no source.
 */
const LEAST_SURVIVAL = 0.02;

/** Spread of the log where only the barn's length is known, and its degrees of freedom; as in the prior. */
const FALLBACK_SCALE = 0.58;
const FALLBACK_DF = 6;

type Kept = { readonly predictions: Map<string, LogT>; readonly sums: Map<string, number> };
const keptOf = new WeakMap<DurationModel, Kept>();

export class StageTimes {
  readonly #input: PlanInput;
  readonly #kept: Kept;
  readonly #paces: Map<string, number>;

  constructor(input: PlanInput) {
    this.#input = input;
    const { durations, paces } = input.learned;
    let kept = keptOf.get(durations);
    if (!kept) {
      kept = { predictions: new Map(), sums: new Map() };
      keptOf.set(durations, kept);
    }
    this.#kept = kept;
    this.#paces = new Map(
      input.workers.map(({ id, pace }) => [id, Object.hasOwn(paces, id) ? (paces[id] ?? pace) : pace]),
    );
  }

  /** Null person: nobody in particular. Null answer: there is no number for it. */
  of(piece: Piece, person: string | null): LogT | null {
    const known = this.#predicted(piece.stage, piece.horse, person);
    if (known) return known;
    const { lengthMs } = piece;
    if (!(lengthMs > 0 && lengthMs <= LONGEST_MS)) return null;
    const location = Math.log(lengthMs) + Math.log(this.#paceOf(person));
    return logT(location, FALLBACK_SCALE, FALLBACK_DF, `${lengthMs}/${this.#paceOf(person)}`);
  }

  /** A horse and a person nobody has named yet. Null as in `of`. */
  ofAnybody(stage: Stage): LogT | null {
    return this.#predicted(stage, null, null);
  }

  /** The time within which these stages, one after the other, are done with chance `p`; ms. NaN when one is unknown. */
  sumQuantile(stages: readonly (LogT | null)[], p: number): number {
    if (stages.length === 0) return 0;
    const known = stages.flatMap((stage) => stage ?? []);
    if (known.length < stages.length) return NaN;
    const key = `${p} ${known.map((stage) => stage.key).join(' ')}`;
    let sum = this.#kept.sums.get(key);
    if (sum === undefined) {
      sum = sumQuantile(known, p);
      this.#kept.sums.set(key, sum);
    }
    return sum;
  }

  #paceOf(person: string | null): number {
    return person === null ? 1 : (this.#paces.get(person) ?? 1);
  }

  #predicted(stage: Stage, horse: string | null, person: string | null): LogT | null {
    const pace = this.#paceOf(person);
    const key = `${stage}/${horse ?? ''}/${person ?? ''}/${pace}`;
    let found = this.#kept.predictions.get(key);
    if (!found) {
      const { location, scale, df } = predict(this.#input.learned.durations, { stage, horse, person });
      const made = logT(location + Math.log(MINUTE_MS) + Math.log(pace), scale, df, key);
      if (!made) return null;
      found = made;
      this.#kept.predictions.set(key, found);
    }
    return found;
  }
}

function logT(location: number, scale: number, df: number, key: string): LogT | null {
  if (!Number.isFinite(location) || !(scale >= 0) || !Number.isFinite(scale) || !(df >= 1)) return null;
  return { location, scale, table: tableFor(df), key };
}

/** The length at Student's t value `t`, ms. */
export function lengthAt({ location, scale }: LogT, t: number): number {
  return Math.min(LONGEST_MS, Math.max(SHORTEST_MS, Math.exp(location + scale * t)));
}

/** Chance that the stage takes longer than this. */
export function survivalAt({ location, scale, table }: LogT, ms: number): number {
  if (!(ms > 0)) return 1;
  const over = Math.log(ms) - location;
  return studentTCdf(scale > 0 ? -over / scale : -over * Infinity, table.df);
}

/**
 * What is left, ms, of a stage that has gone on for `elapsedMs`, where `u` in (0, 1) says how lucky: the distribution
 * cut off below the time already spent.
 */
export function leftAt(stage: LogT, elapsedMs: number, u: number): number {
  if (!(elapsedMs > 0)) return lengthAt(stage, stage.table.at(u));
  const survival = survivalAt(stage, elapsedMs);
  const lasted = survival >= LEAST_SURVIVAL;
  const spent = lasted
    ? elapsedMs
    : Math.exp(stage.location + stage.scale * stage.table.at(1 - LEAST_SURVIVAL));
  const total = lengthAt(stage, stage.table.at(1 - Math.max(survival, LEAST_SURVIVAL) * (1 - u)));
  return Math.max(SHORTEST_MS, total - spent);
}

/** Equally likely points a distribution is cut into. */
const POINTS = 48;

/**
 * Quantile of a sum of independent stages: each is cut into points of equal probability, every point of one is added
 * to every point of the next, and the sums are cut into points again. It needs no moments, which a log-t does not have
 * (so no Fenton–Wilkinson matching), has no noise from draws, and answers alike for alike horses.
 */
export function sumQuantile(stages: readonly LogT[], p: number): number {
  const [first, ...others] = stages.map(pointsOf);
  if (!first) return 0;
  const [last, ...between] = others.toReversed();
  if (!last) return quantileOf(first, p);
  const before = between.reduceRight((sum, points) => everyNth(sumsOf(sum, points)), first);
  return quantileOf(sumsOf(before, last), p);
}

function pointsOf(stage: LogT): Float64Array {
  return Float64Array.from({ length: POINTS }, (_, i) => lengthAt(stage, stage.table.at((i + 0.5) / POINTS)));
}

function sumsOf(a: Float64Array, b: Float64Array): Float64Array {
  const sums = new Float64Array(a.length * b.length);
  let n = 0;
  for (const x of a) for (const y of b) sums[n++] = x + y;
  return sums.sort();
}

/** `POINTS` points from sorted sums: the mean of each stretch. */
function everyNth(sorted: Float64Array): Float64Array {
  const stretch = sorted.length / POINTS;
  return Float64Array.from(
    { length: POINTS },
    (_, i) => sorted.subarray(i * stretch, (i + 1) * stretch).reduce((sum, x) => sum + x, 0) / stretch,
  );
}

/** Quantile of sorted, equally likely values, between them by straight lines (Hyndman and Fan 1996, definition 5). */
export function quantileOf(sorted: Float64Array, p: number): number {
  const n = sorted.length;
  const h = Math.min(n - 1, Math.max(0, n * p - 0.5));
  const low = sorted[Math.floor(h)] ?? NaN;
  const high = sorted[Math.ceil(h)] ?? NaN;
  // An end that never comes stays so.
  return low === high ? low : high === Infinity ? high : low + (h - Math.floor(h)) * (high - low);
}

const GRID = 256;
const FURTHEST_LOGIT = 16;

/** Quantiles of Student's t by a table over the log odds; within 0.1 % of the exact from odds of 1 to 1e6 on. */
export class StudentTable {
  readonly df: number;
  readonly #t: Float64Array;

  constructor(df: number) {
    this.df = df;
    this.#t = Float64Array.from({ length: GRID + 1 }, (_, i) => {
      const logit = ((i / GRID) * 2 - 1) * FURTHEST_LOGIT;
      // The smaller tail, so that no digits are lost near 1.
      const tail = 1 / (1 + Math.exp(Math.abs(logit)));
      return Math.sign(logit) * Math.abs(studentTQuantile(tail, df));
    });
  }

  /** The t with P(T <= t) = u, for u in (0, 1). */
  at(u: number): number {
    const logit = Math.log(u / (1 - u));
    const x = ((Math.max(-FURTHEST_LOGIT, Math.min(FURTHEST_LOGIT, logit)) / FURTHEST_LOGIT + 1) / 2) * GRID;
    const i = Math.min(GRID - 1, Math.floor(x));
    const low = this.#t[i] ?? 0;
    return low + (x - i) * ((this.#t[i + 1] ?? low) - low);
  }
}

const tables = new Map<number, StudentTable>();

/** Tables are kept by degrees of freedom rounded to 1 %; a model has three. */
function tableFor(df: number): StudentTable {
  const rounded = Math.exp(Math.round(Math.log(Math.min(df, 10_000)) * 100) / 100);
  let table = tables.get(rounded);
  if (!table) {
    table = new StudentTable(rounded);
    tables.set(rounded, table);
  }
  return table;
}
