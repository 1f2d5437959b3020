/** One date of the barn's book as lessons and people. */
import type { Barn } from '../barn/barn.ts';
import { own } from '../barn/basics.ts';
import type { BookException, PatternLesson, PlannedLesson, PlannedPlace, Shift } from '../barn/book.ts';
import type { Lesson, Place } from '../barn/lesson.ts';
import { weekdayOf } from '../time/dates.ts';
import { instantAt } from '../time/zone.ts';
import type { PlanTaken } from './takePlan.ts';

export type Expected = PlanTaken['people'][number];

/** Somebody or something the book names and the barn keeps no more; the lesson comes without it. */
export type Missing = {
  readonly lesson: string;
  readonly place: string | null;
  readonly what: 'arena' | 'instructor' | 'rider' | 'horse' | 'tack' | 'leader' | 'sideWalker';
};

export type BookDay = {
  /** Why nothing of the weekly pattern takes place; null: it does. */
  readonly closed: string | null;
  /** By start. */
  readonly lessons: readonly Lesson[];
  readonly people: readonly Expected[];
  readonly missing: readonly Missing[];
  /** Where each lesson stands in the book, by the lesson's id on this date. */
  readonly sources: Readonly<Record<string, Source>>;
};

/** The single lesson it stands as, and the weekly one it comes from with the date that has it; null: there is none. */
export type Source = {
  readonly planned: string | null;
  readonly weekly: NonNullable<PlannedLesson['instead']> | null;
};

type Dated = Source & {
  readonly lesson: PatternLesson | PlannedLesson;
  readonly time: string;
};

/**
 * What the book says of `date` (ISO 8601). Wall times become instants in the barn's zone: one that a clock change skips
 * comes as much later as the change, one that comes twice is the first (RFC 5545 section 3.3.5). A person with several
 * shifts is expected from the first of them to the end of the last. Throws RangeError for a date no calendar has.
 */
export function dayFromBook(barn: Barn, date: string): BookDay {
  const { book, zone } = barn;
  const missing: Missing[] = [];
  const sources: Record<string, Source> = {};
  const lessons = datedLessons(barn, date)
    .map(({ lesson, time, planned, weekly }) => {
      // The date's own form of a weekly lesson is still that lesson.
      const named = weekly?.lesson ?? lesson.id;
      const id = own(sources, named) ? secondId(named, date) : named;
      sources[id] = { planned, weekly };
      return asLesson(barn, lesson, id, instantAt({ date, time }, zone), missing);
    })
    .sort((a, b) => a.start - b.start || (a.id < b.id ? -1 : 1));
  return {
    closed: closedOn(barn, date)?.why ?? null,
    lessons,
    people: expectedOn([...Object.values(book.shifts), ...usualShifts(barn)], barn, date),
    missing,
    sources,
  };
}

/** The fact that copies `date` into the day. */
export function planOf(barn: Barn, date: string): PlanTaken {
  const { lessons, people } = dayFromBook(barn, date);
  return {
    kind: 'planTaken',
    date,
    lessons: lessons.slice(0, MOST_LESSONS),
    people: people.slice(0, MOST_PEOPLE),
  };
}

/** As many as one op may carry. */
const MOST_LESSONS = 60;
const MOST_PEOPLE = 200;

type Closed = Extract<BookException, { what: 'closed' }>;

function closedOn(barn: Barn, date: string): Closed | undefined {
  return Object.values(barn.book.exceptions).find(
    (one): one is Closed => one.what === 'closed' && one.from <= date && date <= one.until,
  );
}

/** Whether the term (null: always) holds on `date`; a term that is gone holds never. */
function isInTerm(barn: Barn, term: string | null, date: string): boolean {
  if (term === null) return true;
  const known = own(barn.book.terms, term);
  return known !== undefined && known.from <= date && date <= known.until;
}

function datedLessons(barn: Barn, date: string): Dated[] {
  const { pattern, planned, exceptions } = barn.book;
  const weekday = weekdayOf(date);
  const isClosed = closedOn(barn, date) !== undefined;
  /** Weekly lessons that have a form of their own for the date that has them, or are off or elsewhere on it. */
  const instead = new Set(
    Object.values(planned).flatMap(({ instead }) => (instead ? `${instead.lesson} ${instead.date}` : [])),
  );
  const off = new Set(
    Object.values(exceptions).flatMap((one) =>
      one.what !== 'closed' && one.date === date ? one.lesson : [],
    ),
  );
  const repeating = isClosed
    ? []
    : Object.values(pattern).filter(
        (lesson) =>
          lesson.weekday === weekday &&
          isInTerm(barn, lesson.term, date) &&
          !off.has(lesson.id) &&
          !instead.has(`${lesson.id} ${date}`),
      );
  const moved = Object.values(exceptions).flatMap((one): Dated[] => {
    if (one.what !== 'moved' || one.toDate !== date || instead.has(`${one.lesson} ${one.date}`)) return [];
    const lesson = own(pattern, one.lesson);
    return lesson
      ? [{ lesson, time: one.toTime, planned: null, weekly: { lesson: lesson.id, date: one.date } }]
      : [];
  });
  const single = Object.values(planned).filter(
    (lesson) => lesson.date === date && !(isClosed && lesson.instead),
  );
  return [
    ...repeating.map((lesson) => ({
      lesson,
      time: lesson.time,
      planned: null,
      weekly: { lesson: lesson.id, date },
    })),
    ...single.map((lesson) => ({
      lesson,
      time: lesson.time,
      planned: lesson.id,
      weekly: lesson.instead ?? null,
    })),
    ...moved,
  ];
}

