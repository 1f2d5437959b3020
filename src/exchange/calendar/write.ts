/**
 * A calendar as a feed: RFC 5545. Times are UTC, so that no reader needs a zone described. The same event keeps its UID; what
 * changed about it shows in SEQUENCE.
 */
import ICAL from 'ical.js';

/** Longest line in octets, without its line break (RFC 5545 §3.1). */
const LINE_OCTETS = 75;

export type FeedEvent = {
  /** Stable over changes, the same nowhere else. */
  readonly uid: string;
  /** Instants in ms. */
  readonly start: number;
  readonly end: number;
  readonly summary: string;
  readonly location: string;
  readonly description: string;
  readonly category: 'LESSON' | 'SHIFT';
  readonly isCancelled: boolean;
};

/** How an event has changed: how often, and when last (ms). */
export type Revision = { readonly sequence: number; readonly stamp: number };

/** The whole feed as text, lines ended by CRLF and folded. `revisionOf` answers for each event of the list. */
export function writeCalendar(
  name: string,
  events: readonly FeedEvent[],
  revisionOf: (event: FeedEvent) => Revision,
): string {
  const calendar = new ICAL.Component('vcalendar');
  calendar.addPropertyWithValue('version', '2.0');
  calendar.addPropertyWithValue('prodid', '-//Aisle Board//EN');
  calendar.addPropertyWithValue('calscale', 'GREGORIAN');
  calendar.addPropertyWithValue('method', 'PUBLISH');
  calendar.addPropertyWithValue('x-wr-calname', name);
  for (const event of events) calendar.addSubcomponent(component(event, revisionOf(event)));
  return `${folded(calendar.toString())}\r\n`;
}

function component(event: FeedEvent, { sequence, stamp }: Revision): ICAL.Component {
  const made = new ICAL.Component('vevent');
  made.addPropertyWithValue('uid', event.uid);
  made.addPropertyWithValue('dtstamp', utc(stamp));
  made.addPropertyWithValue('dtstart', utc(event.start));
  made.addPropertyWithValue('dtend', utc(event.end));
  made.addPropertyWithValue('sequence', sequence);
  made.addPropertyWithValue('summary', event.summary);
  made.addPropertyWithValue('categories', event.category);
  made.addPropertyWithValue('status', event.isCancelled ? 'CANCELLED' : 'CONFIRMED');
  if (event.location !== '') made.addPropertyWithValue('location', event.location);
  if (event.description !== '') made.addPropertyWithValue('description', event.description);
  return made;
}

function utc(instant: number): ICAL.Time {
  const time = ICAL.Time.fromData(
    { year: 1970, month: 1, day: 1, hour: 0, minute: 0, second: 0 },
    ICAL.Timezone.utcTimezone,
  );
  time.fromUnixTime(Math.floor(instant / 1000));
  return time;
}

/** The library leaves the space before a continued line out of its count: folded anew. */
function folded(text: string): string {
  return text.replaceAll('\r\n ', '').split('\r\n').map(foldedLine).join('\r\n');
}

function foldedLine(line: string): string {
  const lines: string[] = [];
  let current = '';
  let octets = 0;
  for (const sign of line) {
    const more = octetsOf(sign);
    if (octets + more > LINE_OCTETS) {
      lines.push(current);
      current = ' ';
      octets = 1;
    }
    current += sign;
    octets += more;
  }
  return [...lines, current].join('\r\n');
}

/** Octets of one sign in UTF-8 (RFC 3629 §3). */
function octetsOf(sign: string): number {
  const point = sign.codePointAt(0) ?? 0;
  if (point < 0x80) return 1;
  if (point < 0x800) return 2;
  return point < 0x10000 ? 3 : 4;
}
