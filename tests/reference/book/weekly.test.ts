/** The weekly pattern against RFC 5545: what a clock change does to it, and which dates it falls on. */
import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { emptyBarn, type Barn } from '#core/barn/barn.ts';
import type { PatternLesson } from '#core/barn/book.ts';
import { dayFromBook } from '#core/day/fromBook.ts';
import { dateAfter, weekdayOf } from '#core/time/dates.ts';
import { sourceOfAll } from '../source.ts';

sourceOfAll('RFC 5545', 'IANA time zone database');

const weekly = (weekday: number, time: string, term: string | null = null): PatternLesson => ({
  id: 'w1',
  name: 'Weekly',
  weekday,
  time,
  minutes: 30,
  arena: null,
  instructor: null,
  places: [],
  term,
});

function barnWith(zone: string, lesson: PatternLesson, book: Partial<Barn['book']> = {}): Barn {
  const barn = emptyBarn('Test', zone);
  return { ...barn, book: { ...barn.book, pattern: { [lesson.id]: lesson }, ...book } };
}

const starts = (barn: Barn, date: string): string[] =>
  dayFromBook(barn, date).lessons.map(({ start }) => new Date(start).toISOString().slice(0, 16));

describe('a clock change', () => {
  // The two examples of RFC 5545 section 3.3.5, form 3. Both dates are Sundays.
  test.each([
    ['skipped: as much later', 'America/New_York', '2007-03-11', '02:30', '2007-03-11T07:30'],
    ['twice: the first', 'America/New_York', '2007-11-04', '01:30', '2007-11-04T05:30'],
    // 15 U.S.C. 260a: second Sunday of March, first of November, at 02:00 local; Denver is 7 h behind UTC, then 6 h.
    ['the week before', 'America/Denver', '2026-03-01', '16:00', '2026-03-01T23:00'],
    ['the day itself', 'America/Denver', '2026-03-08', '16:00', '2026-03-08T22:00'],
    ['before it that day', 'America/Denver', '2026-03-08', '01:59', '2026-03-08T08:59'],
    ['skipped', 'America/Denver', '2026-03-08', '02:30', '2026-03-08T09:30'],
    ['the day it ends', 'America/Denver', '2026-11-01', '16:00', '2026-11-01T23:00'],
    ['twice', 'America/Denver', '2026-11-01', '01:15', '2026-11-01T07:15'],
    // Directive 2000/84/EC: last Sunday of March and of October, at 01:00 UTC.
    ['the week before', 'Europe/Berlin', '2026-03-22', '16:00', '2026-03-22T15:00'],
    ['the day itself', 'Europe/Berlin', '2026-03-29', '16:00', '2026-03-29T14:00'],
    ['skipped', 'Europe/Berlin', '2026-03-29', '02:30', '2026-03-29T01:30'],
    ['the day it ends', 'Europe/Berlin', '2026-10-25', '16:00', '2026-10-25T15:00'],
    ['twice', 'Europe/Berlin', '2026-10-25', '02:30', '2026-10-25T00:30'],
  ])('%s: %s %s %s', (_what, zone, date, time, utc) => {
    expect(weekdayOf(date)).toBe(7);
    expect(starts(barnWith(zone, weekly(7, time)), date)).toEqual([utc]);
  });
});

describe('the dates it falls on', () => {
  const date = fc.integer({ min: 0, max: 4000 }).map((days) => dateAfter('2023-12-20', days));

  test('are those of FREQ=WEEKLY with UNTIL and EXDATE (ical.js)', () => {
    fc.assert(
      fc.property(
        date,
        fc.integer({ min: 0, max: 70 }),
        fc.integer({ min: 1, max: 7 }),
        fc.array(fc.nat(80), { maxLength: 4 }),
        (from, days, weekday, offDays) => {
          const until = dateAfter(from, days);
          const off = offDays.map((n) => dateAfter(from, n));
          const lesson = weekly(weekday, '16:00', 'term');
          const barn = barnWith('Europe/Berlin', lesson, {
            terms: { term: { id: 'term', name: 'Term', from, until } },
            exceptions: Object.fromEntries(
              off.map((one, i) => [
                `x${i}`,
                { id: `x${i}`, what: 'cancelled', lesson: 'w1', date: one, why: '' } as const,
              ]),
            ),
          });
          const window = Array.from({ length: days + 20 }, (_, i) => dateAfter(from, i - 10));
          const ours = window.filter((one) => dayFromBook(barn, one).lessons.length > 0);
          expect(ours).toEqual(datesByIcal(from, until, weekday, off));
        },
      ),
      { numRuns: 60 },
    );
  });
});

/** Dates from `from` to `until` by the recurrence rules of ical.js. */
function datesByIcal(from: string, until: string, weekday: number, off: readonly string[]): string[] {
  const day = ['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU'][weekday - 1] ?? '';
  const rule = ICAL.Recur.fromString(`FREQ=WEEKLY;BYDAY=${day};UNTIL=${until.replaceAll('-', '')}`);
  const dates = rule.iterator(ICAL.Time.fromDateString(from));
  const found: string[] = [];
  for (let next = dates.next(); next; next = dates.next()) {
    const one = next.toString();
    if (one < from || one > until) continue;
    if (!off.includes(one)) found.push(one);
  }
  return found;
}
