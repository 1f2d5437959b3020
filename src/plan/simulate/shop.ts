/** A planner's input in typed arrays, for playing it forward many times. Times are ms after now. */
import { isCleared } from '../../barn/stage.ts';
import type { Piece, PlanInput, Work, Worker } from '../model.ts';
import { inWorkingOrder } from '../neededBy.ts';
import { MINUTE_MS } from '../../time/units.ts';
import { leftAt, lengthAt, survivalAt, type LogT, type StageTimes } from '../stageTimes.ts';

export const NOBODY = -1;
export const NONE = -1;

/** Walking the aisle with a brush box, metres a second; common practice, no source. */
const METRES_PER_MS = 1.1 / 1000;

export type Shop = {
  readonly works: readonly Work[];
  readonly workers: readonly Worker[];
  /** Pieces work by work, each work's in the order they are worked on. */
  readonly pieces: readonly Piece[];
  readonly pieceCount: number;
  readonly workerCount: number;
  readonly workCount: number;
  readonly workOf: Int32Array;
  /** Pieces of work j: firstOf[j] … firstOf[j + 1] − 1. */
  readonly firstOf: Int32Array;
  readonly owner: Int32Array;
  /** Who is on it now. */
  readonly onIt: Int32Array;
  /** Per worker: the piece of their own they may have begun without a tap; NONE: none. */
  readonly unseen: Int32Array;
  /** How long they would have been on it, ms, and the chance that they are. */
  readonly unseenFor: Float64Array;
  readonly unseenChance: Float64Array;
  /** Chance that somebody expected does not come. */
  readonly noShow: Float64Array;
  /** When the horse can be worked on. */
  readonly freeAt: Float64Array;
  /** When this worker would take the horse up; index work * workerCount + worker. */
  readonly takeUpAt: Float64Array;
  /** Latest good end, smaller is more urgent. */
  readonly urgency: Float64Array;
  readonly cleared: Uint8Array;
  /** Each worker's open pieces in order: queue[queueOf[w]] … */
  readonly queueOf: Int32Array;
  readonly queue: Int32Array;
  readonly from: Float64Array;
  readonly until: Float64Array;
  readonly dutyOf: Int32Array;
  readonly dutyFrom: Float64Array;
  readonly dutyUntil: Float64Array;
  /** Whoever has duty d may work on this horse all the same; as in `horseOf`. */
  readonly dutyHorse: Int32Array;
  /** Help h: `helper` has a part in a lesson that `helpWork` makes a horse ready for, in that stretch. */
  readonly helper: Int32Array;
  readonly helpWork: Int32Array;
  readonly helpFrom: Float64Array;
  readonly helpUntil: Float64Array;
  /** Helps by work: helperOf[j] … ; by worker: helps[helpsOf[w]] … */
  readonly helperOf: Int32Array;
  readonly helpsOf: Int32Array;
  readonly helps: Int32Array;
  /** Horse of each work, numbered; NONE is no horse. */
  readonly horseOf: Int32Array;
  /** From one stage of a horse to its next. */
  readonly sameHorseMs: number;
  /** From work i to work j for one person, ms: change[i * workCount + j]; row workCount: from anywhere. */
  readonly change: Float64Array;
  /** Median length, ms; index piece * workerCount + worker; NaN: not asked for yet, Infinity: unknown. */
  readonly usual: Float64Array;
  readonly lengths: (LogT | null)[];
  readonly times: StageTimes;
  readonly now: number;
};

