/** Hotter is never milder, windier is never warmer, and any number gives an answer or a typed refusal. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { heatIndexBand, heatIndexF } from '#core/care/heatIndex.ts';
import { heatSum, HEAT_SUM_SETS, heatSumBand } from '#core/care/heatSum.ts';
import { DEFAULT_CARE_RULES } from '#core/care/rulesOfCare.ts';
import { celsiusFromFahrenheit, kmhFromMph } from '#core/care/units.ts';
import { adviseWeather, LESSON_LEVELS } from '#core/care/weather.ts';
import type { WeatherReading } from '#core/care/weatherRules.ts';
import { windChillC, windChillF } from '#core/care/windChill.ts';
import { wbgtBand, wbgtC } from '#core/care/wbgt.ts';

const any = fc.oneof(fc.double(), fc.constantFrom(NaN, Infinity, -Infinity, -0));
const air = fc.double({ min: -80, max: 130, noNaN: true });
const humidity = fc.double({ min: 0, max: 100, noNaN: true });
const wind = fc.double({ min: 0, max: 100, noNaN: true });
const more = fc.double({ min: 0, max: 60, noNaN: true });
const SUM_BANDS = ['fine', 'reduced', 'greatly-reduced', 'no-work'];
const INDEX_BANDS = ['none', 'caution', 'extreme-caution', 'danger', 'extreme-danger'];

it('more heat or more humidity never gives the horse a milder band', () => {
  fc.assert(
    fc.property(air, humidity, more, more, wind, fc.boolean(), (t, rh, warmer, wetter, mph, subtractWind) => {
      const rules = { ...DEFAULT_CARE_RULES.weather.heatSum, subtractWind };
      const now = heatSum(rules, t, rh, mph);
      const later = heatSum(rules, Math.min(130, t + warmer), Math.min(100, rh + wetter), mph);
      if (now.kind === 'cannot-say' || later.kind === 'cannot-say') throw new Error('in range');
      expect(SUM_BANDS.indexOf(later.band)).toBeGreaterThanOrEqual(SUM_BANDS.indexOf(now.band));
      expect(Number(later.humid)).toBeGreaterThanOrEqual(Number(now.humid));
    }),
  );
});

it('every set of bands is in order at and beside its edges', () => {
  const near = fc.tuple(fc.constantFrom(120, 130, 150, 180), fc.double({ min: -2, max: 2, noNaN: true }));
  fc.assert(
    fc.property(fc.constantFrom(...HEAT_SUM_SETS), near, more, (set, [edge, off], up) => {
      const band = (sum: number) => SUM_BANDS.indexOf(heatSumBand(set.edges, sum));
      expect(band(edge + off + up)).toBeGreaterThanOrEqual(band(edge + off));
    }),
  );
});

it('hotter air never puts people in a milder band, though the printed equations step at their joints', () => {
  fc.assert(
    fc.property(air, humidity, more, fc.constantFrom('newer', 'older'), (t, rh, warmer, set) => {
      const now = heatIndexF(t, rh);
      const later = heatIndexF(Math.min(130, t + warmer), rh);
      if (now.kind === 'cannot-say' || later.kind === 'cannot-say') throw new Error('in range');
      const band = (indexF: number) => INDEX_BANDS.indexOf(heatIndexBand(set, indexF));
      expect(band(later.fahrenheit)).toBeGreaterThanOrEqual(band(now.fahrenheit));
    }),
    { numRuns: 2000 },
  );
});

it('over 32 °F felt, hotter weather never asks less of care', () => {
  const level = (reading: WeatherReading) => {
    const advice = adviseWeather(DEFAULT_CARE_RULES.weather, reading);
    if (advice.kind === 'cannot-say') throw new Error('in range');
    return LESSON_LEVELS.indexOf(advice.level);
  };
  fc.assert(
    fc.property(
      fc.double({ min: 51, max: 130, noNaN: true }),
      humidity,
      fc.option(wind),
      more,
      (t, rh, mph, up) => {
        const now = { airF: t, humidityPercent: rh, windMph: mph };
        expect(level({ ...now, airF: Math.min(130, t + up) })).toBeGreaterThanOrEqual(level(now));
      },
    ),
  );
});

it('more wind never feels warmer, and the index is never warmer than the air', () => {
  fc.assert(
    fc.property(air, wind, more, (t, mph, windier) => {
      const now = windChillF(t, mph);
      const later = windChillF(t, mph + windier);
      if (now.kind === 'cannot-say' || later.kind === 'cannot-say') throw new Error('in range');
      expect(later.degrees).toBeLessThanOrEqual(now.degrees + 1e-9);
      expect(now.degrees).toBeLessThanOrEqual(t + 1e-9);
    }),
  );
});

it('both published forms of the wind chill agree to 0.15 °C over the chart', () => {
  const chart = fc.record({
    t: fc.double({ min: -45, max: 40, noNaN: true }),
    mph: fc.double({ min: 5, max: 60, noNaN: true }),
  });
  fc.assert(
    fc.property(chart, ({ t, mph }) => {
      const f = windChillF(t, mph);
      const c = windChillC(celsiusFromFahrenheit(t), kmhFromMph(mph));
      if (f.kind === 'cannot-say' || c.kind === 'cannot-say') throw new Error('in range');
      expect(Math.abs(celsiusFromFahrenheit(f.degrees) - c.degrees)).toBeLessThan(0.15);
    }),
  );
});

it('hotter or damper never lowers the wet bulb globe temperature', () => {
  const c = fc.double({ min: -20, max: 55, noNaN: true });
  fc.assert(
    fc.property(c, humidity, more, more, (t, rh, warmer, wetter) => {
      const now = wbgtC(t, rh);
      const later = wbgtC(Math.min(55, t + warmer), Math.min(100, rh + wetter));
      if (typeof now !== 'number' || typeof later !== 'number') throw new Error('in range');
      expect(later).toBeGreaterThanOrEqual(now - 1e-9);
      const bands = ['low', 'moderate', 'high'];
      expect(bands.indexOf(wbgtBand(later + 1e-9))).toBeGreaterThanOrEqual(bands.indexOf(wbgtBand(now)));
    }),
  );
});

it('any number at all is answered with finite figures or a typed refusal', () => {
  fc.assert(
    fc.property(any, any, any, (t, rh, mph) => {
      const answers = [heatIndexF(t, rh), windChillF(t, mph), windChillC(t, mph)];
      for (const answer of answers) {
        if (answer.kind === 'cannot-say') expect(answer.reason.code).toBe('bad-figure');
        else
          expect(
            Object.values(answer)
              .filter((v) => typeof v === 'number')
              .every(Number.isFinite),
          ).toBe(true);
      }
      const advice = adviseWeather(DEFAULT_CARE_RULES.weather, {
        airF: t,
        humidityPercent: rh,
        windMph: mph,
      });
      if (!(Number.isFinite(t) && rh >= 0 && rh <= 100 && mph >= 0)) expect(advice.kind).toBe('cannot-say');
      const wbgt = wbgtC(t, rh);
      expect(typeof wbgt === 'number' ? Number.isFinite(wbgt) : wbgt.kind === 'cannot-say').toBe(true);
    }),
  );
});
