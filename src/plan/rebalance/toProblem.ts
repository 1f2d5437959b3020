/**
 * The barn's work as a flexible job shop: a prep is a job, a piece an operation, a person a machine.
 *
 * Every number is rounded, in whole seconds after now, to the side that makes work easier, and a stage asks for the
 * least moment anybody needs before it. So no way to do the real work is left out, and what the search proves of the
 * problem holds for the barn.
 */
import type { Absence, Job, Operation, OperationRef, Problem } from '../search/problem.ts';
import { NOBODY, usualMs, type Shop } from '../simulate/shop.ts';
import { HOUR_MS, SECOND_MS } from '../../time/units.ts';
import type { Cannot } from './model.ts';
import { range } from './range.ts';
import type { Trial } from './trial.ts';

/** Horses due longer ago or further ahead are no work of today's. */
const TODAY_MS = 24 * HOUR_MS;

/**
 * The search keeps people from all work while they are in a lesson, but they may go on with the very horse they go
 * with. That makes the horse at least `lateMs` late: of plans less late than that, the search's bound holds.
 */
type Exception = { readonly machine: number; readonly duty: Absence; readonly lateMs: number };

export type Planning = {
  readonly problem: Problem;
  /** Piece number of each operation: `pieceOf[job][operation]`. */
  readonly pieceOf: readonly (readonly number[])[];
  readonly cannot: readonly Cannot[];
  /** See `Exception`. */
  readonly exceptions: readonly Exception[];
};

/**
 * Reads the trial's input; needs `trial.run(trial.queues)` to be the last run, whose order counts as the plan in force.
 * What is nobody's has no place in that plan, so giving it to somebody is no change of it.
 */
export function toProblem(trial: Trial): Planning {
  const { input, shop } = trial;
  const cannot: Cannot[] = [];
  const jobs: Job[] = [];
  const pieceOf: number[][] = [];
  const locked = new Set<number>();
  for (const [j, work] of input.works.entries()) {
    const pieces = range(shop.firstOf[j] ?? 0, shop.firstOf[j + 1] ?? 0);
    if (pieces.length === 0) continue;
    const blocked = firstBlocked(trial, j, pieces);
    if (blocked) cannot.push(blocked);
    // A horse that will not be ready keeps what it has, and people only as long as they are on it.
    const able = blocked
      ? pieces.filter((p) => trial.begunBy[p] !== NOBODY && idOf(p) !== blocked.piece)
      : pieces;
    // Somebody may be used to taking horses up later than the barn's rule says; that binds nobody else.
    const takenUp = Math.max(shop.freeAt[j] ?? 0, (work.notBefore ?? input.now) - input.now);
    let release = Math.floor(takenUp / SECOND_MS);
    const operations: Operation[] = [];
    const kept: number[] = [];
    for (const p of able) {
      const on = trial.begunBy[p] ?? NOBODY;
      if (on !== NOBODY && locked.has(on)) {
        // Somebody on two horses at once: this one is done when it is done.
        release = Math.max(release, Math.floor(trial.leftOf(p) / SECOND_MS));
        continue;
      }
      kept.push(p);
      if (on === NOBODY) {
        operations.push(openOperation(trial, p, kept.length === 1 && p === pieces[0]));
      } else {
        locked.add(on);
        const time = wholeSeconds(trial.leftOf(p));
        operations.push({ alternatives: [{ machine: on, time }], underWay: { machine: on, start: 0 } });
      }
    }
    if (kept.length === 0) continue;
    const due = blocked ? TODAY_MS : work.rampTime - input.now;
    jobs.push({
      release,
      due: Math.ceil(due / SECOND_MS),
      weight: 1,
      operations,
      position: Number.isFinite(work.metres) ? work.metres : 0,
    });
    pieceOf.push(kept);
  }
  return {
    problem: {
      machineCount: shop.workerCount,
      absences: input.workers.map((_, w) => absences(trial, w)),
      jobs,
      now: 0,
      current: inForce(trial, pieceOf),
    },
    pieceOf,
    cannot,
    exceptions: exceptionsOf(trial),
  };

  function idOf(p: number): string {
    return shop.pieces[p]?.id ?? '';
  }
}

function openOperation(trial: Trial, p: number, isFirst: boolean): Operation {
  const { input, shop, options } = trial;
  const { sameHorseMs, otherHorseMs } = input.learned;
  const moment = isFirst ? otherHorseMs : Math.min(sameHorseMs, otherHorseMs);
  const alternatives = range(0, shop.workerCount)
    .filter((w) => isAble(trial, p, w))
    .map((w) => ({ machine: w, time: wholeSeconds(usualMs(shop, p, w) + moment) }));
  const feetBy = input.works[shop.workOf[p] ?? -1]?.feetBy ?? null;
  if (shop.pieces[p]?.stage !== 'feet' || feetBy === null) return { alternatives };
  const due = Math.ceil((feetBy - input.now) / SECOND_MS);
  return { alternatives, soft: { due, weight: options.findingRate } };
}

function isAble({ shop }: Trial, p: number, w: number): boolean {
  return shop.cleared[p * shop.workerCount + w] === 1 && usualMs(shop, p, w) < Infinity;
}

function wholeSeconds(ms: number): number {
  // A median of 240 s comes as 239.9999….
  return Math.max(1, Math.floor(ms / SECOND_MS + 1e-6));
}

