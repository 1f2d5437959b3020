/** Reckoning with calendar dates, `2026-03-29`, where no clock and no zone matter. */
import { DAY_MS } from './units.ts';
import { instantAt, wallTimeAt } from './zone.ts';

/** ISO 8601 weekday of a date: 1 Monday … 7 Sunday. Throws RangeError for a date no calendar has. */
export function weekdayOf(date: string): number {
  // 1970-01-01 was a Thursday.
  return ((dayOf(date) + 3) % 7) + 1;
}

/** The date `days` later, earlier when negative. Throws RangeError for a date no calendar has. */
export function dateAfter(date: string, days: number): string {
  return wallTimeAt((dayOf(date) + days) * DAY_MS, 'UTC').date;
}

/** Days since 1970-01-01. */
function dayOf(date: string): number {
  return instantAt({ date, time: '00:00' }, 'UTC') / DAY_MS;
}
