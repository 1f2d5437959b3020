/** Mane, tail, shoulders and hips: only when the spare allows, and somebody has hands free for it. */
import { asks, isCleared } from '../barn/stage.ts';
import type { Planned } from './floats.ts';
import type { PlanInput, Work, Worker } from './model.ts';

export type Spare = {
  readonly input: PlanInput;
  /** A prep's spare at the barn's certainty, ms. */
  readonly spareMs: (prep: string) => number;
  /** What a person is expected to do, in any order. */
  readonly planOf: (person: string) => readonly Planned[];
  readonly totalFloatMs: (person: string) => number;
};

/**
 * Whether this horse can have its extras now: it stands in its stall with its tack still to come, its spare at the
 * barn's certainty is as long as the extras take, and somebody cleared for its coat is here and free, or on this very
 * horse, who can be away so long without making any horse late or missing a lesson. Each horse by itself: of two that
 * share their only free hands, both say yes until one is taken.
 */
export function extrasFor(work: Work, spare: Spare): boolean {
  const { input, spareMs } = spare;
  const { now, extrasMs } = input;
  const isThere = (work.freeFrom ?? now) <= now && (work.notBefore ?? now) <= now;
  const tackToCome = work.pieces.some((piece) => piece.stage === 'tack' && !piece.underWay);
  if (!isThere || !tackToCome || !(spareMs(work.prep) >= extrasMs)) return false;
  return input.workers.some((worker) => isFreeFor(worker, work, spare));
}

function isFreeFor(worker: Worker, work: Work, { input, spareMs, planOf, totalFloatMs }: Spare): boolean {
  const { now, extrasMs, works } = input;
  const done = now + extrasMs;
  if (worker.from > now || (worker.until !== null && worker.until < done)) return false;
  if (worker.busy.some(({ from, until }) => from < done && until > now)) return false;
  const coat = work.pieces.find((piece) => piece.stage === 'coat')?.asks ?? asks([], 'coat');
  if (!isCleared(worker.clearances, coat)) return false;
  const onOther = works.some(
    (other) => other !== work && other.pieces.some((piece) => piece.underWay?.by === worker.id),
  );
  const onThis = work.pieces.find((piece) => piece.underWay);
  if (onOther || (onThis && onThis.underWay?.by !== worker.id)) return false;
  return (
    totalFloatMs(worker.id) >= extrasMs && planOf(worker.id).every((piece) => spareMs(piece.work) >= extrasMs)
  );
}
