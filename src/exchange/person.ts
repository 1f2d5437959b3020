/** Everything that is held of one person: the record, what is planned, and what was done, with their id in it. */
import { own } from '../barn/basics.ts';
import type { PatternLesson, PlannedLesson, Shift } from '../barn/book.ts';
import type { Lesson } from '../barn/lesson.ts';
import type { Board, Day } from '../day/board.ts';
import type { PeopleTable } from '../day/forget.ts';
import type { Entry } from '../day/ops.ts';

/** A day with what was written down on it. */
export type DayKept = { readonly date: string; readonly day: Day; readonly entries: readonly Entry[] };

export type HeldDay = {
  readonly date: string;
  readonly lessons: readonly Lesson[];
  /** When they were to come, and whether they did; null: nobody said. */
  readonly here: Day['hands'][string] | null;
  readonly entries: readonly Entry[];
};

export type Held = {
  readonly record: unknown;
  readonly weekly: readonly PatternLesson[];
  readonly planned: readonly PlannedLesson[];
  readonly shifts: readonly Shift[];
  /** The open day last. */
  readonly days: readonly HeldDay[];
};

/**
 * What is held of the person `id`; `days`: those put by and the open one. Of lists only what names them is given out: whoever
 * else came with the same file or rode in the same lesson is nobody's business here.
 */
export function heldOf({ barn }: Board, table: PeopleTable, id: string, days: readonly DayKept[]): Held {
  const { pattern, planned, shifts } = barn.book;
  const theirs = <T>(list: readonly T[]): T[] =>
    list.filter((one) => names(one, id)).map((one) => only(one, id));
  return {
    record: own<unknown>(barn[table], id) ?? null,
    weekly: theirs(Object.values(pattern)),
    planned: theirs(Object.values(planned)),
    shifts: theirs(Object.values(shifts)),
    days: days
      .filter((day) => names(day, id))
      .map(({ date, day, entries }) => ({
        date,
        lessons: theirs(Object.values(day.lessons)),
        here: own(day.hands, id) ?? null,
        entries: theirs(entries),
      })),
  };
}

function names(value: unknown, id: string): boolean {
  return JSON.stringify(value).includes(`"${id}"`);
}

/** Without those things in its lists that do not name the person. */
function only<T>(value: T, id: string): T {
  const step = (one: unknown): unknown => {
    if (Array.isArray(one)) {
      const isOfThings = one.some((each) => typeof each === 'object' && each !== null);
      return isOfThings ? one.filter((each) => names(each, id)).map(step) : one;
    }
    if (typeof one !== 'object' || one === null) return one;
    return Object.fromEntries(Object.entries(one).map(([key, each]) => [key, step(each)]));
  };
  return step(value) as T;
}