export function shopOf(input: PlanInput, needed: ReadonlyMap<string, number>, times: StageTimes): Shop {
  const { works, workers, now } = input;
  const pieces = works.flatMap((work) => inWorkingOrder(work));
  const pieceCount = pieces.length;
  const workCount = works.length;
  const workerCount = workers.length;
  const indexOf = new Map(pieces.map((piece, i) => [piece.id, i]));
  const workerAt = new Map(workers.map((worker, w) => [worker.id, w]));
  const horses = new Map<string, number>();
  for (const work of works) if (!horses.has(work.horse)) horses.set(work.horse, horses.size);

  const firstOf = new Int32Array(workCount + 1);
  const workOf = new Int32Array(pieceCount);
  works.forEach((work, j) => {
    const first = firstOf[j]!;
    firstOf[j + 1] = first + work.pieces.length;
    workOf.fill(j, first, first + work.pieces.length);
  });

  const owner = new Int32Array(pieceCount).fill(NOBODY);
  const queues = workers.map((worker, w) =>
    worker.queue.flatMap((id) => {
      const p = indexOf.get(id);
      if (p === undefined || owner[p] !== NOBODY) return [];
      owner[p] = w;
      return [p];
    }),
  );
  const [queueOf, queue] = packed(queues);
  const [dutyOf, duties] = packedDuties(workers);

  const onIt = Int32Array.from(pieces, (piece, p) => {
    const isFirst = p === firstOf[workOf[p]!]!;
    return isFirst && piece.underWay ? (workerAt.get(piece.underWay.by) ?? NOBODY) : NOBODY;
  });
  const cleared = new Uint8Array(pieceCount * workerCount);
  pieces.forEach((piece, p) =>
    workers.forEach((worker, w) => {
      if (isCleared(worker.clearances, piece.asks)) cleared[p * workerCount + w] = 1;
    }),
  );
  const { sameHorseMs, otherHorseMs } = input.learned;
  const shop: Shop = {
    works,
    workers,
    pieces,
    pieceCount,
    workerCount,
    workCount,
    workOf,
    firstOf,
    owner,
    onIt,
    unseen: new Int32Array(workerCount).fill(NONE),
    unseenFor: new Float64Array(workerCount),
    unseenChance: new Float64Array(workerCount),
    noShow: Float64Array.from(workers, (worker) => chanceOfNoShow(worker, input)),
    freeAt: Float64Array.from(works, (work) => Math.max(0, (work.freeFrom ?? now) - now)),
    takeUpAt: takeUps(input),
    urgency: Float64Array.from(pieces, (piece) => (needed.get(piece.id) ?? now) - now),
    cleared,
    queueOf,
    queue,
    from: Float64Array.from(workers, (worker) => Math.max(0, worker.from - now)),
    until: Float64Array.from(workers, (worker) => (worker.until === null ? Infinity : worker.until - now)),
    dutyOf,
    dutyFrom: Float64Array.from(duties, (duty) => duty.from - now),
    dutyUntil: Float64Array.from(duties, (duty) => duty.until - now),
    dutyHorse: Int32Array.from(duties, (duty) =>
      duty.horse === null ? NONE : (horses.get(duty.horse) ?? NONE),
    ),
    horseOf: Int32Array.from(works, (work) => horses.get(work.horse) ?? NONE),
    ...helpsOf(input),
    sameHorseMs,
    change: changes(works, otherHorseMs),
    usual: new Float64Array(pieceCount * workerCount).fill(NaN),
    lengths: Array.from({ length: pieceCount * workerCount }, () => null),
    times,
    now,
  };
  workers.forEach((worker, w) => lookForUnseen(shop, worker, w, input.learned.unseenStart));
  return shop;
}

/** Somebody who is late is about this late, ms; the longer it gets the less likely they come. No source. */
const USUALLY_LATE_MS = 6 * MINUTE_MS;

function chanceOfNoShow({ expectedFrom }: Worker, { now, learned }: PlanInput): number {
  if (expectedFrom === null) return 0;
  const stillLate = Math.exp(-Math.max(0, now - expectedFrom) / USUALLY_LATE_MS);
  return learned.noShow / (learned.noShow + (1 - learned.noShow) * stillLate);
}

/** Somebody who means to tap does so within about this, ms. */
const USUALLY_BEGUN_MS = MINUTE_MS;
/** Chance that an idle person waits for something the board does not know. Own choice, no source. */
const OTHER_REASON = 0.1;

/**
 * Whoever could have begun their next piece some minutes ago and is on nothing has perhaps begun it without a tap: the
 * chance by Bayes' rule, from how often that happens here against how seldom a start takes so long.
 */
function lookForUnseen(shop: Shop, { idleSince }: Worker, w: number, unseenStart: number): void {
  if (idleSince === null) return;
  const { queueOf, queue, workOf, firstOf, works, now, workerCount } = shop;
  for (let i = queueOf[w]!; i < queueOf[w + 1]!; i += 1) {
    const p = queue[i]!;
    const j = workOf[p]!;
    const canDo = shop.cleared[p * workerCount + w]! === 1 && firstOf[j] === p && shop.onIt[p] === NOBODY;
    const { markedAt, freeFrom } = works[j]!;
    const couldBegin =
      Math.max(idleSince, markedAt ?? 0, freeFrom ?? 0, now + shop.takeUpAt[j * workerCount + w]!) +
      shop.sameHorseMs;
    if (!canDo || couldBegin >= now) continue;
    const onItFor = now - couldBegin;
    if (usualMs(shop, p, w) === Infinity) continue;
    const unseen = unseenStart * survivalAt(shop.lengths[p * workerCount + w]!, onItFor);
    const seen =
      (1 - unseenStart) * ((1 - OTHER_REASON) * Math.exp(-onItFor / USUALLY_BEGUN_MS) + OTHER_REASON);
    shop.unseen[w] = p;
    shop.unseenFor[w] = onItFor;
    shop.unseenChance[w] = unseen / (unseen + seen);
    return;
  }
}

