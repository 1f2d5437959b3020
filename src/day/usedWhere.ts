/** Where a record is still used: what keeps it from being retired, and what would lose it. */
import type { Table } from '../barn/barn.ts';
import type { PatternLesson, PlannedLesson } from '../barn/book.ts';
import type { Board } from './board.ts';
import { peopleOf } from './roles.ts';
import { liveBookings } from './preps.ts';

export type UsedWhere = {
  /** Ids of today's lessons, horses in a stall, or pattern lessons of a term: while there are any, it stays. */
  readonly now: readonly string[];
  /** Ids of lessons in the barn's book that name it: they come without it. */
  readonly book: readonly string[];
  /** Ids of shifts and exceptions that are about it: they mean nothing without it. */
  readonly gone: readonly string[];
};

export function usedWhere({ barn, day }: Board, table: Table, id: string): UsedWhere {
  const lessons = [...Object.values(barn.book.pattern), ...Object.values(barn.book.planned)];
  const now = new Set(
    liveBookings(day)
      .filter(({ lesson, place }) => names(lesson, [place], table, id))
      .map(({ lesson }) => lesson.id),
  );
  if (table === 'stalls') {
    return { ...NOWHERE, now: ids(Object.values(barn.horses).filter((horse) => horse.stall === id)) };
  }
  if (table === 'terms') {
    const now = ids(Object.values(barn.book.pattern).filter((lesson) => lesson.term === id));
    return { ...NOWHERE, now, gone: goneWith(barn, table, id) };
  }
  const book = ids(lessons.filter((lesson) => names(lesson, lesson.places, table, id)));
  return { now: [...now], book, gone: goneWith(barn, table, id) };
}

const NOWHERE: UsedWhere = { now: [], book: [], gone: [] };

function goneWith({ book }: Board['barn'], table: Table, id: string): string[] {
  const shifts = Object.values(book.shifts).filter(
    ({ volunteer, on }) =>
      (table === 'volunteers' && volunteer === id) ||
      (table === 'terms' && on.every === 'week' && on.term === id),
  );
  const exceptions = Object.values(book.exceptions).filter(
    (one) => table === 'pattern' && one.what !== 'closed' && one.lesson === id,
  );
  return ids([...shifts, ...exceptions]);
}

type Lesson = Pick<PatternLesson | PlannedLesson, 'arena' | 'instructor'>;
type Place = PatternLesson['places'][number];

function names(lesson: Lesson, places: readonly Place[], table: Table, id: string): boolean {
  switch (table) {
    case 'horses':
      return places.some((place) => place.horse === id);
    case 'riders':
      return places.some((place) => place.rider === id);
    case 'volunteers':
      return places.some((place) => peopleOf({ ...place, cancelled: false }).includes(id));
    case 'staff':
      return lesson.instructor === id;
    case 'arenas':
      return lesson.arena === id;
    case 'stalls':
    case 'helmets':
    case 'pattern':
    case 'planned':
    case 'terms':
    case 'exceptions':
    case 'shifts':
      return false;
  }
}

const ids = (records: readonly { readonly id: string }[]): string[] => records.map(({ id }) => id);
