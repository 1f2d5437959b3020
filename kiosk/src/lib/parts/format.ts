/** Times as the barn's wall clock shows them, written as this tablet's language does. */
import { instantAt } from '#core/time/zone.ts';
import { language } from '../words.ts';

const formats = new Map<string, Intl.DateTimeFormat>();

function formatFor(zone: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${zone} ${JSON.stringify(options)}`;
  let format = formats.get(key);
  if (!format) {
    format = new Intl.DateTimeFormat(language().locale, { timeZone: zone, ...options });
    formats.set(key, format);
  }
  return format;
}

/** `14:35` at `instant` (ms) in the barn's zone. */
export function clockTime(instant: number, zone: string): string {
  return formatFor(zone, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(instant);
}

/** `Wednesday 25 November` at `instant` (ms) in the barn's zone. */
export function dayName(instant: number, zone: string): string {
  return formatFor(zone, { weekday: 'long', day: 'numeric', month: 'long' }).format(instant);
}

/** The same for a date as `2026-11-25`; empty for none. */
export function dateName(date: string, zone: string): string {
  return date === '' ? '' : dayName(instantAt({ date, time: '12:00' }, zone), zone);
}

/** `11/25`, as the language writes it, for a date as `2026-11-25`; empty for none. */
export function shortDate(date: string): string {
  if (date === '') return '';
  const noon = instantAt({ date, time: '12:00' }, 'UTC');
  return formatFor('UTC', { day: 'numeric', month: 'numeric' }).format(noon);
}

/** `5.2`: at most one figure after the point, rounded down, for what must not be promised too large. */
export function tenths(value: number): string {
  return new Intl.NumberFormat(language().locale, { maximumFractionDigits: 1 }).format(
    Math.floor(value * 10) / 10,
  );
}
