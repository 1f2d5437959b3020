/** The dates between which something of a calendar repeats, as a term of the book. */
import type { Import } from '../csv/import.ts';
import type { Event } from './events.ts';
import type { Weekly } from './series.ts';

/** A term that goes on: the last date the records take. */
const LAST_DATE = '2199-12-31';

/** Id of the term; null when it has been so since before today and goes on. */
export function termOf(base: string, event: Event, { from, until }: Weekly, into: Import): string | null {
  if (from === null) return null;
  const term = { id: `${base}-t`, name: event.summary, from, until: until ?? LAST_DATE };
  into.gathered.add('terms', term, () => ({
    in: 'line',
    line: event.line,
    name: 'VEVENT',
  }));
  return term.id;
}