/** Why this work cannot be done to its end, at the first piece that cannot; null: it can. */
function firstBlocked(trial: Trial, j: number, pieces: readonly number[]): Cannot | null {
  const { input, shop } = trial;
  const work = input.works[j];
  const isFar = !work || Math.abs(work.rampTime - input.now) > TODAY_MS;
  for (const p of pieces) {
    const why = isFar ? 'notToday' : whyNot(trial, p);
    const piece = shop.pieces[p];
    if (why && piece) {
      return { prep: piece.prep, horse: piece.horse, piece: piece.id, stage: piece.stage, why };
    }
  }
  return null;
}

function whyNot(trial: Trial, p: number): Cannot['why'] | null {
  const { shop } = trial;
  const on = trial.begunBy[p] ?? NOBODY;
  if (on !== NOBODY) return trial.leftOf(p) < Infinity ? null : 'badLength';
  if (shop.workerCount === 0) return 'nobodyHere';
  const cleared = range(0, shop.workerCount).filter((w) => shop.cleared[p * shop.workerCount + w] === 1);
  if (cleared.length === 0) return 'nobodyCleared';
  const able = cleared.filter((w) => isAble(trial, p, w));
  if (able.length === 0) return 'badLength';
  return able.some((w) => hasRoom(trial, p, w)) ? null : 'nobodyFree';
}

/** Whether the piece would fit somewhere into this person's day if there were nothing else to do. */
function hasRoom({ shop, input }: Trial, p: number, w: number): boolean {
  const j = shop.workOf[p] ?? 0;
  const needs = usualMs(shop, p, w) + Math.min(input.learned.sameHorseMs, input.learned.otherHorseMs);
  let start = Math.max(shop.from[w] ?? 0, shop.freeAt[j] ?? 0, shop.takeUpAt[j * shop.workerCount + w] ?? 0);
  for (const d of range(shop.dutyOf[w] ?? 0, shop.dutyOf[w + 1] ?? 0)) {
    const until = shop.dutyUntil[d] ?? 0;
    if (shop.dutyHorse[d] === shop.horseOf[j]) continue;
    if (start + needs > (shop.dutyFrom[d] ?? 0) && start < until) start = until;
  }
  return start + needs <= (shop.until[w] ?? Infinity);
}

function absences({ shop }: Trial, w: number): Absence[] {
  const duties = range(shop.dutyOf[w] ?? 0, shop.dutyOf[w + 1] ?? 0).map((d) => dutyAbsence(shop, d));
  const until = shop.until[w] ?? Infinity;
  return [
    { from: -Infinity, to: near(Math.floor((shop.from[w] ?? 0) / SECOND_MS)) },
    ...duties,
    ...(until === Infinity ? [] : [{ from: near(Math.ceil(until / SECOND_MS)), to: Infinity }]),
  ];
}

function dutyAbsence(shop: Shop, d: number): Absence {
  return {
    from: near(Math.ceil((shop.dutyFrom[d] ?? 0) / SECOND_MS)),
    to: near(Math.floor((shop.dutyUntil[d] ?? 0) / SECOND_MS)),
  };
}

/** The problem as if nobody were kept by duties whose exception makes a horse less late than `belowMs`. */
export function withoutDuties({ problem, exceptions }: Planning, belowMs: number): Problem {
  const dropped = exceptions.filter(({ lateMs }) => lateMs < belowMs);
  const absences = problem.absences?.map((list, w) =>
    list.filter(
      (one) =>
        !dropped.some(({ machine, duty }) => machine === w && duty.from === one.from && duty.to === one.to),
    ),
  );
  return { ...problem, absences: absences ?? [] };
}

/** Times days away are as good as never, and the search asks for times that lie together. */
function near(seconds: number): number {
  const day = TODAY_MS / SECOND_MS;
  return seconds > 2 * day ? Infinity : seconds < -2 * day ? -Infinity : seconds;
}

/** Per person, what they were seen to do of their own. */
function inForce({ play, queues }: Trial, pieceOf: readonly (readonly number[])[]): OperationRef[][] {
  const refs = new Map<number, OperationRef>();
  pieceOf.forEach((pieces, job) => pieces.forEach((p, operation) => refs.set(p, { job, operation })));
  return queues.map((queue, w) =>
    queue
      .filter((p) => play.by[p] === w)
      .toSorted((a, b) => (play.start[a] ?? 0) - (play.start[b] ?? 0))
      .flatMap((p) => refs.get(p) ?? []),
  );
}

function exceptionsOf(trial: Trial): Exception[] {
  const { input, shop } = trial;
  return input.works.flatMap((work, j) => {
    const pieces = range(shop.firstOf[j] ?? 0, shop.firstOf[j + 1] ?? 0);
    const movable = pieces.filter((p) => trial.begunBy[p] === NOBODY);
    return range(0, shop.workerCount).flatMap((w) => {
      if (!movable.some((p) => isAble(trial, p, w))) return [];
      return range(shop.dutyOf[w] ?? 0, shop.dutyOf[w + 1] ?? 0).flatMap((d) => {
        const isOver = (shop.dutyUntil[d] ?? 0) <= (shop.freeAt[j] ?? 0);
        if (shop.dutyHorse[d] !== shop.horseOf[j] || isOver) return [];
        const lateMs = (shop.dutyFrom[d] ?? 0) - (work.rampTime - input.now);
        return { machine: w, duty: dutyAbsence(shop, d), lateMs };
      });
    });
  });
}
