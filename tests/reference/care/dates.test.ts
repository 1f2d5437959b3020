/** Farrier, helmet, quarantine: days against published intervals. */
import { describe, expect, it } from 'vitest';
import { addWorkingDays, addYears, dateOfDayNumber, dayNumber, daysBetween } from '#core/care/civilDate.ts';
import { farrierExpectedBy, farrierState } from '#core/care/farrier.ts';
import { helmetState } from '#core/care/helmet.ts';
import { quarantine } from '#core/care/isolation.ts';
import { DEFAULT_CARE_RULES } from '#core/care/rulesOfCare.ts';
import { source } from '../source.ts';

const rules = DEFAULT_CARE_RULES;
const start = '2025-03-03'; // a Monday
const after = (days: number, from = start) => dateOfDayNumber((dayNumber(from) ?? NaN) + days);

describe('farrier', source('C. Hill 1998: 6-8 weeks', 'EQUUS: 4-8', 'EquiMed: 4-14, on average 6-10'), () => {
  it.each([
    [0, 'fine', 56],
    [41, 'fine', 15],
    [42, 'due-soon', 14],
    [55, 'due-soon', 1],
    [56, 'due', 0],
    [70, 'due', -14],
  ] as const)('day %d: %s', (day, kind, daysUntilDue) => {
    expect(farrierState(rules.farrier, start, after(day))).toEqual({ kind, daysSince: day, daysUntilDue });
  });

  it(
    'is expected within 2 working days of a call',
    source('one farrier’s published promise (tomsmithfarrier.co.uk)'),
    () => {
      expect(farrierExpectedBy(rules.farrier, '2025-03-03')).toBe('2025-03-05');
      expect(farrierExpectedBy(rules.farrier, '2025-03-06')).toBe('2025-03-10');
      expect(farrierExpectedBy(rules.farrier, '2025-03-08')).toBe('2025-03-11');
    },
  );
});

describe(
  'helmet',
  source('EquiMed 2016: at 5 years, or after a fall that hits. 5 years with one leap day between: 1826 days'),
  () => {
    const state = (days: number) =>
      helmetState(rules.helmet, { boughtOn: start, knocked: false }, after(days)).kind;
    it('serves through day 1825 and is out on day 1826', () => {
      expect(daysBetween(start, '2030-03-03')).toBe(1826);
      expect(state(0)).toBe('in-use');
      expect(state(1825)).toBe('due-soon');
      expect(state(1826)).toBe('replace');
    });
    it('is out after a knock, however new', () => {
      expect(helmetState(rules.helmet, { boughtOn: start, knocked: true }, start)).toEqual({
        kind: 'replace',
        because: 'knock',
      });
    });
  },
);

describe('quarantine', source('Michigan State Univ. CVM, HBLB Codes of Practice: 2-3 weeks'), () => {
  it.each([
    [13, 'apart', 8],
    [14, 'apart', 7],
    [20, 'apart', 1],
    [21, 'days-done', 0],
  ] as const)('day %d: %s', (day, kind, daysLeft) => {
    expect(quarantine(rules.isolation, start, after(day))).toEqual({ kind, daysSince: day, daysLeft });
  });
  it('ends on day 14 where the barn takes two weeks', () => {
    const two = { ...rules.isolation, quarantineDays: 14 };
    expect(quarantine(two, start, after(13)).kind).toBe('apart');
    expect(quarantine(two, start, after(14)).kind).toBe('days-done');
  });
});

describe('calendar', () => {
  it(
    'counts days as the Gregorian calendar does',
    source('Julian day numbers 2440588 (1970-01-01) and 2451545 (2000-01-01): from memory, IAU epoch J2000'),
    () => {
      expect(dayNumber('1970-01-01')).toBe(0);
      expect(dayNumber('2000-01-01')).toBe(2_451_545 - 2_440_588);
      expect(daysBetween('2024-02-28', '2024-03-01')).toBe(2);
      expect(daysBetween('2025-02-28', '2025-03-01')).toBe(1);
    },
  );
  it('knows weekends', source('1 January 2000 was a Saturday'), () => {
    expect(addWorkingDays('2000-01-01', 1)).toBe('2000-01-03');
    expect(addWorkingDays('1999-12-31', 1)).toBe('2000-01-03');
    expect(addWorkingDays('1969-12-26', 1)).toBe('1969-12-29');
  });
  it(
    'takes a leap day to 28 February, so that a helmet is out no later',
    source('EquiMed 2016: 5 years; the earlier day is our own choice'),
    () => {
      expect(addYears('2024-02-29', 5)).toBe('2029-02-28');
      expect(addYears('2024-02-29', 4)).toBe('2028-02-29');
    },
  );
});
