/**
 * The barn's book: what repeats and what is planned. Times are those of the clock on the barn's wall, so that a lesson at
 * 16:00 stays at 16:00 when the clocks change. `src/day/fromBook.ts` turns a date of it into instants.
 */
import * as z from 'zod/mini';
import { DateText, Id, ShownName, Words } from './fields.ts';
import { LessonMinutes, Place } from './lesson.ts';

/** `HH:mm` on the barn's wall clock. */
export const WallMinute = z.string().check(z.regex(/^([01]\d|2[0-3]):[0-5]\d$/));

/** ISO 8601 weekday: 1 Monday … 7 Sunday. */
export const Weekday = z.int().check(z.gte(1), z.lte(7));

/** A place as it is wished for; whether it is cancelled is the day's own. */
export const PlannedPlace = z.omit(Place, { cancelled: true });
export type PlannedPlace = z.infer<typeof PlannedPlace>;

const lessonShape = {
  id: Id,
  name: ShownName,
  time: WallMinute,
  minutes: LessonMinutes,
  arena: z.nullable(Id),
  instructor: z.nullable(Id),
  places: z.array(PlannedPlace).check(
    z.maxLength(12),
    z.refine((places) => new Set(places.map((place) => place.id)).size === places.length),
  ),
};

/** A lesson that comes every week, in a term or (null) always. */
export const PatternLesson = z.object({ ...lessonShape, weekday: Weekday, term: z.nullable(Id) });
export type PatternLesson = z.infer<typeof PatternLesson>;

/**
 * A lesson planned for one date. `instead`: it is that date's own form of a weekly lesson, and of when that would have been;
 * where the barn is closed it takes place no more than the weekly one.
 */
export const PlannedLesson = z.object({
  ...lessonShape,
  date: DateText,
  instead: z.optional(z.object({ lesson: Id, date: DateText })),
});
export type PlannedLesson = z.infer<typeof PlannedLesson>;

/** First to last date, both in it. */
export const Term = z
  .object({ id: Id, name: ShownName, from: DateText, until: DateText })
  .check(z.refine(({ from, until }) => from <= until, { path: ['until'] }));
export type Term = z.infer<typeof Term>;

/** Where the weekly pattern does not hold. */
export const BookException = z.discriminatedUnion('what', [
  /** Nothing of what repeats takes place from one date to another, both in it. What is planned for such a date does. */
  z
    .object({ id: Id, what: z.literal('closed'), from: DateText, until: DateText, why: Words })
    .check(z.refine(({ from, until }) => from <= until, { path: ['until'] })),
  z.object({ id: Id, what: z.literal('cancelled'), lesson: Id, date: DateText, why: Words }),
  /** `date`: when it would have been. */
  z.object({
    id: Id,
    what: z.literal('moved'),
    lesson: Id,
    date: DateText,
    toDate: DateText,
    toTime: WallMinute,
    why: Words,
  }),
]);
export type BookException = z.infer<typeof BookException>;

/** When a volunteer comes: on one date, or every week on a weekday. */
export const Shift = z
  .object({
    id: Id,
    volunteer: Id,
    on: z.discriminatedUnion('every', [
      z.object({ every: z.literal('once'), date: DateText }),
      z.object({ every: z.literal('week'), weekday: Weekday, term: z.nullable(Id) }),
    ]),
    from: WallMinute,
    until: WallMinute,
  })
  .check(z.refine(({ from, until }) => from < until, { path: ['until'] }));
export type Shift = z.infer<typeof Shift>;

/** The book's tables, each keyed by id. */
export const Book = z.object({
  pattern: z.record(Id, PatternLesson),
  planned: z.record(Id, PlannedLesson),
  terms: z.record(Id, Term),
  exceptions: z.record(Id, BookException),
  shifts: z.record(Id, Shift),
});
export type Book = z.infer<typeof Book>;
