/** Weeks, and which days before a date have to be known. */
import { dateOfDayNumber, dayNumber } from '../care/civilDate.ts';

/** Dates, both included. */
export type DateRange = { readonly from: string; readonly until: string };

/** A horse's days in a row and in a week look this far back; the rules go no further than seven days. */
export const DAYS_BEFORE = 7;

/** The week of a date, Monday to Sunday (ISO 8601); null for a text that is no date. */
export function weekOf(date: string): DateRange | null {
  const day = dayNumber(date);
  if (day === null) return null;
  // 1970-01-01 was a Thursday.
  const sinceMonday = (((day + 3) % 7) + 7) % 7;
  return { from: dateOfDayNumber(day - sinceMonday), until: dateOfDayNumber(day - sinceMonday + 6) };
}

/** The month of a date; null for a text that is no date. */
export function monthOf(date: string): DateRange | null {
  if (dayNumber(date) === null) return null;
  const from = `${date.slice(0, 7)}-01`;
  const [year = 0, month = 0] = date.split('-').map(Number);
  const next = dayNumber(
    month === 12 ? `${year + 1}-01-01` : `${date.slice(0, 5)}${String(month + 1).padStart(2, '0')}-01`,
  );
  return next === null ? null : { from, until: dateOfDayNumber(next - 1) };
}

/** The date some days before; the date itself when it is none. */
export function daysEarlier(date: string, days: number): string {
  const day = dayNumber(date);
  return day === null ? date : dateOfDayNumber(day - days);
}

/** Whether a horse worked on the day before `date`, the one before that, and so on. A date without a record is rest. */
export function workedBefore(
  date: string,
  workedOn: ReadonlyMap<string, ReadonlySet<string>>,
): (horse: string) => boolean[] {
  const before = Array.from({ length: DAYS_BEFORE }, (_, i) => workedOn.get(daysEarlier(date, i + 1)));
  return (horse) => before.map((horses) => horses?.has(horse) ?? false);
}

/** Longest range that is added up at once, in dates: a year and some. */
export const MOST_DATES = 400;

/** The range between two texts; null when one is no date, they are the wrong way round, or too far apart. */
export function rangeFrom(from: string, until: string): DateRange | null {
  const [first, last] = [dayNumber(from), dayNumber(until)];
  if (first === null || last === null || last < first || last - first >= MOST_DATES) return null;
  return { from, until };
}
