/** Events to the book's shifts: the summary names the volunteer; repeated by the week, or single dates. */
import type { Import } from '../csv/import.ts';
import { said, type LineAt, type Problem } from '../problem.ts';
import type { Event } from './events.ts';
import { compact, idOfUid } from './ids.ts';
import type { Span } from './lessons.ts';
import { MOST_TIMES } from './occurrences.ts';
import { inBook, type Series } from './series.ts';
import { termOf } from './terms.ts';

/** A shift ends on the day it begins. */
const MINUTES = [5, 24 * 60 - 1] as const;

/** What may stand between a name and the rest of a summary. */
const AFTER_NAME = /\s*[:,(–—]|\s-\s/;

export function readShiftSeries(series: Series, span: Span, into: Import, problems: Problem[]): void {
  const before = problems.length;
  const { event } = series;
  const volunteer = volunteerOf(event, into, problems);
  for (const one of [event, ...series.changes]) checkLength(one, problems);
  if (problems.length > before || volunteer === null) return;
  const base = idOfUid(event.uid);
  const at = (): LineAt => ({ in: 'line', line: event.line, name: 'VEVENT' });
  const add = (id: string, on: unknown, from: string, minutes: number): void => {
    const shift = { id, volunteer, on, from, until: later(from, minutes) };
    into.gathered.add('shifts', shift, at);
  };
  // The book has no exceptions for shifts: with one, each date stands for itself.
  const book = inBook(series, { ...span, zone: into.barn.zone, takesExceptions: false });
  if (!book) {
    const where: LineAt = { in: 'line', line: event.rule?.line ?? event.line, name: 'RRULE' };
    problems.push({ at: where, what: { code: 'tooManyTimes', most: MOST_TIMES } });
  } else if (book.is === 'weekly') {
    const term = termOf(base, event, book, into);
    for (const weekday of book.weekdays) {
      add(`${base}-${weekday}`, { every: 'week', weekday, term }, book.time, event.minutes);
    }
  } else {
    for (const { event: one, at: when, original } of book.times) {
      const id = event.rule ? `${base}-${compact(original.date)}${original.time.replace(':', '')}` : base;
      add(id, { every: 'once', date: when.date }, when.time, one.minutes);
    }
  }
}

function volunteerOf(event: Event, into: Import, problems: Problem[]): string | null {
  const whole = into.names.volunteers.find(event.summary);
  const found =
    whole === 'none' ? into.names.volunteers.find(event.summary.split(AFTER_NAME)[0] ?? '') : whole;
  if (typeof found === 'object') return found.id;
  problems.push({
    at: { in: 'line', line: event.summaryLine, name: 'SUMMARY' },
    what:
      found === 'none'
        ? { code: 'unknownWho', text: said(event.summary) }
        : { code: 'nameTwice', text: said(event.summary), table: 'volunteers' },
  });
  return null;
}

function checkLength(event: Event, problems: Problem[]): void {
  const [low, high] = MINUTES;
  const { minutes, start, line } = event;
  const ends = Number(start.local.time.slice(0, 2)) * 60 + Number(start.local.time.slice(3)) + minutes;
  if (minutes >= low && ends < 24 * 60) return;
  problems.push({
    at: { in: 'line', line, name: 'VEVENT' },
    what: { code: 'badLength', minutes, low, high },
  });
}

/** `HH:mm`, the minutes later, on the same day. */
function later(time: string, minutes: number): string {
  const end = Number(time.slice(0, 2)) * 60 + Number(time.slice(3)) + minutes;
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${two(Math.floor(end / 60))}:${two(end % 60)}`;
}
