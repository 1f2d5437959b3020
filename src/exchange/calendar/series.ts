/** What an event comes to in the book: something that repeats every week, or single dates. */
import { weekdayOf } from '../../time/dates.ts';
import type { WallTime } from '../../time/zone.ts';
import type { Event } from './events.ts';
import { isSameTime, occurrences, wallKey, type Occurrence } from './occurrences.ts';

export type Series = {
  /** The event itself. */
  readonly event: Event;
  /** Occurrences given otherwise, by RECURRENCE-ID. */
  readonly changes: readonly Event[];
};

/** Events of one uid together: the one with the rule, and those that stand in for one occurrence of it. */
export function seriesOf(events: readonly Event[]): { series: Series[]; strays: Event[] } {
  const byUid = new Map<string, Event>();
  for (const event of events) if (!event.instead) byUid.set(event.uid, event);
  const changes = events.filter(({ instead }) => instead !== null);
  return {
    series: [...byUid.values()].map((event) => ({
      event,
      changes: changes.filter(({ uid }) => uid === event.uid),
    })),
    strays: changes.filter(({ uid }) => !byUid.has(uid)),
  };
}

export type Weekly = {
  readonly is: 'weekly';
  readonly time: string;
  readonly weekdays: readonly number[];
  /** Null: since before today, or for good. */
  readonly from: string | null;
  readonly until: string | null;
  /** Dates that are left out, or stand elsewhere. */
  readonly off: readonly string[];
  readonly instead: readonly { readonly date: string; readonly event: Event; readonly at: WallTime }[];
};

export type Single = {
  readonly is: 'single';
  readonly times: readonly { readonly event: Event; readonly at: WallTime; readonly original: WallTime }[];
};

/** `takesExceptions`: a weekly entry may leave out single dates. */
type Into = {
  readonly today: string;
  readonly horizon: string;
  readonly zone: string;
  readonly takesExceptions: boolean;
};

/**
 * How a series stands in the book. `today` and `horizon` are dates: what is past is left out, and a rule without an end that
 * is not by the week is written out as single dates up to the horizon. Null: too many times.
 */
export function inBook(
  { event, changes }: Series,
  { today, horizon, zone, takesExceptions }: Into,
): Weekly | Single | null {
  const found = occurrences(event, horizon, zone);
  if (!found) return null;
  const changed = (at: WallTime): Event | undefined =>
    changes.find((change) => change.instead && isSameTime(at, change.instead, zone));
  const weekly = event.isCancelled ? null : weeklyOf(event, found, zone);
  const hasExceptions = changes.length > 0 || (weekly?.off.length ?? 0) > 0;
  if (weekly && (takesExceptions || !hasExceptions)) {
    const isPast = (date: string): boolean => date < today;
    const instead = found.times.flatMap(({ at }) => {
      const change = changed(at);
      return change ? [{ date: at.date, event: change, at: wallTimeOf(change, zone) }] : [];
    });
    return {
      is: 'weekly',
      ...weekly,
      from: weekly.from <= today && found.isEndless ? null : weekly.from,
      until: found.isEndless ? null : weekly.until,
      off: [...weekly.off, ...instead.map(({ date }) => date)].filter((date) => !isPast(date)).sort(),
      instead: instead.filter((one) => !one.event.isCancelled && !isPast(one.at.date)),
    };
  }
  const times = found.times.flatMap(({ at }) => {
    const change = changed(at) ?? event;
    const is = change === event ? at : wallTimeOf(change, zone);
    return change.isCancelled || is.date < today ? [] : [{ event: change, at: is, original: at }];
  });
  return { is: 'single', times };
}

function wallTimeOf(event: Event, zone: string): WallTime {
  const at = occurrences({ ...event, rule: null, also: [], except: [] }, '9999-12-31', zone)?.times[0]?.at;
  return at ?? event.start.local;
}

type Found = { readonly times: readonly Occurrence[]; readonly isEndless: boolean };

/**
 * The weekdays and dates of a rule that is by the week and stays at one time of the barn's wall clock; null for any other.
 * Its exceptions are found by what is missing.
 */
function weeklyOf(
  event: Event,
  found: Found,
  zone: string,
): { time: string; weekdays: number[]; from: string; until: string; off: string[] } | null {
  const recur = event.rule?.recur;
  if (!recur || recur.freq !== 'WEEKLY' || recur.interval !== 1 || event.also.length > 0) return null;
  if (Object.keys(recur.parts).some((part) => part !== 'BYDAY')) return null;
  const whole = occurrences({ ...event, except: [] }, found.times.at(-1)?.at.date ?? '', zone)?.times ?? [];
  const [first] = whole;
  const last = whole.at(-1);
  if (!first || !last || whole.some(({ at }) => at.time !== first.at.time)) return null;
  const weekdays = [...new Set(whole.map(({ at }) => weekdayOf(at.date)))].sort((a, b) => a - b);
  const held = new Set(found.times.map(({ at }) => wallKey(at)));
  return {
    time: first.at.time,
    weekdays,
    from: first.at.date,
    until: last.at.date,
    off: whole.filter(({ at }) => !held.has(wallKey(at))).map(({ at }) => at.date),
  };
}
