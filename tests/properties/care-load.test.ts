/** Where nature is monotone, so are the rules on load and weight; any number gives an answer or a typed refusal. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { weightByScale, weightByTapeCm, weightByTapeInches } from '#core/care/bodyWeight.ts';
import { HennekeScore } from '#core/care/condition.ts';
import { HorseLoadLimit, judgeLoad, LoadRules, type LoadCase, type LoadVerdict } from '#core/care/load.ts';
import { DEFAULT_CARE_RULES } from '#core/care/rulesOfCare.ts';
import * as units from '#core/care/units.ts';

const anyNumber = fc.oneof(
  fc.double(),
  fc.constantFrom(NaN, Infinity, -Infinity, -0, 0, Number.MAX_VALUE, Number.MIN_VALUE),
);
const percent = fc.double({ min: 5, max: 25, noNaN: true });

const rules = fc
  .record({
    limit: fc.oneof(
      fc.constant({ of: 'sixth' as const }),
      fc.record({ of: fc.constant('percent' as const), percent }),
    ),
    unbalancedAddPercent: fc.double({ min: 0, max: 25, noNaN: true }),
    flaggedConditionPercent: fc.option(percent),
    tapeAtLowEnd: fc.boolean(),
    balancedRiderCapKg: fc.option(fc.double({ min: 10, max: 200, noNaN: true })),
    unbalancedRiderCapKg: fc.option(fc.double({ min: 10, max: 200, noNaN: true })),
  })
  .map((load) => ({ ...DEFAULT_CARE_RULES, load: LoadRules.parse(load) }));

const loadCase: fc.Arbitrary<LoadCase> = fc.record({
  riderKg: fc.double({ min: 5, max: 200, noNaN: true }),
  riderBalance: fc.constantFrom('balanced', 'unbalanced'),
  tackKg: fc.option(fc.double({ min: 0, max: 40, noNaN: true })),
  horseWeight: fc.record({
    kg: fc.double({ min: 30, max: 1500, noNaN: true }),
    how: fc.constantFrom('scale', 'tape'),
  }),
  pony: fc.boolean(),
  condition: fc.option(fc.integer({ min: 1, max: 9 }).map((score) => HennekeScore.parse(score))),
  horseLimit: fc.option(
    fc
      .oneof(
        fc.record({ of: fc.constant('percent' as const), percent }),
        fc.record({ of: fc.constant('kg' as const), kg: fc.double({ min: 0, max: 300, noNaN: true }) }),
      )
      .map((limit) => HorseLoadLimit.parse(limit)),
  ),
});

const fits = (verdict: LoadVerdict) => verdict.kind === 'fits';
const more = fc.double({ min: 0, max: 200, noNaN: true });

it('a heavier rider never fits better, nor does heavier tack', () => {
  fc.assert(
    fc.property(rules, loadCase, more, more, (barn, load, kg, tackKg) => {
      const heavier = { ...load, riderKg: (load.riderKg ?? 0) + kg, tackKg: (load.tackKg ?? 40) + tackKg };
      if (fits(judgeLoad(barn, heavier))) expect(judgeLoad(barn, load).kind).toBe('fits');
    }),
  );
});

it('a heavier horse never fits worse', () => {
  fc.assert(
    fc.property(rules, loadCase, more, (barn, load, kg) => {
      const weight = load.horseWeight ?? { kg: 500, how: 'scale' };
      const heavier = { ...load, horseWeight: { ...weight, kg: Math.min(1500, weight.kg + kg) } };
      if (fits(judgeLoad(barn, load))) expect(judgeLoad(barn, heavier).kind).toBe('fits');
    }),
  );
});

it('an unbalanced rider, an own limit and a missing weight never make it better', () => {
  fc.assert(
    fc.property(rules, loadCase, (barn, load) => {
      const sameCaps = {
        ...barn,
        load: { ...barn.load, unbalancedRiderCapKg: barn.load.balancedRiderCapKg },
      };
      if (fits(judgeLoad(sameCaps, { ...load, riderBalance: 'unbalanced' }))) {
        expect(fits(judgeLoad(sameCaps, { ...load, riderBalance: 'balanced' }))).toBe(true);
      }
      if (fits(judgeLoad(barn, load))) {
        expect(fits(judgeLoad(barn, { ...load, horseLimit: null }))).toBe(true);
      }
      expect(judgeLoad(barn, { ...load, riderKg: null }).kind).toBe('cannot-say');
      expect(judgeLoad(barn, { ...load, horseWeight: null }).kind).toBe('cannot-say');
    }),
  );
});

it('a yes always has spare, a no always says what was broken', () => {
  fc.assert(
    fc.property(rules, loadCase, (barn, load) => {
      const verdict = judgeLoad(barn, load);
      if (verdict.kind === 'fits') {
        expect(verdict.figures.totalKg).toBeLessThanOrEqual(verdict.figures.limitKg * (1 + 1e-6));
      } else if (verdict.kind === 'does-not-fit') {
        for (const why of verdict.because) {
          const figure = why.code === 'over-limit' ? verdict.figures.totalKg : verdict.figures.riderKg;
          expect(figure).toBeGreaterThan(why.limitKg);
        }
        expect(verdict.because.length).toBeGreaterThan(0);
      }
    }),
  );
});

it('any number at all is answered, and a figure outside nature never fits', () => {
  fc.assert(
    fc.property(loadCase, anyNumber, anyNumber, anyNumber, (load, rider, tack, horse) => {
      const verdict = judgeLoad(DEFAULT_CARE_RULES, {
        ...load,
        riderKg: rider,
        tackKg: tack,
        horseWeight: { kg: horse, how: 'tape' },
      });
      const usable = [rider, tack, horse].every(Number.isFinite) && rider > 0 && tack >= 0 && horse > 0;
      if (!usable) expect(verdict.kind).toBe('cannot-say');
      if (verdict.kind === 'cannot-say') expect(verdict.reason).toMatchObject({ code: 'bad-figure' });
    }),
  );
});

it('weighing takes any number and gives a weight inside its range, or refuses', () => {
  fc.assert(
    fc.property(anyNumber, anyNumber, fc.boolean(), (a, b, adult) => {
      for (const weight of [
        weightByScale(a),
        weightByTapeCm(DEFAULT_CARE_RULES.bodyWeight, { girthCm: a, lengthCm: b, adult }),
        weightByTapeInches(DEFAULT_CARE_RULES.bodyWeight, { girthIn: a, lengthIn: b, adult }),
      ]) {
        if (weight.kind === 'cannot-say') continue;
        expect(weight.lowKg).toBeLessThanOrEqual(weight.kg);
        expect(weight.highKg).toBeGreaterThanOrEqual(weight.kg);
        expect(weight.kg).toBeGreaterThan(0);
      }
    }),
  );
});

it('a longer tape never makes a lighter horse, and inches agree with centimetres to 0.2 %', () => {
  const girth = fc.double({ min: 110, max: 240, noNaN: true });
  const length = fc.double({ min: 100, max: 220, noNaN: true });
  fc.assert(
    fc.property(girth, length, fc.double({ min: 0, max: 20, noNaN: true }), (girthCm, lengthCm, extra) => {
      const kg = (g: number, l: number) => {
        const weight = weightByTapeCm(DEFAULT_CARE_RULES.bodyWeight, {
          girthCm: g,
          lengthCm: l,
          adult: true,
        });
        return weight.kind === 'weight' ? weight.kg : Infinity;
      };
      expect(kg(girthCm + extra, lengthCm)).toBeGreaterThanOrEqual(kg(girthCm, lengthCm));
      expect(kg(girthCm, lengthCm + extra)).toBeGreaterThanOrEqual(kg(girthCm, lengthCm));
      const inches = weightByTapeInches(DEFAULT_CARE_RULES.bodyWeight, {
        girthIn: units.inchesFromCm(girthCm),
        lengthIn: units.inchesFromCm(lengthCm),
        adult: true,
      });
      if (inches.kind === 'weight' && kg(girthCm, lengthCm) < Infinity) {
        expect(Math.abs(inches.kg / kg(girthCm, lengthCm) - 1)).toBeLessThan(0.002);
      }
    }),
  );
});

it('units go there and back', () => {
  const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
  const pairs = [
    [units.fahrenheitFromCelsius, units.celsiusFromFahrenheit],
    [units.kgFromPounds, units.poundsFromKg],
    [units.cmFromInches, units.inchesFromCm],
    [units.kmhFromMph, units.mphFromKmh],
  ] as const;
  fc.assert(
    fc.property(value, fc.constantFrom(...pairs), (x, [there, back]) => {
      expect(Math.abs(back(there(x)) - x)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(x)));
    }),
  );
});
