/**
 * Preparations and the lessons they serve: when a horse must be at the ramp, when a lesson lets it go, how far a prep has come.
 * Which preps there are is worked out in `regroup.ts`.
 */
import { own } from '../barn/basics.ts';
import type { Barn } from '../barn/barn.ts';
import type { Lesson, Place } from '../barn/lesson.ts';
import type { Rules } from '../barn/rules.ts';
import { isAfterStage, STAGES, type AfterStage, type Stage, type WorkStage } from '../barn/stage.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { Day, Mark, Prep } from './board.ts';
import { stagesOf } from './pieces.ts';

export type Booking = { readonly lesson: Lesson; readonly place: Place };

/** Places that will be ridden, by lesson start, then lesson and place id. */
export function liveBookings(day: Day): Booking[] {
  return Object.values(day.lessons)
    .filter((lesson) => !lesson.cancelled)
    .flatMap((lesson) => lesson.places.filter((p) => !p.cancelled).map((place) => ({ lesson, place })))
    .sort(
      (a, b) =>
        a.lesson.start - b.lesson.start || order(a.lesson.id, b.lesson.id) || order(a.place.id, b.place.id),
    );
}

/** When the lesson is over. */
export function lessonEnd(lesson: Lesson): number {
  return lesson.start + lesson.minutes * MINUTE_MS;
}

/** A lesson with riders up is over this long after its end at the latest: then nobody tapped that they are down. */
const LONGEST_OVERRUN_MS = 15 * MINUTE_MS;

/** Whether riders are up by what was tapped; null: nothing was. The last tap counts. */
export function areUp(day: Day, lesson: string): boolean | null {
  const ride = own(day.rides, lesson);
  const [up, down] = [ride?.mounted.at(-1)?.at ?? -Infinity, ride?.down.at(-1)?.at ?? -Infinity];
  return up === -Infinity && down === -Infinity ? null : up > down;
}

/**
 * When the lesson lets its people and horses go, as far as can be said at `now` (ms): riders are down, or its end. With
 * riders still up after that, any moment now.
 */
export function outAt(day: Day, lesson: Lesson, now: number): number {
  const end = lessonEnd(lesson);
  switch (areUp(day, lesson.id)) {
    case null:
      return end;
    case false:
      return own(day.rides, lesson.id)?.down.at(-1)?.at ?? end;
    case true:
      return now < end ? end : Math.min(now + MINUTE_MS, end + LONGEST_OVERRUN_MS);
  }
}

/** A rider is on a horse at `now` (ms): by what was tapped, or else by the lesson's time. */
export function isRidden(day: Day, lesson: Lesson, now: number): boolean {
  if (lesson.cancelled) return false;
  const up = areUp(day, lesson.id);
  return up === true
    ? now < outAt(day, lesson, now)
    : up === null && lesson.start <= now && now < lessonEnd(lesson);
}

/** The lessons a prep serves, by start. */
export function lessonsOf(day: Day, prep: Prep): Lesson[] {
  return prep.places.flatMap((ref) => own(day.lessons, ref.lesson) ?? []);
}

/**
 * When the horse must stand at the mounting ramp, in ms: the first lesson's start less the barn's warm-up and mounting
 * time. A horse straight from a lesson is warm, so a change of tack leaves out the warm-up. Null: no longer needed.
 */
export function rampTime(day: Day, prep: Prep, rules: Rules): number | null {
  const first = lessonsOf(day, prep)[0];
  if (!first) return null;
  const lead = prep.kind === 'full' ? rules.warmUpMinutes + rules.mountingMinutes : rules.mountingMinutes;
  return first.start - lead * MINUTE_MS;
}

/** The lessons among `bookings` that this horse is in and that start before `start` (ms), in the bookings' order. */
export function lessonsBefore(bookings: readonly Booking[], horse: string, start: number): Lesson[] {
  return bookings.flatMap(({ lesson, place }) =>
    place.horse === horse && lesson.start < start ? lesson : [],
  );
}

