/** Vital signs, lameness, condition and feet order against published ranges and scales. */
import { describe, expect, it } from 'vitest';
import { conditionFlag, hennekeScore } from '#core/care/condition.ts';
import { DEFAULT_FEET_ORDER, FEET_ORDERS, FeetOrder, type Foot } from '#core/care/feetOrder.ts';
import { nextFoot } from '#core/care/nextFoot.ts';
import { sharedKits } from '#core/care/isolation.ts';
import { aaepGrade, adviseLameness } from '#core/care/lameness.ts';
import { DEFAULT_CARE_RULES } from '#core/care/rulesOfCare.ts';
import { judgeBreathing, judgePulse, judgeRefill, judgeTemperatureF, perMinute } from '#core/care/vitals.ts';
import { source } from '../source.ts';

const rules = DEFAULT_CARE_RULES;

describe('vital signs', source('Equine Veterinary Service, vital signs'), () => {
  it(
    'counts 15 seconds times four',
    source('horse-care course of a university: 8 breaths in 15 s are 32 a minute, elevated', '4 are 16'),
    () => {
      expect(perMinute(8)).toBe(32);
      expect(judgeBreathing(rules.vitals, 8)).toMatchObject({
        kind: 'above',
        figure: 32,
        call: 'instructor',
      });
      expect(judgeBreathing(rules.vitals, 4)).toMatchObject({ kind: 'within', figure: 16, call: 'nobody' });
    },
  );

  it.each([
    // Equine Veterinary Service: breathing 12-20
    [2, 8, 'below'],
    [3, 12, 'within'],
    [5, 20, 'within'],
    [6, 24, 'above'],
  ] as const)('breathing %d in 15 s', (count, figure, kind) => {
    expect(judgeBreathing(rules.vitals, count)).toMatchObject({ kind, figure });
  });

  it.each([
    // Equine Veterinary Service: pulse 30-42; 4-H page: over 50 is distress
    [7, 28, 'below', 'instructor'],
    [8, 32, 'within', 'nobody'],
    [10, 40, 'within', 'nobody'],
    [11, 44, 'above', 'instructor'],
    [12, 48, 'above', 'instructor'],
    [13, 52, 'above', 'vet'],
  ] as const)('pulse %d in 15 s', (count, figure, kind, call) => {
    expect(judgePulse(rules.vitals, count)).toEqual({ kind, figure, call });
  });

  it('has its edges at 42 and 43 where a barn counts a full minute', () => {
    const at = (high: number) => judgePulse({ ...rules.vitals, pulse: { low: 30, high } }, 11).kind;
    expect(at(44)).toBe('within');
    expect(at(43)).toBe('above');
  });

  it.each([
    // Equine Veterinary Service: 99.5-101.5 °F, vet at once over 102.5 °F
    [99.4, 'below', 'instructor'],
    [99.5, 'within', 'nobody'],
    [101.5, 'within', 'nobody'],
    [102.5, 'above', 'instructor'],
    [102.6, 'above', 'vet'],
  ] as const)('%d °F', (temperatureF, kind, call) => {
    expect(judgeTemperatureF(rules.vitals, temperatureF)).toMatchObject({ kind, call });
  });

  it('tells a refill over 2 seconds', () => {
    expect(judgeRefill(rules.vitals, 2).kind).toBe('within');
    expect(judgeRefill(rules.vitals, 2.5).kind).toBe('above');
  });
});

describe(
  'lameness, AAEP 0-5 (BMC Vet Res 2016, table 1)',
  source('AAEP lameness scale, BMC Vet Res 2016, table 1'),
  () => {
    it.each([
      [0, 'none-seen'],
      [1, 'off-today'],
      [2, 'off-today'],
      [3, 'off-today'],
      [4, 'call-now'],
      [5, 'call-now'],
    ] as const)('grade %d: %s', (value, advice) => {
      const grade = aaepGrade(value);
      if (grade === null) throw new Error('a grade');
      expect(adviseLameness(rules.lameness, grade)).toBe(advice);
    });
    // the British scale goes to 10 (Vet Times, 7 December 2015): never taken for this one
    it.each([-1, 6, 7, 10, 2.5, NaN, Infinity])('refuses %d', (value) => {
      expect(aaepGrade(value)).toBeNull();
    });
  },
);

