/** More findings never make an advice milder; dates and counts are total. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { advise } from '#core/care/advise.ts';
import { addWorkingDays, addYears, dateOfDayNumber, dayNumber, daysBetween } from '#core/care/civilDate.ts';
import { farrierState } from '#core/care/farrier.ts';
import { FEET } from '#core/care/feetOrder.ts';
import { ADVICE_LEVELS, FINDING_RULE_IDS } from '#core/care/findingRules.ts';
import { BODY_PLACES, Finding } from '#core/care/findings.ts';
import { helmetState } from '#core/care/helmet.ts';
import { CareRules, DEFAULT_CARE_RULES } from '#core/care/rulesOfCare.ts';
import { judgeBreathing, judgePulse, judgeRefill, judgeTemperatureF } from '#core/care/vitals.ts';

const foot = fc.constantFrom(...FEET);
const onFoot = fc.constant('foot' as const);
const finding: fc.Arbitrary<Finding> = fc.oneof(
  fc.record({
    on: onFoot,
    foot,
    kind: fc.constantFrom(
      'shoe-lost',
      'shoe-sprung',
      'shoe-twisted',
      'clinches-risen',
      'nail',
      'heat',
      'thrush-smell',
      'sore',
      'leg-swelling',
      'leg-cut',
    ),
  }),
  fc.record({ on: onFoot, foot, kind: fc.constant('stone' as const), cameOut: fc.boolean() }),
  fc.record({
    on: onFoot,
    foot,
    kind: fc.constant('crack' as const),
    blood: fc.boolean(),
    pain: fc.boolean(),
  }),
  fc.record({
    on: fc.constant('body' as const),
    place: fc.constantFrom(...BODY_PLACES),
    side: fc.constantFrom('left', 'right', 'middle'),
    kind: fc.constantFrom('rub', 'sore', 'swelling', 'cut', 'skin-patch', 'reacts-to-touch'),
  }),
  fc.record({
    on: fc.constant('manner' as const),
    kind: fc.constantFrom('calm', 'unsettled', 'ears-pinned', 'will-not-be-touched'),
  }),
  fc.record({
    on: fc.constant('vital' as const),
    kind: fc.constantFrom('pulse', 'breathing'),
    countIn15s: fc.integer({ min: 0, max: 75 }),
  }),
  fc.record({
    on: fc.constant('vital' as const),
    kind: fc.constant('temperature' as const),
    fahrenheit: fc.integer({ min: 900, max: 1120 }).map((tenths) => tenths / 10),
  }),
  fc.record({
    on: fc.constant('vital' as const),
    kind: fc.constant('refill' as const),
    seconds: fc.integer({ min: 0, max: 20 }),
  }),
  fc.record({
    on: fc.constant('lameness' as const),
    kind: fc.constant('aaep' as const),
    grade: fc.integer({ min: 0, max: 5 }),
  }),
  fc.record({ on: fc.constant('gait' as const), kind: fc.constantFrom('uneven', 'will-not-take-weight') }),
);
const findings = fc.array(finding, { maxLength: 8 });
const rules = fc
  .record({
    levels: fc.dictionary(fc.constantFrom(...FINDING_RULE_IDS), fc.constantFrom(...ADVICE_LEVELS), {
      maxKeys: 6,
    }),
    tackPlaces: fc.uniqueArray(fc.constantFrom(...BODY_PLACES)),
  })
  .map((each) => CareRules.parse({ findings: each }));
const rank = (level: string) => ADVICE_LEVELS.findIndex((each) => each === level);

it('a finding is a record that survives the wire', () => {
  fc.assert(
    fc.property(finding, (each) => {
      expect(Finding.parse(JSON.parse(JSON.stringify(each)))).toEqual(each);
    }),
  );
});

it('one more finding never makes the advice milder and never drops a hold', () => {
  fc.assert(
    fc.property(rules, findings, finding, (barn, seen, extra) => {
      const before = advise(seen, barn);
      const after = advise([...seen, extra], barn);
      expect(rank(after.level)).toBeGreaterThanOrEqual(rank(before.level));
      expect(after.holds).toEqual(expect.arrayContaining([...before.holds]));
    }),
  );
});

it('order and repetition of findings change nothing but the order of equals', () => {
  fc.assert(
    fc.property(rules, findings, (barn, seen) => {
      const plain = advise(seen, barn);
      const turned = advise([...seen, ...seen].reverse(), barn);
      const { level, whom, holds } = plain;
      expect(turned).toMatchObject({ level, whom, holds });
      expect(new Set(turned.why.map((why) => why.rule))).toEqual(new Set(plain.why.map((why) => why.rule)));
    }),
  );
});

it('"call now" always names vet or farrier and leaves a hold; "clear" leaves none', () => {
  fc.assert(
    fc.property(rules, findings, (barn, seen) => {
      const advice = advise(seen, barn);
      if (advice.level === 'call-now') {
        expect(advice.whom).not.toBe('instructor');
        expect(advice.holds).toContain(`until-${advice.whom}`);
      }
      if (rank(advice.level) <= rank('carry-on')) expect(advice.holds).toEqual([]);
      else expect(advice.holds.length).toBeGreaterThan(0);
    }),
  );
});

it('no barn setting lets a horse with a nail, both fronts warm, or a leg it will not stand on, work', () => {
  fc.assert(
    fc.property(rules, findings, (barn, seen) => {
      const emergencies: Finding[][] = [
        [{ on: 'foot', foot: 'LH', kind: 'nail' }],
        [
          { on: 'foot', foot: 'LF', kind: 'heat' },
          { on: 'foot', foot: 'RF', kind: 'heat' },
        ],
        [{ on: 'gait', kind: 'will-not-take-weight' }],
      ];
      for (const emergency of emergencies) {
        expect(rank(advise([...seen, ...emergency], barn).level)).toBeGreaterThanOrEqual(rank('off-today'));
      }
    }),
  );
});

it('dates go there and back, and any text is answered', () => {
  fc.assert(
    fc.property(fc.integer({ min: -25_000, max: 83_000 }), fc.integer({ min: 0, max: 30 }), (days, count) => {
      const date = dateOfDayNumber(days);
      expect(dayNumber(date)).toBe(days);
      expect(daysBetween(date, dateOfDayNumber(days + count))).toBe(count);
      const later = addWorkingDays(date, count);
      if (typeof later !== 'string') throw new Error('a date gives a date');
      const gap = daysBetween(date, later);
      expect(gap).toBeGreaterThanOrEqual(count);
      expect(gap).toBeLessThanOrEqual(Math.ceil(count / 5) * 7 + 2);
    }),
  );
  fc.assert(
    fc.property(fc.string(), fc.string(), (a, b) => {
      for (const answer of [daysBetween(a, b), addYears(a, 5), addWorkingDays(b, 2)]) {
        if (typeof answer === 'object') expect(answer.code).toBe('bad-date');
      }
      expect(farrierState(DEFAULT_CARE_RULES.farrier, a, b).kind).toBe(
        typeof daysBetween(a, b) === 'number' && a <= b ? expect.anything() : 'cannot-say',
      );
    }),
  );
});

it('a helmet and a set of shoes only ever get older', () => {
  const HELMET = ['in-use', 'due-soon', 'replace'];
  const FARRIER = ['fine', 'due-soon', 'due'];
  const from = fc.integer({ min: 18_000, max: 22_000 });
  const span = fc.integer({ min: 0, max: 2000 });
  fc.assert(
    fc.property(from, span, span, (day, age, later) => {
      const bought = dateOfDayNumber(day);
      const helmet = (days: number) =>
        HELMET.indexOf(
          helmetState(
            DEFAULT_CARE_RULES.helmet,
            { boughtOn: bought, knocked: false },
            dateOfDayNumber(day + days),
          ).kind,
        );
      const shoes = (days: number) =>
        FARRIER.indexOf(farrierState(DEFAULT_CARE_RULES.farrier, bought, dateOfDayNumber(day + days)).kind);
      expect(helmet(age)).toBeGreaterThanOrEqual(0);
      expect(helmet(age + later)).toBeGreaterThanOrEqual(helmet(age));
      expect(shoes(age + later)).toBeGreaterThanOrEqual(shoes(age));
    }),
  );
});

it('counts and readings of any kind are answered', () => {
  const any = fc.oneof(fc.double(), fc.integer(), fc.constantFrom(NaN, Infinity, -Infinity, -0));
  fc.assert(
    fc.property(any, (value) => {
      const { vitals } = DEFAULT_CARE_RULES;
      for (const judge of [judgePulse, judgeBreathing, judgeTemperatureF, judgeRefill]) {
        const sign = judge(vitals, value);
        if (!Number.isFinite(value) || value < 0) expect(sign.kind).toBe('cannot-say');
        if (sign.kind !== 'cannot-say') expect(Number.isFinite(sign.figure)).toBe(true);
      }
    }),
  );
});