/** From when on the horse is out of its lesson before, in ms; null when it has none before this prep. */
export function horseFreeFrom(day: Day, prep: Prep): number | null {
  const first = lessonsOf(day, prep)[0];
  if (!first) return null;
  const ends = lessonsBefore(liveBookings(day), prep.horse, first.start).map(lessonEnd);
  return ends.length > 0 ? Math.max(...ends) : null;
}

/** When a horse must stand at the ramp for this place, in ms; without a horse: as one that comes from its stall. */
export function placeRamp(day: Day, lesson: Lesson, place: Place, rules: Rules): number {
  const prep = prepOf(day, lesson.id, place.id);
  const first = prep?.places[0];
  const own = first?.lesson === lesson.id && first.place === place.id;
  const fresh = (rules.warmUpMinutes + rules.mountingMinutes) * MINUTE_MS;
  if (prep && !own) return lesson.start - rules.mountingMinutes * MINUTE_MS;
  return (prep && rampTime(day, prep, rules)) ?? lesson.start - fresh;
}

/** The prep that brings a place's horse; null: it has none. */
export function prepOf(day: Day, lesson: string, place: string): Prep | null {
  const serves = (prep: Prep): boolean =>
    prep.places.some((ref) => ref.lesson === lesson && ref.place === place);
  return Object.values(day.preps).find(serves) ?? null;
}

/** The mark that counts for a stage; undefined while it is open. */
export function markOf(prep: Prep, stage: WorkStage): Mark | undefined {
  if (isAfterStage(stage)) return afterMarkOf(prep, stage);
  if (stage !== 'tack') return prep.marks[stage][0];
  const early = prep.marks.untack.filter((mark) => mark.early);
  return prep.marks.tack.find((mark) => mark.tack === prep.tack && !early.some((off) => off.at >= mark.at));
}

/** What was done after the last time it was tacked. */
function afterMarkOf(prep: Prep, stage: AfterStage): Mark | undefined {
  const tackedAt = Math.max(-Infinity, ...prep.marks.tack.map((mark) => mark.at));
  return prep.marks[stage].find((mark) => mark.at >= tackedAt);
}

export function isFinished(prep: Prep, stage: WorkStage): boolean {
  return markOf(prep, stage) !== undefined;
}

/** The first stage still to do; null when the horse is tacked. */
export function nextStage(prep: Prep): Stage | null {
  return stagesOf(prep).find((stage) => !isFinished(prep, stage)) ?? null;
}

/**
 * How far a prep has come: the last stage before the first one open. A coat done before the feet does not count until
 * the feet are checked.
 */
export type PrepStatus = 'notStarted' | 'feetChecked' | 'coatReady' | 'tacked';

export function prepStatus(prep: Prep): PrepStatus {
  const next = nextStage(prep);
  if (next === null) return 'tacked';
  if (prep.kind === 'tackChange') return 'notStarted';
  const status: Record<Stage, PrepStatus> = { feet: 'notStarted', coat: 'feetChecked', tack: 'coatReady' };
  return status[next];
}

/** Off work: a hold stands against the horse. */
export function isPulled(barn: Barn, horse: string): boolean {
  return (own(barn.horses, horse)?.holds.length ?? 0) > 0;
}

/** Whether work on this prep counts now: it serves a place and its horse may work. */
export function isWanted(barn: Barn, prep: Prep): boolean {
  return prep.places.length > 0 && !isPulled(barn, prep.horse);
}

/** A prep is over when the last lesson it serves is, at `now` in ms. */
export function isOver(day: Day, prep: Prep, now: number): boolean {
  return lessonsOf(day, prep).every((lesson) => outAt(day, lesson, now) <= now);
}

/** Stages still to do, in order; none when the prep is not wanted. */
export function openStages(barn: Barn, prep: Prep): readonly Stage[] {
  return isWanted(barn, prep) ? STAGES.filter((s) => stagesOf(prep).includes(s) && !isFinished(prep, s)) : [];
}

function order(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
