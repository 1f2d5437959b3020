/** Who prepares which new horse from now: people who are here and cleared, first those it makes least trouble for. */
import { own } from '../../barn/basics.ts';
import { isCleared } from '../../barn/stage.ts';
import type { Board, PlaceRef } from '../../day/board.ts';
import { prepOf } from '../../day/preps.ts';
import { planInput } from '../input.ts';
import type { Piece, PlanInput, Work, Worker } from '../model.ts';
import { neededBy } from '../simpleForecast.ts';
import type { SideEffect, Task } from './model.ts';

export type GivenOut = {
  /** By ramp time, latest first: each is put in front of the queue, so the most urgent comes to stand first. */
  readonly tasks: readonly Task[];
  readonly notGiven: readonly Extract<SideEffect, { code: 'work-not-given' }>[];
};

/**
 * Tasks for the horses now in `places`. `before` is the board without the change: a prep that was there for the same ramp
 * time is left in the hands it is in. Not given out is work nobody could do alone in time, which several may share, and
 * work that can wait for the end of somebody's queue but would make them late in front of it.
 */
export function giveOut(before: Board, board: Board, now: number, places: readonly PlaceRef[]): GivenOut {
  const input = planInput(board, now);
  const settled = new Map(planInput(before, now).works.map((work) => [work.prep, work.rampTime]));
  const works = [...new Set(places.flatMap((ref) => workOf(board, input, ref) ?? []))]
    .filter((work) => work.pieces.length > 0 && settled.get(work.prep) !== work.rampTime)
    .sort((a, b) => a.rampTime - b.rampTime || (a.prep < b.prep ? -1 : 1));
  const hands = input.workers.filter((one) => own(board.day.hands, one.id)?.presence.state === 'here');
  const extra = new Map<string, Work[]>();
  const tasks: Task[] = [];
  const notGiven: GivenOut['notGiven'][number][] = [];

  for (const work of works) {
    const asked = work.pieces.flatMap((piece) => piece.asks);
    const offers = hands
      .filter((worker) => isCleared(worker.clearances, asked))
      .map((worker) => offer(input, worker, work, extra.get(worker.id) ?? []))
      .sort(better);
    const best = offers[0];
    const why = reasonToKeep(offers);
    if (!best || why) {
      notGiven.push({ code: 'work-not-given', horse: work.horse, why: why ?? 'nobodyCleared' });
      continue;
    }
    extra.set(best.worker.id, [...(extra.get(best.worker.id) ?? []), work]);
    const first = own(board.day.preps, work.prep)?.places[0];
    if (!first) continue;
    tasks.push({
      ...first,
      horse: work.horse,
      to: best.worker.id,
      stages: work.pieces.map((piece) => piece.stage),
      rampTime: work.rampTime,
    });
  }
  return { tasks: tasks.toReversed(), notGiven };
}

function reasonToKeep([best, ...others]: readonly Offer[]): GivenOut['notGiven'][number]['why'] | null {
  if (!best) return 'nobodyCleared';
  if (best.late) return 'nobodyInTime';
  return best.delays > 0 && [best, ...others].some((one) => one.canWait) ? 'later' : null;
}

function workOf(board: Board, input: PlanInput, ref: PlaceRef): Work | undefined {
  const prep = prepOf(board.day, ref.lesson, ref.place);
  return input.works.find((work) => work.prep === prep?.id);
}

type Offer = {
  readonly worker: Worker;
  /** Done after the ramp time. */
  readonly late: boolean;
  /** Pieces of their own that would end too late because of it. */
  readonly delays: number;
  /** Everything they have, in ms. */
  readonly load: number;
  /** It would be done in time after everything they have. */
  readonly canWait: boolean;
};

function better(a: Offer, b: Offer): number {
  return (
    Number(a.late) - Number(b.late) ||
    a.delays - b.delays ||
    a.load - b.load ||
    (a.worker.id < b.worker.id ? -1 : 1)
  );
}

function offer(input: PlanInput, worker: Worker, work: Work, extra: readonly Work[]): Offer {
  const needed = new Map(input.works.flatMap((one) => [...neededBy(one)]));
  const pieces = new Map(input.works.flatMap((one) => one.pieces.map((piece) => [piece.id, piece])));
  const added = extra.flatMap((one) => one.pieces);
  const mine = worker.queue
    .flatMap((id) => pieces.get(id) ?? [])
    .filter((piece) => ![...added, ...work.pieces].includes(piece));
  const current = mine.filter((piece) => piece.underWay?.by === worker.id);
  const rest = mine.filter((piece) => !current.includes(piece));
  const without = [...current, ...added, ...rest];
  // Earlier ramp times first: what was given out before goes in front of this.
  const withIt = [...current, ...added, ...work.pieces, ...rest];
  const ends = timed(worker, withIt, input);
  const lateWith = lateOnes(ends, needed, mine);
  const lateWithout = lateOnes(timed(worker, without, input), needed, mine);
  const end = Math.max(...work.pieces.map((piece) => ends.get(piece.id) ?? Infinity));
  const last = timed(worker, [...without, ...work.pieces], input);
  const endLast = Math.max(...work.pieces.map((piece) => last.get(piece.id) ?? Infinity));
  return {
    worker,
    late: end > work.rampTime,
    delays: lateWith - lateWithout,
    load: without.reduce((sum, piece) => sum + piece.lengthMs * worker.pace, 0),
    canWait: endLast <= work.rampTime,
  };
}

function lateOnes(
  ends: ReadonlyMap<string, number>,
  needed: ReadonlyMap<string, number>,
  mine: readonly Piece[],
) {
  return mine.filter((piece) => (ends.get(piece.id) ?? Infinity) > (needed.get(piece.id) ?? Infinity)).length;
}

/**
 * One person's pieces, the first of them that may be begun each time, around their lesson duties. Missing: not done
 * before they go home.
 */
function timed(worker: Worker, pieces: readonly Piece[], input: PlanInput): Map<string, number> {
  const notBefore = new Map(input.works.map((work) => [work.prep, begins(work, input.now)]));
  const from = (piece: Piece): number => notBefore.get(piece.prep) ?? input.now;
  const ends = new Map<string, number>();
  const left = [...pieces];
  let at = Math.max(worker.from, input.now);
  while (left.length > 0) {
    const soonest = Math.min(...left.map(from));
    at = Math.max(at, soonest);
    const next = left.findIndex((piece) => from(piece) <= at);
    const [piece] = left.splice(next, 1);
    if (!piece) return ends;
    const spent = piece.underWay?.by === worker.id ? input.now - piece.underWay.since : 0;
    const length = Math.max(piece.lengthMs * worker.pace - spent, 0);
    const end = freeEnd(worker, at, length);
    if (end === null) continue;
    at = end;
    ends.set(piece.id, at);
  }
  return ends;
}

/** End of the first `length` (ms) from `at` on that no lesson duty cuts into; null: not before they go home. */
export function freeEnd({ busy, until }: Worker, at: number, length: number): number | null {
  let start = at;
  for (const duty of busy) if (start + length > duty.from && start < duty.until) start = duty.until;
  return until !== null && start + length > until ? null : start + length;
}

/** When a horse may be taken up: out of its lesson, and not too early. */
function begins(work: Work, now: number): number {
  return Math.max(now, work.freeFrom ?? now, work.notBefore ?? now);
}
