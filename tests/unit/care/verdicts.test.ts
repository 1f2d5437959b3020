/** Cautions, refusals and what the aisle may know. */
import { describe, expect, it } from 'vitest';
import { reasonForAisle } from '#core/care/aisleReason.ts';
import { farrierExpectedBy, farrierState } from '#core/care/farrier.ts';
import { helmetState } from '#core/care/helmet.ts';
import { quarantine } from '#core/care/isolation.ts';
import { judgeLoad, type LoadCase } from '#core/care/load.ts';
import { DEFAULT_CARE_RULES } from '#core/care/rulesOfCare.ts';
import { judgeWorkload } from '#core/care/workload.ts';
import { adviseWeather } from '#core/care/weather.ts';

const load: LoadCase = {
  riderKg: 82,
  riderBalance: 'balanced',
  tackKg: null,
  horseWeight: { kg: 480, how: 'tape' },
  pony: false,
  condition: null,
  horseLimit: null,
};

describe('load', () => {
  it('says when the tape decides and when tack was guessed', () => {
    // 82 + 9.5 = 91.5 kg; 20 % of 480 is 96, of 432 is 86.4
    expect(judgeLoad(DEFAULT_CARE_RULES, load)).toMatchObject({
      kind: 'fits',
      cautions: ['tack-weight-is-an-allowance', 'tape-error-could-change-it'],
      figures: { totalKg: 91.5, limitKg: 96, limitFrom: 'barn', spareKg: 4.5 },
    });
    expect(
      judgeLoad(DEFAULT_CARE_RULES, { ...load, horseWeight: { kg: 480, how: 'scale' }, tackKg: 9.5 }),
    ).toMatchObject({
      kind: 'fits',
      cautions: [],
    });
  });

  it('takes the low end of a tape where the barn says so', () => {
    const rules = { ...DEFAULT_CARE_RULES, load: { ...DEFAULT_CARE_RULES.load, tapeAtLowEnd: true } };
    expect(judgeLoad(rules, load)).toMatchObject({ kind: 'does-not-fit', because: [{ code: 'over-limit' }] });
  });

  it('cautions over the published limit where a barn allows more', () => {
    const rules = {
      ...DEFAULT_CARE_RULES,
      load: { ...DEFAULT_CARE_RULES.load, limit: { of: 'percent', percent: 25 } as const },
    };
    expect(
      judgeLoad(rules, { ...load, riderKg: 100, horseWeight: { kg: 480, how: 'scale' }, tackKg: 0 }),
    ).toMatchObject({
      kind: 'fits',
      cautions: ['over-published-limit'],
    });
  });

  it('does not change its arguments', () => {
    const before = structuredClone({ rules: DEFAULT_CARE_RULES, load });
    judgeLoad(DEFAULT_CARE_RULES, load);
    expect({ rules: DEFAULT_CARE_RULES, load }).toEqual(before);
  });
});

describe('the aisle', () => {
  it('cannot tell a rider over the limit from one over a cap', () => {
    const cap = { ...DEFAULT_CARE_RULES, load: { ...DEFAULT_CARE_RULES.load, balancedRiderCapKg: 80 } };
    const byCap = judgeLoad(cap, load);
    const byLimit = judgeLoad(DEFAULT_CARE_RULES, { ...load, riderKg: 120 });
    expect(byCap.kind).toBe('does-not-fit');
    expect(reasonForAisle(byCap.kind)).toBe(reasonForAisle(byLimit.kind));
  });
  it('gets one word without a figure', () => {
    for (const kind of ['fits', 'does-not-fit', 'cannot-say'] as const) {
      expect(reasonForAisle(kind)).not.toMatch(/\d|weight|kg|load|heavy|balance/);
    }
  });
});

