/** A horse's hours against published limits. */
import { describe, expect, it } from 'vitest';
import { DEFAULT_CARE_RULES } from '#core/care/rulesOfCare.ts';
import { judgeWorkload, type WorkInterval, type WorkloadCase } from '#core/care/workload.ts';
import { source } from '../source.ts';

const rules = DEFAULT_CARE_RULES.workload;
const NINE_MS = 9 * 3_600_000;
const at = (fromMin: number, minutes: number, more: Partial<WorkInterval> = {}): WorkInterval => ({
  fromMs: NINE_MS + fromMin * 60_000,
  toMs: NINE_MS + (fromMin + minutes) * 60_000,
  inArenaUntilMs: null,
  lessonId: `at ${fromMin}`,
  ...more,
});
const day = (over: Partial<WorkloadCase>): WorkloadCase => ({
  worked: [],
  planned: [],
  proposed: null,
  workedOnDaysBefore: [],
  ...over,
});

describe('6 hours a day', source('PATH Intl. maximum as quoted in J Equine Vet Sci 2020'), () => {
  it('allows 6:00 and not 6:01', () => {
    const loose = { ...rules, minutesInARow: 24 * 60 };
    expect(judgeWorkload(loose, day({ proposed: at(0, 360) })).kind).toBe('fits');
    expect(judgeWorkload(loose, day({ proposed: at(0, 361) }))).toMatchObject({
      kind: 'does-not-fit',
      over: [{ code: 'minutes-per-day', figure: 361, limit: 360 }],
    });
  });

  it(
    'allows eight lessons of 45 minutes and not nine',
    source('Median lesson of 45 minutes in the same survey: 8 x 45 = 360, 9 x 45 = 405'),
    () => {
      const lessons = (n: number) => Array.from({ length: n }, (_, i) => at(i * 75, 45));
      expect(judgeWorkload(rules, day({ worked: lessons(7), proposed: at(7 * 75, 45) }))).toMatchObject({
        kind: 'fits',
        figures: { minutesToday: 360, lessonsToday: 8 },
      });
      expect(judgeWorkload(rules, day({ worked: lessons(8), proposed: at(8 * 75, 45) }))).toMatchObject({
        kind: 'does-not-fit',
        over: [{ code: 'minutes-per-day', figure: 405, limit: 360 }],
      });
    },
  );
});

describe(
  '6 days a week',
  source('same source', 'one full rest day a week, Certified Horsemanship Association'),
  () => {
    it('allows the sixth day in a row and not the seventh', () => {
      const after = (days: number) =>
        judgeWorkload(
          rules,
          day({ proposed: at(0, 45), workedOnDaysBefore: Array<boolean>(days).fill(true) }),
        );
      expect(after(5)).toMatchObject({ kind: 'fits', figures: { daysInARow: 6, daysInWeek: 6 } });
      expect(after(6)).toMatchObject({ kind: 'does-not-fit', figures: { daysInARow: 7, daysInWeek: 7 } });
    });
  },
);

describe(
  'waiting in the arena',
  source(
    'Certified Horsemanship Association, J. Goodnight: 9:00-9:45 and 10:00-10:45 without leaving is 1 h 45',
  ),
  () => {
    const first = at(0, 45, { inArenaUntilMs: NINE_MS + 60 * 60_000 });
    it('counts while the horse stays', () => {
      expect(judgeWorkload(rules, day({ worked: [first], proposed: at(60, 45) }))).toMatchObject({
        figures: { minutesToday: 105, longestStretchMinutes: 105 },
      });
    });
    it('does not count when it goes back to the stall, or when the barn says so', () => {
      expect(judgeWorkload(rules, day({ worked: [at(0, 45)], proposed: at(60, 45) }))).toMatchObject({
        figures: { minutesToday: 90 },
      });
      const off = { ...rules, arenaWaitCounts: false };
      expect(judgeWorkload(off, day({ worked: [first], proposed: at(60, 45) }))).toMatchObject({
        figures: { minutesToday: 90 },
      });
    });
  },
);

it('allows 3 hours in a row and not more', source('3 h in a row: from memory, no page found'), () => {
  expect(judgeWorkload(rules, day({ proposed: at(0, 180) })).kind).toBe('fits');
  expect(judgeWorkload(rules, day({ proposed: at(0, 181) }))).toMatchObject({
    over: [{ code: 'minutes-in-a-row', figure: 181, limit: 180 }],
  });
});
