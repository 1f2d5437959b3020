/** Between instants and the clock on the barn's wall, in the barn's IANA zone. */
import { TZDate } from '@date-fns/tz';
import { addDays } from 'date-fns/addDays';
import { format } from 'date-fns/format';

/** `date` ISO 8601 (`2026-03-29`), `time` `HH:mm`. */
export type WallTime = { readonly date: string; readonly time: string };

/**
 * The instant (ms) at which the barn's wall clock shows this date and time. In the hour that a clock change skips:
 * as much later as the skip (02:30 is 03:30). In the hour that comes twice: the first.
 * Throws RangeError for a date or time that no calendar has.
 */
export function instantAt({ date, time }: WallTime, zone: string): number {
  const [year = NaN, month = NaN, day = NaN] = date.split('-').map(Number);
  const [hour = NaN, minute = NaN] = time.split(':').map(Number);
  const at = new TZDate(year, month - 1, day, hour, minute, 0, 0, zone).getTime();
  if (!Number.isFinite(at)) throw new RangeError(`no such time: ${date} ${time}`);
  return firstOfTwo(at, { date, time }, zone);
}

/** Where a wall time comes twice, the earlier of both instants. */
function firstOfTwo(at: number, wall: WallTime, zone: string): number {
  const offset = (instant: number): number => new TZDate(instant, zone).getTimezoneOffset();
  const dayBefore = at - 86_400_000;
  const other = at + (offset(dayBefore) - offset(at)) * 60_000;
  if (other >= at) return at;
  const shown = wallTimeAt(other, zone);
  return shown.date === wall.date && shown.time === wall.time ? other : at;
}

/** What the barn's wall clock and calendar show at `instant` (ms). */
export function wallTimeAt(instant: number, zone: string): WallTime {
  const local = new TZDate(instant, zone);
  return { date: format(local, 'yyyy-MM-dd'), time: format(local, 'HH:mm') };
}

/** The instant (ms) at which the next date begins: midnight, or the first time after it where midnight is skipped. */
export function nextMidnight(instant: number, zone: string): number {
  const next = addDays(new TZDate(instant, zone), 1);
  return instantAt({ date: format(next, 'yyyy-MM-dd'), time: '00:00' }, zone);
}