describe('refusals', () => {
  it('name the figure and its range', () => {
    expect(judgeLoad(DEFAULT_CARE_RULES, { ...load, riderKg: -3 })).toEqual({
      kind: 'cannot-say',
      reason: { code: 'bad-figure', figure: 'riderKg', value: -3, lowest: 5, highest: 300 },
    });
    expect(
      adviseWeather(DEFAULT_CARE_RULES.weather, { airF: 80, humidityPercent: 120, windMph: 0 }),
    ).toMatchObject({
      reason: { code: 'bad-figure', figure: 'humidityPercent' },
    });
    const back = { fromMs: 60_000, toMs: 0, inArenaUntilMs: null, lessonId: null };
    expect(
      judgeWorkload(DEFAULT_CARE_RULES.workload, {
        worked: [],
        planned: [],
        proposed: back,
        workedOnDaysBefore: [],
      }),
    ).toMatchObject({ reason: { code: 'bad-figure', figure: 'durationMs', value: -60_000 } });
  });

  it('name what is missing or lies ahead', () => {
    const { farrier, helmet, isolation } = DEFAULT_CARE_RULES;
    expect(farrierState(farrier, null, '2025-01-01')).toMatchObject({ reason: { code: 'no-date' } });
    expect(farrierState(farrier, '2025-01-02', '2025-01-01')).toMatchObject({
      reason: { code: 'date-to-come' },
    });
    expect(farrierState(farrier, '2025-02-30', '2025-03-01')).toMatchObject({ reason: { code: 'bad-date' } });
    expect(farrierExpectedBy(farrier, 'soon')).toMatchObject({ reason: { code: 'bad-date', date: 'soon' } });
    const unknown = { boughtOn: null, knocked: false };
    expect(helmetState(helmet, unknown, '2025-01-01')).toMatchObject({ reason: { code: 'no-date' } });
    expect(helmetState(helmet, { ...unknown, knocked: true }, '2025-01-01')).toMatchObject({
      kind: 'replace',
    });
    expect(quarantine(isolation, '2025-01-02', '2025-01-01')).toMatchObject({
      reason: { code: 'date-to-come' },
    });
  });
});

describe('workload', () => {
  const minutes = (from: number, to: number, id: string | null = null) => ({
    fromMs: from * 60_000,
    toMs: to * 60_000,
    inArenaUntilMs: null,
    lessonId: id,
  });
  const rules = DEFAULT_CARE_RULES.workload;
  const judge = (worked: ReturnType<typeof minutes>[], more: object = {}) =>
    judgeWorkload({ ...rules, ...more }, { worked, planned: [], proposed: null, workedOnDaysBefore: [] });

  it('ends a stretch by a break of 30 minutes and not of 29', () => {
    expect(judge([minutes(0, 45), minutes(75, 120)])).toMatchObject({
      figures: { longestStretchMinutes: 45 },
    });
    expect(judge([minutes(0, 45), minutes(74, 120)])).toMatchObject({
      figures: { longestStretchMinutes: 120 },
    });
  });
  it('counts a lesson once', () => {
    expect(judge([minutes(0, 45, 'a'), minutes(0, 45, 'a'), minutes(60, 90)])).toMatchObject({
      figures: { lessonsToday: 1, minutesToday: 75 },
    });
    expect(judge([minutes(0, 10, 'a'), minutes(60, 70, 'b')], { lessonsPerDay: 1 })).toMatchObject({
      over: [{ code: 'lessons-per-day', figure: 2, limit: 1 }],
    });
  });
  it('looks back six days, not more', () => {
    const day = { worked: [minutes(0, 45)], planned: [], proposed: null };
    expect(
      judgeWorkload(rules, { ...day, workedOnDaysBefore: [false, true, true, true, true, true, true, true] }),
    ).toMatchObject({ kind: 'fits', figures: { daysInARow: 1, daysInWeek: 6 } });
  });
  it('has nothing against an idle day, however the days before were', () => {
    expect(
      judgeWorkload(
        { ...rules, daysPerWeek: 5 },
        { worked: [], planned: [], proposed: null, workedOnDaysBefore: Array<boolean>(6).fill(true) },
      ),
    ).toMatchObject({ kind: 'fits', figures: { minutesToday: 0, daysInARow: 0, daysInWeek: 6 } });
  });
});
