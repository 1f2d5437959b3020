/**
 * Which preparations the day's places ask for. Lessons of one horse close together on the same tack share a prep; a
 * change of tack between them is a short prep of its own; after a longer gap the horse is prepared anew.
 */
import { own } from '../barn/basics.ts';
import type { Barn } from '../barn/barn.ts';
import type { Lesson, Place } from '../barn/lesson.ts';
import type { Rules } from '../barn/rules.ts';
import { isAfterStage, STAGES, type AfterStage, type Stage, type WorkStage } from '../barn/stage.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { Day, Mark, PlaceRef, Prep } from './board.ts';
import { stagesOf } from './pieces.ts';

export type Booking = { readonly lesson: Lesson; readonly place: Place };
type Group = Pick<Prep, 'kind' | 'horse' | 'tack'> & { places: PlaceRef[] };

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

/**
 * The day with its preps fitted to its places. A prep that still serves one of its places keeps its id and its marks. What
 * was done on a horse stays with its full preparation: one that lost its places goes on as the horse's next full one, so
 * a horse that is clean stays clean when its rider cancels or it stands in elsewhere. Left over, it stays without places.
 */
export function regroup(day: Day, rules: Rules): Day {
  const preps: Record<string, Prep> = {};
  const groups = groupByHorse(liveBookings(day), rules);
  const free = new Set(Object.keys(day.preps));
  const settled = new Map<Group, Prep>();
  const settle = (fits: (prep: Prep, group: Group) => boolean): void => {
    for (const group of groups) {
      if (settled.has(group)) continue;
      const kept = Object.values(day.preps).find(
        (prep) => free.has(prep.id) && prep.horse === group.horse && fits(prep, group),
      );
      if (!kept) continue;
      free.delete(kept.id);
      settled.set(group, kept);
    }
  };
  settle((prep, group) => prep.kind === group.kind && sharePlace(prep, group));
  // A place that comes back finds what was done for it, before another preparation of the horse goes on as its own.
  settle((prep, group) => prep.kind === group.kind && sharePlace({ places: prep.served ?? [] }, group));
  settle(
    (prep, group) => group.kind === 'full' && prep.kind === 'full' && prep.places.length > 0 && goesOn(prep),
  );
  settle((prep, group) => sharePlace(prep, group) || sharePlace({ places: prep.served ?? [] }, group));
  settle((prep, group) => prep.kind === group.kind && prep.places.length === 0 && goesOn(prep));
  for (const group of groups) {
    const prep = settled.get(group) ?? newPrep(group, [...Object.values(day.preps), ...Object.values(preps)]);
    const { served: _before, ...rest } = prep;
    const fitted = { ...rest, kind: group.kind, places: group.places, tack: group.tack };
    preps[prep.id] = withUntacking(day, fitted);
  }
  for (const id of free) {
    const idle = day.preps[id];
    if (!idle) continue;
    const served = goesOn(idle) ? {} : { served: idle.places };
    preps[id] = idle.places.length === 0 ? idle : { ...idle, ...served, places: [], onIt: null };
  }
  return { ...day, preps };
}

/**
 * With a lesson of this prep still to come when its tack came off, it is tacked again for that one: so for a lesson that came
 * back, or was added, when the horse was already being put away. A pure question of times, so that an undo finds it as it was.
 */
function withUntacking(day: Day, prep: Prep): Prep {
  const last = Math.max(-Infinity, ...lessonsOf(day, prep).map(({ start }) => start));
  const isRight = (mark: Mark): boolean => (mark.early ?? false) === mark.at < last;
  if (prep.marks.untack.every(isRight)) return prep;
  const untack = prep.marks.untack.map((mark): Mark => {
    const { early: _was, ...rest } = mark;
    return isRight(mark) ? mark : mark.at < last ? { ...rest, early: true } : rest;
  });
  return { ...prep, marks: { ...prep.marks, untack } };
}

/** A horse that was untacked after its lessons begins anew. */
function goesOn({ marks }: Prep): boolean {
  return marks.untack.every((mark) => mark.early);
}

function sharePlace(prep: Pick<Prep, 'places'>, group: Group): boolean {
  return prep.places.some((old) =>
    group.places.some((now) => now.lesson === old.lesson && now.place === old.place),
  );
}

function groupByHorse(bookings: readonly Booking[], rules: Rules): Group[] {
  const last = new Map<string, { group: Group; end: number; tack: string | null }>();
  const groups: Group[] = [];
  for (const { lesson, place } of bookings) {
    if (place.horse === null) continue;
    const ref = { lesson: lesson.id, place: place.id };
    const before = last.get(place.horse);
    const close = before && lesson.start - before.end <= rules.sharedPrepGapMinutes * MINUTE_MS;
    let group: Group;
    if (before && close && before.tack === place.tack) {
      group = before.group;
      group.places.push(ref);
    } else {
      group = { kind: close ? 'tackChange' : 'full', horse: place.horse, tack: place.tack, places: [ref] };
      groups.push(group);
    }
    last.set(place.horse, { group, end: lessonEnd(lesson), tack: place.tack });
  }
  return groups;
}

function newPrep(group: Group, others: readonly Prep[]): Prep {
  const taken = new Set(others.map((prep) => prep.id));
  let n = 1;
  while (taken.has(`${group.horse}.${n}`)) n += 1;
  return {
    id: `${group.horse}.${n}`,
    horse: group.horse,
    kind: group.kind,
    places: group.places,
    tack: group.tack,
    marks: { feet: [], coat: [], tack: [], untack: [], cool: [], look: [], away: [] },
    onIt: null,
    ticks: [],
  };
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