/** One pattern lesson twice on one date: its own, and one moved there from another week. */
function secondId(id: string, date: string): string {
  return `${id.slice(0, 22)}-${date.replaceAll('-', '')}`;
}

function asLesson(
  barn: Barn,
  { name, minutes, arena, instructor, places }: PatternLesson | PlannedLesson,
  id: string,
  start: number,
  missing: Missing[],
): Lesson {
  const known = (
    table: Readonly<Record<string, unknown>>,
    record: string | null,
    what: Missing['what'],
    place: string | null = null,
  ): string | null => {
    if (record === null || own(table, record) !== undefined) return record;
    missing.push({ lesson: id, place, what });
    return null;
  };
  return {
    id,
    name,
    start,
    minutes,
    arena: known(barn.arenas, arena, 'arena'),
    instructor: known(barn.staff, instructor, 'instructor'),
    cancelled: false,
    places: places.map((place) => asPlace(barn, place, (...asked) => known(...asked, place.id))),
  };
}

type Known = (
  table: Readonly<Record<string, unknown>>,
  record: string | null,
  what: Missing['what'],
) => string | null;

function asPlace(barn: Barn, place: PlannedPlace, known: Known): Place {
  const horse = known(barn.horses, place.horse, 'horse');
  const lists = own(barn.horses, horse ?? '')?.tackLists ?? [];
  const byId = Object.fromEntries(lists.map((list) => [list.id, list]));
  return {
    ...place,
    rider: known(barn.riders, place.rider, 'rider'),
    horse,
    tack: horse === null ? null : known(byId, place.tack, 'tack'),
    leader: known(barn.volunteers, place.leader, 'leader'),
    sideWalkers: place.sideWalkers.filter((one) => known(barn.volunteers, one, 'sideWalker') !== null),
    cancelled: false,
  };
}

/** The usual hours of everybody the book has no shift of at all: who has one comes by the book alone. */
function usualShifts({ book, volunteers }: Barn): Shift[] {
  const inBook = new Set(Object.values(book.shifts).map(({ volunteer }) => volunteer));
  return Object.values(volunteers).flatMap(({ id, private: kept }) =>
    inBook.has(id)
      ? []
      : (kept?.usualHours ?? []).map(({ weekday, from, until }) => ({
          id,
          volunteer: id,
          on: { every: 'week' as const, weekday, term: null },
          from: wallMinute(from),
          until: wallMinute(until),
        })),
  );
}

/** Minutes after midnight as the wall clock says them; midnight at the end of a day is its last minute. */
function wallMinute(minutes: number): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  const at = Math.min(minutes, LAST_MINUTE);
  return `${two(Math.floor(at / 60))}:${two(at % 60)}`;
}

const LAST_MINUTE = 24 * 60 - 1;

function expectedOn(shifts: readonly Shift[], barn: Barn, date: string): Expected[] {
  const weekday = weekdayOf(date);
  const isClosed = closedOn(barn, date) !== undefined;
  const people = new Map<string, { from: string; until: string }>();
  for (const { volunteer, on, from, until } of shifts) {
    const holds =
      on.every === 'once'
        ? on.date === date
        : !isClosed && on.weekday === weekday && isInTerm(barn, on.term, date);
    if (!holds || own(barn.volunteers, volunteer) === undefined) continue;
    const hours = people.get(volunteer) ?? { from, until };
    people.set(volunteer, {
      from: from < hours.from ? from : hours.from,
      until: until > hours.until ? until : hours.until,
    });
  }
  return [...people]
    .map(([volunteer, hours]) => ({
      volunteer,
      from: instantAt({ date, time: hours.from }, barn.zone),
      until: instantAt({ date, time: hours.until }, barn.zone),
    }))
    .sort((a, b) => a.from - b.from || (a.volunteer < b.volunteer ? -1 : 1));
}
