/** Calendar dates without a clock: 'YYYY-MM-DD', counted in whole days. Reckoned in UTC, so no zone shifts a day. */
import { TZDate } from '@date-fns/tz';
// By name, not from the whole library: loading all of it costs every start a second.
import { addBusinessDays } from 'date-fns/addBusinessDays';
import { addDays } from 'date-fns/addDays';
import { addYears as addCalendarYears } from 'date-fns/addYears';
import { differenceInCalendarDays } from 'date-fns/differenceInCalendarDays';
import { formatISO } from 'date-fns/formatISO';

const SHAPE = /^(?:19|20|21)\d{2}-\d{2}-\d{2}$/;

/** A text that is no calendar date. */
export interface BadDate {
  readonly code: 'bad-date';
  readonly date: string;
}

/**
 * Days since 1970-01-01.
 *
 * @returns null for a text that is not an existing date between 1900 and 2199 ('2025-02-29', 'yesterday')
 */
export function dayNumber(date: string): number | null {
  const day = read(date);
  return day === null ? null : differenceInCalendarDays(day, epoch());
}

/** The date of a whole day number; the inverse of `dayNumber`. */
export function dateOfDayNumber(days: number): string {
  return written(addDays(epoch(), days));
}

/** Whole days from one date to another, negative when `to` is earlier; the bad text otherwise. */
export function daysBetween(from: string, to: string): number | BadDate {
  const start = read(from);
  if (start === null) return { code: 'bad-date', date: from };
  const end = read(to);
  if (end === null) return { code: 'bad-date', date: to };
  return differenceInCalendarDays(end, start);
}

/** The same day of the month some years on; 29 February becomes 28 February in a common year. */
export function addYears(date: string, years: number): string | BadDate {
  const day = read(date);
  return day === null ? { code: 'bad-date', date } : written(addCalendarYears(day, years));
}

/** The date `count` working days (Monday to Friday, no holidays known) after a date. */
export function addWorkingDays(date: string, count: number): string | BadDate {
  const day = read(date);
  return day === null ? { code: 'bad-date', date } : written(addBusinessDays(day, count));
}

function epoch(): TZDate {
  return new TZDate(1970, 0, 1, 'UTC');
}

function read(date: string): TZDate | null {
  if (!SHAPE.test(date)) return null;
  const [year, month, day] = date.split('-').map(Number);
  if (year === undefined || month === undefined || day === undefined) return null;
  const found = new TZDate(year, month - 1, day, 'UTC');
  return written(found) === date ? found : null;
}

function written(day: TZDate): string {
  return formatISO(day, { representation: 'date' });
}
