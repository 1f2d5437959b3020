/** Who leads and who walks beside: what each ride asks for, who may, and when that keeps them from other work. */
import { own, put } from '../barn/basics.ts';
import type { Barn } from '../barn/barn.ts';
import type { Lesson, Place } from '../barn/lesson.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { Board, Day } from './board.ts';
import type { OpFact, Reason } from './ops.ts';
import { isRidden, lessonEnd, liveBookings, outAt, placeRamp } from './preps.ts';
import { regrouped } from './steps.ts';

export type RoleName = 'leader' | 'sideWalker';
export type RolesChanged = Extract<OpFact, { kind: 'rolesChanged' }>;
type Change = RolesChanged['changes'][number];

/** What a person must be cleared for. */
export const ROLE_ASKS = { leader: 'lead', sideWalker: 'side-walk' } as const;

/** How many people a ride asks for. */
export function wantedOf(place: Place): { readonly leader: boolean; readonly sideWalkers: number } {
  return place.wanted ?? { leader: true, sideWalkers: place.sideWalkers.length };
}

/** Everybody who goes along with this place. */
export function peopleOf(place: Place): string[] {
  return [...(place.leader === null ? [] : [place.leader]), ...place.sideWalkers];
}

/** One person's part in one lesson. */
export type RoleDuty = {
  readonly volunteer: string;
  readonly role: RoleName;
  readonly lesson: Lesson;
  readonly place: Place;
  /** Not free for other work from here, ms: the horse's ramp time less the barn's lead. */
  readonly from: number;
  /** Until the lesson lets them go, as far as can be said at `now`. */
  readonly until: number;
};

/** All parts in today's lessons, by lesson start. `now` in ms; null: by the lessons' times and what was tapped. */
export function dutiesOn({ barn, day }: { barn: Barn; day: Day }, now: number | null): RoleDuty[] {
  return liveBookings(day).flatMap(({ lesson, place }) => {
    const people = peopleOf(place);
    if (people.length === 0) return [];
    const from = placeRamp(day, lesson, place, barn.rules) - barn.rules.leadMinutes * MINUTE_MS;
    const until = outAt(day, lesson, now ?? -Infinity);
    return people.map((volunteer): RoleDuty => {
      const role = volunteer === place.leader ? 'leader' : 'sideWalker';
      return { volunteer, role, lesson, place, from, until };
    });
  });
}

export function changeRoles(board: Board, fact: RolesChanged): Board {
  const lessons = fact.changes.reduce(changed, board.day.lessons);
  return lessons === board.day.lessons ? board : regrouped({ ...board, day: { ...board.day, lessons } });
}

function changed(lessons: Record<string, Lesson>, change: Change): Record<string, Lesson> {
  const lesson = own(lessons, change.lesson);
  const places = lesson?.places.map((place) => (place.id === change.place ? withRole(place, change) : place));
  if (!lesson || !places?.some((place, i) => place !== lesson.places[i])) return lessons;
  return put(lessons, lesson.id, { ...lesson, places });
}

function withRole(place: Place, { role, out, in: comes }: Change): Place {
  if (role === 'leader') return place.leader === comes ? place : { ...place, leader: comes };
  const stays = place.sideWalkers.filter((one) => one !== out && one !== comes);
  const at = out === null ? -1 : place.sideWalkers.indexOf(out);
  const index = at < 0 ? stays.length : at;
  const next = comes === null ? stays : stays.toSpliced(index, 0, comes).slice(0, 2);
  const same =
    next.length === place.sideWalkers.length && next.every((one, i) => one === place.sideWalkers[i]);
  return same ? place : { ...place, sideWalkers: next };
}

/** Tapped at `at` (ms). All changes are judged together: two leaders may swap. */
export function rolesObjection({ barn, day }: Board, fact: RolesChanged, at: number): Reason | null {
  for (const change of fact.changes) {
    const lesson = own(day.lessons, change.lesson);
    if (!lesson) return { code: 'unknownLesson' };
    const place = lesson.places.find((one) => one.id === change.place);
    if (!place) return { code: 'unknownPlace' };
    const why =
      personObjection(barn, change) ??
      (change.role === 'leader' ? leaderObjection(day, lesson, place, change.in, at) : null);
    if (why) return why;
    const isFull = withRole({ ...place }, change).sideWalkers.length < place.sideWalkers.length;
    const sides = place.sideWalkers.filter((one) => one !== change.out && one !== change.in);
    if (change.role === 'sideWalker' && change.in !== null && sides.length > 1 && !isFull) {
      return { code: 'roleFull', lesson: lesson.id };
    }
  }
  const then = { ...day, lessons: fact.changes.reduce(changed, day.lessons) };
  const coming = new Set(fact.changes.flatMap((change) => change.in ?? []));
  return [...coming].map((person) => twice(then, person)).find((why) => why !== null) ?? null;
}

function personObjection(barn: Barn, { role, in: comes }: Change): Reason | null {
  if (comes === null) return null;
  const volunteer = own(barn.volunteers, comes);
  if (!volunteer) return { code: 'unknownPerson' };
  const clearance = ROLE_ASKS[role];
  if (!volunteer.clearances.includes(clearance))
    return { code: 'notClearedFor', volunteer: comes, clearance };
  const may = role === 'leader' ? barn.rules.minorsMayLead : barn.rules.minorsMaySideWalk;
  return volunteer.private?.minor && !may ? { code: 'tooYoung', volunteer: comes } : null;
}

/**
 * A leader stays with the horse while a rider is on it. Sources: Univ. of New Hampshire, Hints for Volunteers; High Hopes,
 * Horse Handler Manual 2020.
 */
export function leaderObjection(
  day: Day,
  lesson: Lesson,
  place: Place,
  leader: string | null,
  at: number,
): Reason | null {
  const moves = place.leader !== null && place.leader !== leader;
  return moves && !place.cancelled && isRidden(day, lesson, at)
    ? { code: 'ridersUp', lesson: lesson.id }
    : null;
}

/** In two places at once: of one lesson, or of two whose times overlap. */
function twice(day: Day, volunteer: string): Reason | null {
  const parts = liveBookings(day).filter(({ place }) => peopleOf(place).includes(volunteer));
  for (const [i, a] of parts.entries()) {
    if (a.place.leader === volunteer && a.place.sideWalkers.includes(volunteer)) {
      return { code: 'roleTwice', volunteer, lesson: a.lesson.id };
    }
    const clash = parts
      .slice(i + 1)
      .find((b) => a.lesson.start < lessonEnd(b.lesson) && b.lesson.start < lessonEnd(a.lesson));
    if (clash) return { code: 'roleTwice', volunteer, lesson: clash.lesson.id };
  }
  return null;
}
