/**
 * A calendar file, looked at: lessons or shifts, what is wrong with it, and what it would come to. All or nothing, as for a
 * table.
 */
import type { Barn, TableRecord } from '../../barn/barn.ts';
import { beginImport, type Import } from '../csv/import.ts';
import type { Progress } from '../csv/preview.ts';
import type { Counts } from '../gathered.ts';
import type { Problem } from '../problem.ts';
import { dateAfter } from '../../time/dates.ts';
import { eventsIn, type Event } from './events.ts';
import { isComponents, readComponents } from './lines.ts';
import { readLessonSeries, type Span } from './lessons.ts';
import { seriesOf, type Series } from './series.ts';
import { readShiftSeries } from './shifts.ts';

export const CALENDAR_OF = ['lessons', 'shifts'] as const;
export type CalendarOf = (typeof CALENDAR_OF)[number];

/** How far ahead something without an end, that is not by the week, is written out. Common practice, no source. */
const HORIZON_DAYS = 400;

export type CalendarPreview = {
  readonly what: 'calendar';
  readonly of: CalendarOf | null;
  readonly events: number;
  /** True: only a person can say whether these are lessons or shifts. */
  readonly asksOf: boolean;
  readonly problems: readonly Problem[];
  readonly put: readonly TableRecord[];
  readonly counts: Counts;
};

const NOTHING: CalendarPreview = {
  what: 'calendar',
  of: null,
  events: 0,
  asksOf: false,
  problems: [],
  put: [],
  counts: {},
};

/** `today`: ISO 8601 on the barn's wall. `answer`: what the events are, where a person has said so. */
export function previewCalendar(
  text: string,
  barn: Barn,
  today: string,
  answer: CalendarOf | null,
  newId: () => string,
  progress: Progress = () => {},
): CalendarPreview {
  const components = readComponents(text);
  if (!isComponents(components)) return { ...NOTHING, problems: components };
  const problems: Problem[] = [];
  const events = eventsIn(components, barn.zone, problems);
  if (problems.length > 0) return { ...NOTHING, problems };
  if (events.length === 0)
    return { ...NOTHING, problems: [{ at: { in: 'file' }, what: { code: 'nothingInIt' } }] };
  const into = beginImport(barn, newId, problems);
  const of = answer ?? guess(events, into);
  const known = { ...NOTHING, of, events: events.length };
  if (of === null) return { ...known, asksOf: true };
  const { series, strays } = seriesOf(events);
  for (const stray of strays) {
    const at = { in: 'line', line: stray.line, name: 'RECURRENCE-ID' } as const;
    problems.push({ at, what: { code: 'changeOfNothing' } });
  }
  const span = { today, horizon: dateAfter(today, HORIZON_DAYS) };
  readAll(of, series, span, into, problems, progress);
  if (problems.length > 0) return { ...known, problems };
  return { ...known, put: into.gathered.put, counts: into.gathered.counts };
}

const EVERY_EVENTS = 100;

function readAll(
  of: CalendarOf,
  series: readonly Series[],
  span: Span,
  into: Import,
  problems: Problem[],
  progress: Progress,
): void {
  const read = of === 'lessons' ? readLessonSeries : readShiftSeries;
  series.forEach((one, i) => {
    read(one, span, into, problems);
    if ((i + 1) % EVERY_EVENTS === 0) progress(i + 1, series.length);
  });
  progress(series.length, series.length);
}

/** What the file itself says: its categories, or that each event is called as a volunteer is. */
function guess(events: readonly Event[], into: Import): CalendarOf | null {
  const categories = new Set(events.map((event) => event.categories.toUpperCase()));
  const [only] = categories;
  if (categories.size === 1 && only === 'LESSON') return 'lessons';
  if (categories.size === 1 && only === 'SHIFT') return 'shifts';
  const isPerson = ({ summary }: Event): boolean => typeof into.names.volunteers.find(summary) === 'object';
  return events.every(isPerson) ? 'shifts' : null;
}
