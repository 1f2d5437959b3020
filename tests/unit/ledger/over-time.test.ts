/** Days cut into steps. No outside source but ISO 8601 for the weeks: the arithmetic stands beside each figure. */
import { describe, expect, test } from 'vitest';
import { EMPTY_ACCOUNT, type Account } from '#core/ledger/account.ts';
import { accountOfDay } from '#core/ledger/day.ts';
import { longestDays, overTime } from '#core/ledger/overTime.ts';
import { monthOf } from '#core/ledger/range.ts';
import { together } from '#core/ledger/together.ts';
import { dateAfter } from '#core/time/dates.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { handBoard, handRecord, HAND_OPS } from './handDay.ts';

const { barn } = handBoard();
const record = handRecord(HAND_OPS);
const one = accountOfDay(record, { barn, corrections: [], workedBefore: () => [] });

/** The same day again on another date. */
const on = (date: string): Account => ({
  ...one,
  dates: [date],
  lessons: one.lessons.map((lesson) => ({ ...lesson, date })),
  stays: one.stays.map((stay) => ({ ...stay, date })),
  horses: one.horses.map((horse) => ({ ...horse, days: horse.days.map((day) => ({ ...day, date })) })),
});
const days = (count: number): Account =>
  together(Array.from({ length: count }, (_, i) => on(dateAfter('2026-05-11', i))));

describe('over time', () => {
  test('a step a day, each with what the day alone came to', () => {
    const [alone] = overTime(one).steps;
    const { by, steps } = overTime(days(3));
    expect(by).toBe('day');
    expect(steps.map(({ from }) => from)).toEqual(['2026-05-11', '2026-05-12', '2026-05-13']);
    for (const { from: _from, ...step } of steps) expect(step).toEqual({ ...alone, from: undefined });
    // By hand, in handDay.ts: fern and moss 30 + 30 and 15 of waiting between them, sorrel 30.
    expect(alone?.horsesMs).toBe((75 + 75 + 30) * MINUTE_MS);
    expect(alone?.peopleMs).toBe(one.stays.reduce((sum, { ms }) => sum + ms, 0));
  });

  test('more than 31 days go by weeks from Monday, and nothing is lost', () => {
    // 2026-05-11 is a Monday: 35 days are five weeks.
    const { by, steps } = overTime(days(35));
    expect([by, steps.length]).toEqual(['week', 5]);
    expect(steps[1]?.from).toBe('2026-05-18');
    const sum = (pick: (step: (typeof steps)[number]) => number): number =>
      steps.reduce((total, step) => total + pick(step), 0);
    const [alone] = overTime(one).steps;
    expect([sum((step) => step.lessons), sum((step) => step.peopleMs)]).toEqual([
      35 * (alone?.lessons ?? 0),
      35 * (alone?.peopleMs ?? 0),
    ]);
  });

  test('nothing of nothing; of several days the longest of each horse', () => {
    expect(overTime(EMPTY_ACCOUNT)).toEqual({ by: 'day', steps: [] });
    expect(longestDays(days(3))).toEqual(longestDays(one));
  });
});

// ISO 8601 dates; leap years by the Gregorian calendar.
test.each([
  ['2026-02-11', '2026-02-01', '2026-02-28'],
  ['2028-02-29', '2028-02-01', '2028-02-29'],
  ['2026-12-31', '2026-12-01', '2026-12-31'],
])('the month of %s', (date, from, until) => {
  expect(monthOf(date)).toEqual({ from, until });
  expect(monthOf('someday')).toBeNull();
});
