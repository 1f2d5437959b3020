/** By when each stage must end: backwards from the ramp time, at the barn's certainty. */
import { STAGES } from '../barn/stage.ts';
import type { Piece, PlanInput, Work } from './model.ts';
import type { StageTimes } from './stageTimes.ts';
import { wholeInstant } from './usable.ts';

export type Owners = ReadonlyMap<string, string>;

/** Whose queue each piece stands in; of several, the first. */
export function ownersOf(input: PlanInput): Owners {
  const owners = new Map<string, string>();
  for (const worker of input.workers) {
    for (const piece of worker.queue) if (!owners.has(piece)) owners.set(piece, worker.id);
  }
  return owners;
}

/** A prep's pieces in the order they will be worked on: one under way goes on, even out of turn. */
export function inWorkingOrder(work: Work): readonly Piece[] {
  const begun = work.pieces.find((piece) => piece.underWay);
  return begun ? [begun, ...work.pieces.filter((piece) => piece !== begun)] : work.pieces;
}

/**
 * Per piece, the latest end (ms) that leaves what follows on this horse the chance `input.certainty` of being done by
 * the ramp time. What follows is taken together: the quantile of the sum, done by whoever it is given to (nobody: the
 * barn's average), with the usual moment from one stage to the next. The sum of quantiles would ask for much more,
 * since two stages seldom both go badly.
 */
export function neededByTimes(
  work: Work,
  input: PlanInput,
  owners: Owners,
  times: StageTimes,
): Map<string, number> {
  const { certainty, learned } = input;
  const pieces = inWorkingOrder(work);
  return new Map(
    pieces.map((piece, i) => {
      const rest = pieces.slice(i + 1);
      const lengths = rest.map((one) => times.of(one, one.underWay?.by ?? owners.get(one.id) ?? null));
      const known = lengths.filter((one) => one !== null);
      const restMs = times.sumQuantile(known, certainty) + rest.length * learned.sameHorseMs;
      return [piece.id, wholeInstant(work.rampTime - Math.round(restMs))];
    }),
  );
}

/**
 * The latest end of the feet check that leaves time to prepare a stand-in from its feet on, whoever does it and
 * whichever horse it is, at `input.certainty`. Null when the feet are done.
 */
export function feetByTime(work: Work, input: PlanInput, times: StageTimes): number | null {
  if (work.feetBy === null) return null;
  const stages = STAGES.map((stage) => times.ofAnybody(stage));
  const wholeMs = times.sumQuantile(stages, input.certainty);
  const { sameHorseMs, otherHorseMs } = input.learned;
  if (!Number.isFinite(wholeMs)) return work.feetBy;
  const changesMs = otherHorseMs + (STAGES.length - 1) * sameHorseMs;
  return wholeInstant(work.rampTime - Math.round(wholeMs + changesMs));
}
