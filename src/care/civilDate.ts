/** Calendar dates without a clock or a zone: 'YYYY-MM-DD', counted in whole days. */

const MS_PER_DAY = 86_400_000;
const SHAPE = /^(\d{4})-(\d{2})-(\d{2})$/;

/** A text that is no calendar date. */
export interface BadDate {
  readonly code: 'bad-date';
  readonly date: string;
}

/**
 * Days since 1970-01-01 in the proleptic Gregorian calendar.
 *
 * @returns null for a text that is not an existing date between 1900 and 2199 ('2025-02-29', 'yesterday')
 */
export function dayNumber(date: string): number | null {
  const match = SHAPE.exec(date);
  if (match === null) return null;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  if (year < 1900 || year > 2199) return null;
  const ms = Date.UTC(year, month - 1, day);
  const days = ms / MS_PER_DAY;
  return dateOfDayNumber(days) === date ? days : null;
}

/** The date of a day number; the inverse of `dayNumber`. */
export function dateOfDayNumber(days: number): string {
  return new Date(days * MS_PER_DAY).toISOString().slice(0, 10);
}

/** Whole days from one date to another, negative when `to` is earlier; the bad text otherwise. */
export function daysBetween(from: string, to: string): number | BadDate {
  const start = dayNumber(from);
  if (start === null) return { code: 'bad-date', date: from };
  const end = dayNumber(to);
  if (end === null) return { code: 'bad-date', date: to };
  return end - start;
}

/** The same day of the month some years on; 29 February becomes 28 February in a common year. */
export function addYears(date: string, years: number): string | BadDate {
  if (dayNumber(date) === null) return { code: 'bad-date', date };
  const year = String(Number(date.slice(0, 4)) + years).padStart(4, '0');
  const same = `${year}${date.slice(4)}`;
  if (dayNumber(same) !== null) return same;
  const clamped = `${year}-02-28`;
  return dayNumber(clamped) === null ? { code: 'bad-date', date: same } : clamped;
}

/** The date `count` working days (Monday to Friday, no holidays known) after a date. */
export function addWorkingDays(date: string, count: number): string | BadDate {
  const start = dayNumber(date);
  if (start === null) return { code: 'bad-date', date };
  let day = start;
  let left = Math.max(0, Math.floor(count));
  while (left > 0) {
    day += 1;
    if (!isWeekend(day)) left -= 1;
  }
  return dateOfDayNumber(day);
}

/** 1970-01-01, day 0, was a Thursday. */
function isWeekend(days: number): boolean {
  const sinceMonday = (((days + 3) % 7) + 7) % 7;
  return sinceMonday >= 5;
}
