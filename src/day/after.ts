/**
 * The work after a horse's last lesson: which prep it belongs to, what of it is open, and what stands about until it is
 * done. A horse that goes on to another lesson on other tack is turned around instead; one that is tacked and not needed any
 * more, or pulled, is untacked like any other.
 */
import { own } from '../barn/basics.ts';
import type { AfterStage } from '../barn/stage.ts';
import { STAGES, WORK_STAGES } from '../barn/stage.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { Rules } from '../barn/rules.ts';
import type { Board, Day, Prep } from './board.ts';
import { isFinished, isOver, isPulled, lessonsOf, outAt, rampTime } from './preps.ts';

/** What is done with this horse after its lessons, in the barn's order; one that was never tacked is only put away. */
export function afterStagesOf(prep: Prep, { afterStages }: Rules): readonly AfterStage[] {
  return prep.marks.tack.length > 0 ? afterStages : afterStages.slice(-1);
}

/** What of it is still to do. */
export function openAfter(prep: Prep, rules: Rules): AfterStage[] {
  return afterStagesOf(prep, rules).filter((stage) => !isFinished(prep, stage));
}

/** Whether anything of the work after the lessons was done, or is being done. */
function hasBegun(prep: Prep, rules: Rules): boolean {
  return rules.afterStages.some((stage) => isFinished(prep, stage) || prep.onIt?.stage === stage);
}

/**
 * The prep after which this horse is to be put away, at `now` (ms), whether or not that is done; null: there is none, or the
 * horse has been taken up for its next lesson since.
 */
export function afterPrep(board: Board, horse: string, now: number): Prep | null {
  const { barn, day } = board;
  const preps = Object.values(day.preps).filter((prep) => prep.horse === horse);
  const through = preps
    .filter((prep) => firstTouch(prep) !== null && isThrough(board, prep, now))
    .sort((a, b) => leftAt(day, b, now) - leftAt(day, a, now))[0];
  if (!through) return null;
  const next = preps
    .filter((prep) => prep !== through && prep.places.length > 0 && !isOver(day, prep, now))
    .sort((a, b) => (rampTime(day, a, barn.rules) ?? 0) - (rampTime(day, b, barn.rules) ?? 0))[0];
  if (!next || isPulled(barn, horse) || hasBegun(through, barn.rules))
    return isTakenUp(next) ? null : through;
  return next.kind === 'tackChange' || isTakenUp(next) ? null : through;
}

/** Its lessons are over, or there are none any more, or the horse was pulled with the tack on. */
function isThrough({ barn, day }: Board, prep: Prep, now: number): boolean {
  return prep.places.length === 0 || isOver(day, prep, now) || isPulled(barn, prep.horse);
}

function isTakenUp(prep: Prep | undefined): boolean {
  return (
    prep !== undefined && (prep.onIt !== null || WORK_STAGES.some((stage) => prep.marks[stage].length > 0))
  );
}

/**
 * Since when this prep's horse is to be put away (ms): its last lesson let it go, it was pulled, or, without a lesson any
 * more, the last was done on it.
 */
export function throughSince({ barn, day }: Board, prep: Prep, now: number): number {
  const hold = own(barn.horses, prep.horse)?.holds[0];
  if (hold && !isOver(day, prep, now)) return hold.since;
  if (prep.places.length > 0) return leftAt(day, prep, now);
  return Math.max(
    firstTouch(prep) ?? -Infinity,
    ...STAGES.flatMap((stage) => prep.marks[stage].map(({ at }) => at)),
  );
}

/** By when the barn asks for each stage after this prep's lessons (ms); for none later than for one that follows it. */
export function afterDue(board: Board, prep: Prep, now: number): Readonly<Record<AfterStage, number>> {
  const { afterStages, afterWithinMinutes } = board.barn.rules;
  const since = throughSince(board, prep, now);
  const asked = (stage: AfterStage): number => since + afterWithinMinutes[stage] * MINUTE_MS;
  const due = (stage: AfterStage): number => {
    const at = afterStages.indexOf(stage);
    return Math.min(asked(stage), ...(at < 0 ? [] : afterStages.slice(at).map(asked)));
  };
  return { untack: due('untack'), cool: due('cool'), look: due('look'), away: due('away') };
}

/** When the last lesson let it go, or, without one, when it was taken up. */
function leftAt(day: Day, prep: Prep, now: number): number {
  const ends = lessonsOf(day, prep).map((lesson) => outAt(day, lesson, now));
  return ends.length > 0 ? Math.max(...ends) : (firstTouch(prep) ?? -Infinity);
}

/** Something taken out for a horse and not put back. */
export type StillOut = {
  readonly horse: string;
  readonly prep: string;
  readonly what: 'box' | 'halter' | 'tack';
  /** Of tack: the item; of the others null. */
  readonly item: string | null;
  /** Since when, ms. */
  readonly since: number;
};

/**
 * What stands about at `now` (ms): each horse's own grooming box from its first stage until it is put away; its halter on
 * the cross-tie while it is tacked; the tack of its list from tacking until it is put away.
 */
export function stillOut(board: Board): StillOut[] {
  const { barn, day } = board;
  const latest = new Map<string, Prep>();
  for (const prep of Object.values(day.preps)) {
    const before = latest.get(prep.horse);
    if (firstTouch(prep) !== null && (!before || (firstTouch(before) ?? 0) <= (firstTouch(prep) ?? 0))) {
      latest.set(prep.horse, prep);
    }
  }
  return [...latest.values()].flatMap((prep): StillOut[] => {
    const [since, horse] = [firstTouch(prep), own(barn.horses, prep.horse)];
    const lastStage = barn.rules.afterStages.at(-1);
    if (since === null || !horse || (lastStage && isFinished(prep, lastStage))) return [];
    const tacked = prep.marks.tack.at(-1) ?? null;
    const list = tacked && horse.tackLists.find((one) => one.id === tacked.tack);
    const out = { horse: horse.id, prep: prep.id };
    return [
      { ...out, what: 'box', item: null, since },
      ...(tacked && !isFinished(prep, 'untack')
        ? [{ ...out, what: 'halter', item: null, since: tacked.at } as const]
        : []),
      ...(tacked
        ? (list?.items ?? []).map((item): StillOut => ({ ...out, what: 'tack', item, since: tacked.at }))
        : []),
    ];
  });
}

/** When the horse was first taken up for this prep; null: it was not. */
function firstTouch(prep: Prep): number | null {
  const times = [
    ...WORK_STAGES.flatMap((stage) => prep.marks[stage].map((mark) => mark.at)),
    ...(prep.onIt ? [prep.onIt.since] : []),
  ];
  return times.length > 0 ? Math.min(...times) : null;
}
