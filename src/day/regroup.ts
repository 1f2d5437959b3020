/**
 * Preps fitted to the day’s places. Lessons of one horse close together on the same tack share a prep; a change of tack between
 * them is a short prep of its own; after a longer gap the horse is prepared anew.
 */
import type { Rules } from '../barn/rules.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { Day, Mark, PlaceRef, Prep } from './board.ts';
import { lessonEnd, lessonsOf, liveBookings, type Booking } from './preps.ts';

type Group = Pick<Prep, 'kind' | 'horse' | 'tack'> & { places: PlaceRef[] };

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
