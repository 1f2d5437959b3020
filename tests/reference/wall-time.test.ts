/**
 * The barn's wall clock across changes of daylight saving and midnight. Reference: the IANA time zone database as the
 * JavaScript engine ships it; the dates of the changes are law (EU directive 2000/84/EC: last Sundays of March and
 * October at 01:00 UTC; US Energy Policy Act of 2005: second Sunday of March, first of November at 02:00 local).
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { instantAt, nextMidnight, wallTimeAt } from '#core/time/zone.ts';
import { sourceOfAll } from './source.ts';

sourceOfAll('IANA time zone database', 'EU directive 2000/84/EC', 'US Energy Policy Act of 2005');

const iso = (date: string, time: string, zone: string): string =>
  new Date(instantAt({ date, time }, zone)).toISOString();

describe('a wall time as an instant', () => {
  test.each([
    ['Europe/Berlin', '2026-03-28', '14:00', '2026-03-28T13:00:00.000Z'],
    ['Europe/Berlin', '2026-03-29', '14:00', '2026-03-29T12:00:00.000Z'],
    ['Europe/Berlin', '2026-10-25', '14:00', '2026-10-25T13:00:00.000Z'],
    ['America/New_York', '2026-03-08', '09:00', '2026-03-08T13:00:00.000Z'],
    ['America/New_York', '2026-03-07', '09:00', '2026-03-07T14:00:00.000Z'],
    ['America/New_York', '2026-11-01', '09:00', '2026-11-01T14:00:00.000Z'],
    ['America/Phoenix', '2026-07-01', '09:00', '2026-07-01T16:00:00.000Z'],
    ['Asia/Kolkata', '2026-07-01', '14:00', '2026-07-01T08:30:00.000Z'],
    ['Australia/Lord_Howe', '2026-01-10', '12:00', '2026-01-10T01:00:00.000Z'],
  ])('%s %s %s', (zone, date, time, expected) => {
    expect(iso(date, time, zone)).toBe(expected);
  });

  test('in the hour that is skipped: as much later', () => {
    expect(iso('2026-03-29', '02:30', 'Europe/Berlin')).toBe('2026-03-29T01:30:00.000Z');
    expect(iso('2026-03-08', '02:15', 'America/New_York')).toBe('2026-03-08T07:15:00.000Z');
  });

  test('in the hour that comes twice: the first', () => {
    expect(iso('2026-10-25', '02:30', 'Europe/Berlin')).toBe('2026-10-25T00:30:00.000Z');
    expect(iso('2026-11-01', '01:30', 'America/New_York')).toBe('2026-11-01T05:30:00.000Z');
    expect(iso('2026-04-05', '01:45', 'Australia/Lord_Howe')).toBe('2026-04-04T14:45:00.000Z');
  });

  test('refuses what no calendar has', () => {
    expect(() => instantAt({ date: 'tomorrow', time: '10:00' }, 'Europe/Berlin')).toThrow(RangeError);
  });
});

describe('midnight', () => {
  test.each([
    // A day of 23 hours, one of 25, and a zone whose summer time skips midnight itself.
    ['Europe/Berlin', '2026-03-29', '2026-03-29T22:00:00.000Z'],
    ['Europe/Berlin', '2026-10-25', '2026-10-25T23:00:00.000Z'],
    ['America/New_York', '2026-12-31', '2027-01-01T05:00:00.000Z'],
    ['America/Santiago', '2026-09-05', '2026-09-06T04:00:00.000Z'],
  ])('%s after %s', (zone, date, expected) => {
    const noon = instantAt({ date, time: '12:00' }, zone);
    expect(new Date(nextMidnight(noon, zone)).toISOString()).toBe(expected);
  });
});

test('there and back is the same wall time, outside the hours a change skips', () => {
  const zone = fc.constantFrom(
    'Europe/Berlin',
    'America/New_York',
    'Asia/Kolkata',
    'Australia/Lord_Howe',
    'UTC',
  );
  const instant = fc.integer({ min: Date.UTC(2020, 0), max: Date.UTC(2035, 0) });
  fc.assert(
    fc.property(instant, zone, (at, z) => {
      const wall = wallTimeAt(at, z);
      expect(wallTimeAt(instantAt(wall, z), z)).toEqual(wall);
    }),
  );
});

test('the engine’s own calendar agrees', () => {
  fc.assert(
    fc.property(fc.integer({ min: Date.UTC(2020, 0), max: Date.UTC(2035, 0) }), (at) => {
      const parts = new Intl.DateTimeFormat('en-CA', {
        timeZone: 'America/New_York',
        dateStyle: 'short',
        timeStyle: 'short',
        hourCycle: 'h23',
      }).format(at);
      const { date, time } = wallTimeAt(at, 'America/New_York');
      expect(`${date}, ${time}`).toBe(parts);
    }),
  );
});