describe('condition, Henneke 1-9 (Equine Vet J 1983)', source('Henneke et al., Equine Vet J 1983;15'), () => {
  it.each([
    [1, 'thin'],
    [3, 'thin'],
    [4, null],
    [5, null],
    [7, null],
    [8, 'fat'],
    [9, 'fat'],
  ] as const)('score %d: %s', (value, flag) => {
    const score = hennekeScore(value);
    if (score === null) throw new Error('a score');
    expect(conditionFlag(rules.condition, score)).toBe(flag);
  });
  // another scale runs 0-5 (NSW DPI Primefact 928)
  it.each([0, 10, 4.5, NaN, -Infinity])('refuses %d', (value) => {
    expect(hennekeScore(value)).toBeNull();
  });
});

describe('order of the feet', () => {
  it(
    'has both orders the sources give',
    source(
      'Healing with Horses: left front, left back, right back, right front. A web guide: ... right front, right back',
    ),
    () => {
      expect(FEET_ORDERS.map((each) => each.order.join(' '))).toEqual(['LF LH RH RF', 'LF LH RF RH']);
      expect(DEFAULT_FEET_ORDER).toEqual(['LF', 'LH', 'RH', 'RF']);
    },
  );
  it('is done only when all four are', source('Healing with Horses, volunteer handbook'), () => {
    const done = new Set<Foot>();
    const walked: Foot[] = [];
    for (
      let foot = nextFoot(DEFAULT_FEET_ORDER, done);
      foot !== null;
      foot = nextFoot(DEFAULT_FEET_ORDER, done)
    ) {
      walked.push(foot);
      done.add(foot);
    }
    expect(walked).toEqual(DEFAULT_FEET_ORDER);
    expect(nextFoot(DEFAULT_FEET_ORDER, new Set(['LF', 'LH', 'RF']))).toBe('RH');
  });
  it('names each foot once', source('Healing with Horses, volunteer handbook'), () => {
    expect(FeetOrder.safeParse(['RF', 'RH', 'LH', 'LF']).success).toBe(true);
    expect(FeetOrder.safeParse(['RF', 'RF', 'LH', 'LF']).success).toBe(false);
    expect(FeetOrder.safeParse(['RF', 'RH', 'LH']).success).toBe(false);
  });
});

describe(
  'own kit',
  source(
    'The Horse 27379',
    'Colorado State Univ. Animal Biosecurity: own halter, lead, tools and tack for each horse',
  ),
  () => {
    const uses = [
      { kitId: 'red', horseId: 'a' },
      { kitId: 'red', horseId: 'b' },
      { kitId: 'red', horseId: 'a' },
      { kitId: 'blue', horseId: 'c' },
      { kitId: 'green', horseId: 'c' },
      { kitId: 'green', horseId: 'd' },
    ];
    it('warns of a kit two horses share, worst first', () => {
      expect(sharedKits(rules.isolation, uses, new Set(['d']))).toEqual([
        { code: 'isolated-kit-shared', kitId: 'green', horseIds: ['c', 'd'] },
        { code: 'kit-shared', kitId: 'red', horseIds: ['a', 'b'] },
      ]);
    });
    it('may be asked of horses apart only', () => {
      const only = { ...rules.isolation, warnOfSharedKit: 'isolated-only' } as const;
      expect(sharedKits(only, uses, new Set(['d'])).map((each) => each.kitId)).toEqual(['green']);
      expect(sharedKits(only, uses, new Set())).toEqual([]);
    });
  },
);
