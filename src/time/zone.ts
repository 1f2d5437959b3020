/** Between instants and the clock on the barn's wall, in the barn's IANA zone, by the engine's own time zone database. */
import { DAY_MS, MINUTE_MS } from './units.ts';

/** `date` ISO 8601 (`2026-03-29`), `time` `HH:mm`. */
export type WallTime = { readonly date: string; readonly time: string };

/**
 * The instant (ms) at which the barn's wall clock shows this date and time. In the hour that a clock change skips:
 * as much later as the skip (02:30 is 03:30). In the hour that comes twice: the first.
 * Throws RangeError for a date or time that no calendar has.
 */
export function instantAt({ date, time }: WallTime, zone: string): number {
  const asUtc = utcOf({ date, time });
  if (!Number.isFinite(asUtc)) throw new RangeError(`no such time: ${date} ${time}`);
  // No zone changes twice within two days, so what its clock was ahead a day before and after are all it can be. The
  // greater one gives the earlier instant: right where a time comes twice.
  const ahead = [asUtc - DAY_MS, asUtc + DAY_MS].map((near) => aheadOfUtc(near, zone));
  const candidates = ahead.map((ms) => asUtc - ms).sort((a, b) => a - b);
  const shown = candidates.find((at) => at + aheadOfUtc(at, zone) === asUtc);
  // Skipped: what the clock was ahead before the change leads as far past it.
  return shown ?? asUtc - (ahead[0] ?? 0);
}

/** What the barn's wall clock and calendar show at `instant` (ms). */
export function wallTimeAt(instant: number, zone: string): WallTime {
  const { year, month, day, hour, minute } = partsAt(instant, zone);
  return { date: `${year}-${month}-${day}`, time: `${hour}:${minute}` };
}

/** The instant (ms) at which the next date begins: midnight, or the first time after it where midnight is skipped. */
export function nextMidnight(instant: number, zone: string): number {
  const today = utcOf({ date: wallTimeAt(instant, zone).date, time: '00:00' });
  return instantAt({ date: wallTimeAt(today + DAY_MS, 'UTC').date, time: '00:00' }, zone);
}

/** How far the zone's wall clock is ahead of UTC at `instant`, ms. */
function aheadOfUtc(instant: number, zone: string): number {
  const minute = Math.floor(instant / MINUTE_MS) * MINUTE_MS;
  return utcOf(wallTimeAt(minute, zone)) - minute;
}

const WALL = /^(\d{4})-(\d{2})-(\d{2}) (\d{2}):(\d{2})$/;

/** The instant at which a clock in UTC shows it; NaN for what no calendar has. */
function utcOf({ date, time }: WallTime): number {
  const [, year = NaN, month = NaN, day = NaN, hour = NaN, minute = NaN] =
    WALL.exec(`${date} ${time}`)?.map(Number) ?? [];
  if (!(month >= 1 && month <= 12 && hour < 24 && minute < 60 && day >= 1 && day <= daysIn(year, month)))
    return NaN;
  return daysSince1970(year, month, day) * DAY_MS + (hour * 60 + minute) * MINUTE_MS;
}

const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

function daysIn(year: number, month: number): number {
  if (month === 2) return isLeap(year) ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

/** Proleptic Gregorian, years counted from March so that the leap day comes last (worked by hand from the calendar's rule). */
function daysSince1970(year: number, month: number, day: number): number {
  const y = month > 2 ? year : year - 1;
  const m = (month + 9) % 12;
  const leapDays = Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400);
  // 1970-01-01 is day 719,468 from 0000-03-01; months from March have 153 days in every five.
  return 365 * y + leapDays + Math.floor((153 * m + 2) / 5) + day - 1 - 719_468;
}

type Part = 'year' | 'month' | 'day' | 'hour' | 'minute';

const formats = new Map<string, Intl.DateTimeFormat>();

function partsAt(instant: number, zone: string): Record<Part, string> {
  let format = formats.get(zone);
  if (!format) {
    format = new Intl.DateTimeFormat('en-US', {
      timeZone: zone,
      calendar: 'gregory',
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
    });
    formats.set(zone, format);
  }
  const parts = { year: '', month: '', day: '', hour: '', minute: '' };
  for (const { type, value } of format.formatToParts(instant)) if (type in parts) parts[type as Part] = value;
  return parts;
}