/** Not before the barn's time for it, nor before the person's own. */
function takeUps({ works, workers, learned, now }: PlanInput): Float64Array {
  const takeUpAt = new Float64Array(works.length * workers.length);
  works.forEach((work, j) =>
    workers.forEach(({ id }, w) => {
      const habit = Object.hasOwn(learned.takeUpMs, id) ? learned.takeUpMs[id] : undefined;
      const own = habit === undefined ? -Infinity : work.rampTime - habit;
      takeUpAt[j * workers.length + w] = Math.max(work.notBefore ?? -Infinity, own) - now;
    }),
  );
  return takeUpAt;
}

function helpsOf({ works, workers, now }: PlanInput) {
  const all = works.flatMap((work, j) =>
    workers.flatMap(({ busy }, w) =>
      busy
        .filter(({ from, until, horse }) => horse === work.horse && work.rampTime <= from && until > from)
        .map(({ from, until }) => ({ j, w, from: from - now, until: until - now })),
    ),
  );
  const [helperOf] = packed(works.map((_, j) => all.flatMap((help, h) => (help.j === j ? h : []))));
  const [helpsOfWorker, helps] = packed(
    workers.map((_, w) => all.flatMap((help, h) => (help.w === w ? h : []))),
  );
  return {
    helper: Int32Array.from(all, (help) => help.w),
    helpWork: Int32Array.from(all, (help) => help.j),
    helpFrom: Float64Array.from(all, (help) => help.from),
    helpUntil: Float64Array.from(all, (help) => help.until),
    helperOf,
    helpsOf: helpsOfWorker,
    helps,
  };
}

function packed(lists: readonly (readonly number[])[]): [Int32Array, Int32Array] {
  const starts = new Int32Array(lists.length + 1);
  lists.forEach((list, i) => (starts[i + 1] = starts[i]! + list.length));
  return [starts, Int32Array.from(lists.flat())];
}

function packedDuties(workers: readonly Worker[]): [Int32Array, Worker['busy'][number][]] {
  const lists = workers.map(({ busy }) =>
    busy.filter(({ from, until }) => until > from).toSorted((a, b) => a.from - b.from),
  );
  const starts = new Int32Array(lists.length + 1);
  lists.forEach((list, i) => (starts[i + 1] = starts[i]! + list.length));
  return [starts, lists.flat()];
}

function changes(works: readonly Work[], otherHorseMs: number): Float64Array {
  const n = works.length;
  const change = new Float64Array((n + 1) * n).fill(otherHorseMs);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < n; j += 1) {
      const metres = Math.abs(works[i]!.metres - works[j]!.metres);
      change[i * n + j] = otherHorseMs + (Number.isFinite(metres) ? metres / METRES_PER_MS : 0);
    }
  }
  return change;
}

/** Median length of piece `p` by worker `w`, ms; Infinity when there is no number for it. */
export function usualMs(shop: Shop, p: number, w: number): number {
  const pair = p * shop.workerCount + w;
  const known = shop.usual[pair]!;
  if (!Number.isNaN(known)) return known;
  const length = shop.times.of(shop.pieces[p]!, shop.workers[w]!.id);
  shop.lengths[pair] = length;
  return (shop.usual[pair] = length ? lengthAt(length, 0) : Infinity);
}

/** What is left of the piece `w` is on, ms from now, where `u` in (0, 1) says how lucky they are. */
export function leftMs(shop: Shop, p: number, w: number, u: number): number {
  return leftAfter(shop, p, w, onItFor(shop, p), u);
}

/** The same of a piece they have been on for `ms`. */
export function leftAfter(shop: Shop, p: number, w: number, ms: number, u: number): number {
  usualMs(shop, p, w);
  const length = shop.lengths[p * shop.workerCount + w];
  return length ? leftAt(length, ms, u) : Infinity;
}

/** How long the person on piece `p` has been on it, ms. */
export function onItFor(shop: Shop, p: number): number {
  return shop.now - (shop.pieces[p]!.underWay?.since ?? shop.now);
}
