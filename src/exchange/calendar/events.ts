/** Events of a calendar (RFC 5545 §3.6.1) as far as lessons and shifts need them. */
import ICAL from 'ical.js';
import { said, type Problem, type What } from '../problem.ts';
import { valueOf, type Component, type ContentLine } from './lines.ts';
import { describedZones, minutesBetween, timesIn, type EventTime } from './times.ts';

export type Event = {
  readonly uid: string;
  readonly line: number;
  readonly summary: string;
  readonly summaryLine: number;
  readonly location: string;
  readonly description: string;
  readonly descriptionLine: number;
  readonly categories: string;
  readonly start: EventTime;
  readonly minutes: number;
  readonly rule: {
    readonly recur: ICAL.Recur;
    readonly until: EventTime | null;
    readonly line: number;
  } | null;
  readonly also: readonly EventTime[];
  readonly except: readonly EventTime[];
  /** This is one occurrence of the event of the same uid, given otherwise. */
  readonly instead: EventTime | null;
  readonly isCancelled: boolean;
};

/** All events of the calendars, in the order of the file; what is wrong goes to `problems`. */
export function eventsIn(calendars: readonly Component[], barnZone: string, problems: Problem[]): Event[] {
  return calendars.flatMap((calendar) => {
    const zones = describedZones(calendar);
    return calendar.inside
      .filter(({ name }) => name === 'VEVENT')
      .flatMap((component) => new Reading(component, zones, barnZone, problems).event() ?? []);
  });
}

class Reading {
  readonly #component: Component;
  readonly #zones: ReadonlyMap<string, ICAL.Timezone>;
  readonly #barnZone: string;
  readonly #problems: Problem[];

  constructor(
    component: Component,
    zones: ReadonlyMap<string, ICAL.Timezone>,
    barnZone: string,
    problems: Problem[],
  ) {
    this.#component = component;
    this.#zones = zones;
    this.#barnZone = barnZone;
    this.#problems = problems;
  }

  /** Null: something is wrong with it. */
  event(): Event | null {
    const before = this.#problems.length;
    const uid = this.#text('UID');
    const [start] = this.#times('DTSTART');
    if (uid === '') this.#missing('UID');
    if (!this.#line('DTSTART')) this.#missing('DTSTART');
    const summary = this.#text('SUMMARY');
    if (summary === '') this.#missing('SUMMARY');
    const minutes = start ? this.#minutes(start) : 0;
    const event = start && {
      uid,
      line: this.#component.line,
      summary,
      summaryLine: this.#line('SUMMARY')?.line ?? this.#component.line,
      location: this.#text('LOCATION'),
      description: this.#text('DESCRIPTION'),
      descriptionLine: this.#line('DESCRIPTION')?.line ?? this.#component.line,
      categories: this.#text('CATEGORIES'),
      start,
      minutes,
      rule: this.#rule(),
      also: this.#times('RDATE'),
      except: this.#times('EXDATE'),
      instead: this.#times('RECURRENCE-ID')[0] ?? null,
      isCancelled: this.#text('STATUS').toUpperCase() === 'CANCELLED',
    };
    return event && this.#problems.length === before ? event : null;
  }

  #lines(name: string): readonly ContentLine[] {
    return this.#component.properties.filter((property) => property.name === name);
  }

  #line(name: string): ContentLine | undefined {
    return this.#lines(name)[0];
  }

  #problem(line: ContentLine, what: What): void {
    this.#problems.push({ at: { in: 'line', line: line.line, name: line.name }, what });
  }

  #missing(name: string): void {
    const at = { in: 'line', line: this.#component.line, name: this.#component.name } as const;
    this.#problems.push({ at, what: { code: 'propertyMissing', name } });
  }

  /** Unescaped. */
  #text(name: string): string {
    const line = this.#line(name);
    if (!line) return '';
    return valueOf(line.text)
      .replaceAll(/\\([nN,;\\])/g, (_, sign: string) => (sign === 'n' || sign === 'N' ? '\n' : sign))
      .trim();
  }

  #times(name: string): EventTime[] {
    return this.#lines(name).flatMap((line) => {
      const times = timesIn(line, this.#zones, this.#barnZone);
      if (!('code' in times)) return times;
      this.#problem(line, times);
      return [];
    });
  }

  #minutes(start: EventTime): number {
    const duration = this.#line('DURATION');
    const end = this.#line('DTEND');
    if (end) {
      const [time] = this.#times('DTEND');
      return time ? minutesBetween(start, time, this.#barnZone) : 0;
    }
    if (!duration) {
      this.#missing('DTEND');
      return 0;
    }
    const text = valueOf(duration.text);
    if (!/^[+]?P(\d+W|(\d+D)?(T(\d+H)?(\d+M)?(\d+S)?)?)$/.test(text)) {
      this.#problem(duration, { code: 'badValue', text: said(text) });
      return 0;
    }
    return Math.round(ICAL.Duration.fromString(text).toSeconds() / 60);
  }

  #rule(): Event['rule'] {
    const line = this.#line('RRULE');
    if (!line) return null;
    const text = valueOf(line.text);
    const until = /(?:^|;)UNTIL=([^;]*)/i.exec(text)?.[1];
    try {
      const recur = ICAL.Recur.fromString(text.replace(/(^|;)UNTIL=[^;]*/i, ''));
      if (until === undefined) return { recur, until: null, line: line.line };
      // A date ends with its day.
      const value = /^\d{8}$/.test(until) ? `${until}T235900` : until;
      const times = timesIn({ ...line, text: `UNTIL:${value}` }, this.#zones, this.#barnZone);
      if (!('code' in times)) return { recur, until: times[0] ?? null, line: line.line };
    } catch {
      // Said below.
    }
    this.#problem(line, { code: 'badValue', text: said(text) });
    return null;
  }
}
