/** Events to the book's lessons: the weekly pattern with its exceptions, or single dates. */
import { own } from '../../barn/basics.ts';
import type { Import } from '../csv/import.ts';
import type { LineAt, Problem } from '../problem.ts';
import { weekdayOf } from '../../time/dates.ts';
import { detailsOf } from './details.ts';
import type { Event } from './events.ts';
import { compact, idOfUid } from './ids.ts';
import { MOST_TIMES } from './occurrences.ts';
import { termOf } from './terms.ts';
import { inBook, type Series, type Single, type Weekly } from './series.ts';

/** As the records allow. */
const MINUTES = [5, 240] as const;
const NAME_SIGNS = 40;
export type Span = { readonly today: string; readonly horizon: string };

/** The lesson itself, without when it is. */
type Content = {
  readonly name: string;
  readonly minutes: number;
  readonly arena: string | null;
  readonly instructor: string | null;
  readonly places: readonly unknown[];
};

/** Puts a series among what was gathered. */
export function readLessonSeries(series: Series, span: Span, into: Import, problems: Problem[]): void {
  const before = problems.length;
  const contents = new Map<Event, Content>();
  for (const event of [series.event, ...series.changes])
    contents.set(event, contentOf(event, into, problems));
  if (problems.length > before) return;
  const book = inBook(series, { ...span, zone: into.barn.zone, takesExceptions: true });
  if (!book) {
    const { rule, line } = series.event;
    problems.push({
      at: { in: 'line', line: rule?.line ?? line, name: 'RRULE' },
      what: { code: 'tooManyTimes', most: MOST_TIMES },
    });
  } else if (book.is === 'weekly') putWeekly(series.event, book, contents, into);
  else putSingle(book, contents, into);
}

function contentOf(event: Event, into: Import, problems: Problem[]): Content {
  const [low, high] = MINUTES;
  const at: LineAt = { in: 'line', line: event.line, name: 'VEVENT' };
  if (event.minutes < low || event.minutes > high) {
    problems.push({ at, what: { code: 'badLength', minutes: event.minutes, low, high } });
  }
  if (event.summary.length > NAME_SIGNS) {
    const where: LineAt = { in: 'line', line: event.summaryLine, name: 'SUMMARY' };
    problems.push({ at: where, what: { code: 'tooManySigns', most: NAME_SIGNS } });
  }
  const { places, instructor } = detailsOf(event, into, problems);
  return {
    name: event.summary,
    minutes: event.minutes,
    arena: arenaOf(event.location, into),
    instructor,
    places,
  };
}

/** An arena the barn does not know yet is added; an address too long for a name is left out. */
function arenaOf(location: string, into: Import): string | null {
  if (location === '' || location.length > NAME_SIGNS) return null;
  const found = into.names.arenas.find(location);
  if (typeof found === 'object') return found.id;
  if (found === 'several') return null;
  const id = into.newId();
  into.names.arenas.add(id, location);
  into.gathered.add('arenas', { id, name: location }, () => ({ in: 'file' }));
  return id;
}

function putWeekly(event: Event, weekly: Weekly, contents: ReadonlyMap<Event, Content>, into: Import): void {
  const base = idOfUid(event.uid);
  const at = (): LineAt => ({ in: 'line', line: event.line, name: 'VEVENT' });
  const term = termOf(base, event, weekly, into);
  for (const weekday of weekly.weekdays) {
    const id = `${base}-${weekday}`;
    const lesson = { ...own(into.barn.book.pattern, id), id, ...contents.get(event) };
    into.gathered.add('pattern', { ...lesson, time: weekly.time, weekday, term }, at);
  }
  for (const date of weekly.off) {
    const id = `${base}-x${compact(date)}`;
    const lesson = `${base}-${weekdayOf(date)}`;
    const off = { id, what: 'cancelled', lesson, date, why: '' };
    into.gathered.add('exceptions', { ...own(into.barn.book.exceptions, id), ...off }, at);
  }
  for (const { date, event: change, at: when } of weekly.instead) {
    putPlanned(`${base}-${compact(date)}`, when, contents.get(change), change, into);
  }
}

function putSingle({ times }: Single, contents: ReadonlyMap<Event, Content>, into: Import): void {
  for (const { event, at, original } of times) {
    const base = idOfUid(event.uid);
    const isOnly = event.rule === null && event.also.length === 0 && event.instead === null;
    const id = isOnly ? base : `${base}-${compact(original.date)}${original.time.replace(':', '')}`;
    putPlanned(id, at, contents.get(event), event, into);
  }
}

function putPlanned(
  id: string,
  { date, time }: { readonly date: string; readonly time: string },
  content: Content | undefined,
  event: Event,
  into: Import,
): void {
  const lesson = { ...own(into.barn.book.planned, id), id, ...content, date, time };
  into.gathered.add('planned', lesson, () => ({
    in: 'line',
    line: event.line,
    name: 'VEVENT',
  }));
}
