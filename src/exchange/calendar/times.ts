/**
 * Times of a calendar file on the barn's wall clock. A time may be UTC, in a zone the file describes (VTIMEZONE) or only
 * names, or floating: then it is meant as the clock on the wall wherever it is read (RFC 5545 §3.3.5).
 */
import ICAL from 'ical.js';
import { ZoneName } from '../../barn/barn.ts';
import { instantAt, wallTimeAt, type WallTime } from '../../time/zone.ts';
import { said, type What } from '../problem.ts';
import { parameterOf, valueOf, type Component, type ContentLine } from './lines.ts';

/** `local`: as it is written, in its own zone. */
export type EventTime = { readonly local: WallTime; readonly zone: EventZone };

/** `as`: how a local time becomes one on the barn's wall. */
export type EventZone =
  | { readonly is: 'barn' }
  | { readonly is: 'utc' }
  | { readonly is: 'named'; readonly name: string }
  | { readonly is: 'described'; readonly name: string; readonly described: ICAL.Timezone };

export const UTC: EventZone = { is: 'utc' };

/** The zones a calendar describes, by name. One that cannot be read is left to its name. */
export function describedZones(calendar: Component): Map<string, ICAL.Timezone> {
  const zones = new Map<string, ICAL.Timezone>();
  for (const component of calendar.inside) {
    if (component.name !== 'VTIMEZONE') continue;
    const id = component.properties.find(({ name }) => name === 'TZID');
    const tzid = id ? valueOf(id.text) : '';
    try {
      const parsed = new ICAL.Component(ICAL.parse(written(component)));
      zones.set(tzid, new ICAL.Timezone({ component: parsed, tzid }));
    } catch {
      // What a broken description says is not known; its name may still be.
    }
  }
  return zones;
}

function written({ name, properties, inside }: Component): string {
  return [`BEGIN:${name}`, ...properties.map(({ text }) => text), ...inside.map(written), `END:${name}`].join(
    '\r\n',
  );
}

const DATE_TIME = /^(\d{4})(\d{2})(\d{2})T(\d{2})(\d{2})\d{2}(Z?)$/;
const DATE_ONLY = /^\d{8}$/;

/** The times in one property: one, or several parted by commas as in EXDATE. */
export function timesIn(
  line: ContentLine,
  zones: ReadonlyMap<string, ICAL.Timezone>,
  barnZone: string,
): readonly EventTime[] | What {
  const times: EventTime[] = [];
  const zone = zoneOf(line, zones, barnZone);
  if ('code' in zone) return zone;
  for (const text of valueOf(line.text).split(',')) {
    if (DATE_ONLY.test(text) || parameterOf(line.text, 'VALUE')?.toUpperCase() === 'DATE')
      return { code: 'allDay' };
    const found = DATE_TIME.exec(text);
    if (!found) return { code: 'badValue', text: said(text) };
    const [, year = '', month = '', day = '', hour = '', minute = '', utc] = found;
    const local = { date: `${year}-${month}-${day}`, time: `${hour}:${minute}` };
    if (!isInCalendar(local)) return { code: 'badValue', text: said(text) };
    times.push({ local, zone: utc === 'Z' ? UTC : zone });
  }
  return times;
}

function zoneOf(
  { text }: ContentLine,
  zones: ReadonlyMap<string, ICAL.Timezone>,
  barnZone: string,
): EventZone | What {
  const name = parameterOf(text, 'TZID');
  if (name === null || name === barnZone) return { is: 'barn' };
  const described = zones.get(name);
  if (described) return { is: 'described', name, described };
  return ZoneName.safeParse(name).success ? { is: 'named', name } : { code: 'unknownZone', text: said(name) };
}

function isInCalendar(local: WallTime): boolean {
  try {
    instantAt(local, 'UTC');
    return true;
  } catch {
    return false;
  }
}

/** The moment meant, in ms; of an hour that comes twice on its own wall, the first. */
function instantOf({ local, zone }: EventTime, barnZone: string): number {
  switch (zone.is) {
    case 'barn':
      return instantAt(local, barnZone);
    case 'utc':
      return instantAt(local, 'UTC');
    case 'named':
      return instantAt(local, zone.name);
    case 'described':
      return asTime(local, zone.described).toUnixTime() * 1000;
  }
}

/** What the barn's wall shows at that time. */
export function onBarnWall(time: EventTime, barnZone: string): WallTime {
  return time.zone.is === 'barn' ? time.local : wallTimeAt(instantOf(time, barnZone), barnZone);
}

/** A UTC time as the clock of `zone` shows it; others as they are. What ends a rule may be given in UTC. */
export function localIn(time: EventTime, zone: EventZone, barnZone: string): WallTime {
  if (time.zone.is !== 'utc' || zone.is === 'utc') return time.local;
  const instant = instantAt(time.local, 'UTC');
  switch (zone.is) {
    case 'barn':
      return wallTimeAt(instant, barnZone);
    case 'named':
      return wallTimeAt(instant, zone.name);
    case 'described':
      return wallOf(asTime(time.local, ICAL.Timezone.utcTimezone).convertToZone(zone.described));
  }
}

/** Minutes from one time to another. By the moments, so that a change of the clock between them counts. */
export function minutesBetween(from: EventTime, to: EventTime, barnZone: string): number {
  return Math.round((instantOf(to, barnZone) - instantOf(from, barnZone)) / 60_000);
}

export function asTime(
  { date, time }: WallTime,
  zone: ICAL.Timezone = ICAL.Timezone.localTimezone,
): ICAL.Time {
  const [year = 0, month = 1, day = 1] = date.split('-').map(Number);
  const [hour = 0, minute = 0] = time.split(':').map(Number);
  return new ICAL.Time({ year, month, day, hour, minute, second: 0, isDate: false }, zone);
}

export function wallOf({ year, month, day, hour, minute }: ICAL.Time): WallTime {
  const two = (n: number): string => String(n).padStart(2, '0');
  return {
    date: `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`,
    time: `${two(hour)}:${two(minute)}`,
  };
}
