/** The horse's heat sum and WBGT against published bands and worked sums. */
import { describe, expect, it } from 'vitest';
import { HEAT_SUM_SETS, heatSum, heatSumBand } from '#core/care/heatSum.ts';
import { DEFAULT_CARE_RULES } from '#core/care/rulesOfCare.ts';
import { adviseWeather, thunderWaitMs } from '#core/care/weather.ts';
import { wbgtBand, wbgtC } from '#core/care/wbgt.ts';
import { source } from '../source.ts';

const rules = DEFAULT_CARE_RULES.weather.heatSum;
const withWind = { ...rules, subtractWind: true };

function sumOf(used: typeof rules, airF: number, humidity: number, wind: number | null) {
  const result = heatSum(used, airF, humidity, wind);
  if (result.kind === 'cannot-say') throw new Error('in range');
  return result;
}

describe(
  'worked sums',
  source(
    'lavenderfields.co',
    'AAEP 2021',
    'M. E. Heimer, Texas AgriLife, July 2009',
    'bvdrc.com',
    'Pretty Pony Pastures',
  ),
  () => {
    it.each([
      // air °F, humidity %, wind mph, sum; source
      [77, 65, null, 142, 'lavenderfields.co'],
      [90, 60, null, 150, 'AAEP 2021 bounds, recomputed'],
      [100, 80, null, 180, 'vahorsefarms'],
    ])('%d + %d (wind %s) = %d', (airF, humidity, wind, sum) => {
      expect(sumOf(rules, airF, humidity, wind).sum).toBe(sum);
    });

    it.each([
      [79, 58, 4.6, 132.4, 'M. E. Heimer, Texas AgriLife, July 2009'],
      [97, 80, 10, 167, 'bvdrc.com'],
      [90, 70, 0, 160, 'Pretty Pony Pastures'],
      [90, 45, 10, 125, 'Pretty Pony Pastures'],
    ])('%d + %d - %d = %d where wind counts', (airF, humidity, wind, sum) => {
      expect(sumOf(withWind, airF, humidity, wind).sum).toBeCloseTo(sum, 9);
      expect(sumOf(rules, airF, humidity, wind).sum).toBe(airF + humidity);
    });
  },
);

describe(
  'bands at their edges',
  source('Univ. of Minnesota Equine Extension and AAEP 2021: under 130, over 130, over 150, over 180'),
  () => {
    it.each([
      [129, 'fine'],
      [130, 'reduced'],
      [131, 'reduced'],
      [150, 'reduced'],
      [151, 'greatly-reduced'],
      [179, 'greatly-reduced'],
      [180, 'greatly-reduced'],
      [181, 'no-work'],
    ] as const)('%d: %s', (sum, band) => {
      expect(heatSumBand(rules, sum)).toBe(band);
      expect(sumOf(rules, 100, sum - 100, null).band).toBe(band);
    });

    it.each([
      // Texas AgriLife 2009: 130-179 caution, 180 stop
      ['agrilife-wind', 129.9, 'fine'],
      ['agrilife-wind', 179, 'reduced'],
      ['agrilife-wind', 180, 'no-work'],
      // stable pages: 120, 150, 180
      ['early', 119, 'fine'],
      ['early', 120, 'reduced'],
      ['early', 150, 'greatly-reduced'],
      ['early', 180, 'no-work'],
    ] as const)('set %s, %d: %s', (id, sum, band) => {
      const set = HEAT_SUM_SETS.find((each) => each.id === id);
      if (set === undefined) throw new Error('named above');
      expect(heatSumBand(set.edges, sum)).toBe(band);
    });
  },
);

describe('humidity', () => {
  it('is flagged over 75 %', source('eXtension Horses, 18 July 2006'), () => {
    expect(sumOf(rules, 80, 75, null).humid).toBe(false);
    expect(sumOf(rules, 80, 75.1, null).humid).toBe(true);
  });
  it('is worse as more than half of the sum: 75 + 80 = 155', source('AAEP, July 2021'), () => {
    expect(sumOf(rules, 75, 80, null)).toMatchObject({ sum: 155, mostlyHumidity: true });
    expect(sumOf(rules, 90, 60, null)).toMatchObject({ sum: 150, mostlyHumidity: false });
    expect(sumOf(rules, 80, 80, null).mostlyHumidity).toBe(false);
  });
});

describe('what centres do', () => {
  const weather = DEFAULT_CARE_RULES.weather;
  const level = (airF: number, humidityPercent: number, windMph: number | null = null) => {
    const advice = adviseWeather(weather, { airF, humidityPercent, windMph });
    if (advice.kind === 'cannot-say') throw new Error('in range');
    return advice;
  };
  it(
    'mounted at a sum of 150, unmounted at 151',
    source('participant handbook of an accredited centre, Georgetown, Texas'),
    () => {
      expect(level(85, 65).why.map((why) => why.code)).toContain('heat-sum-reduced');
      expect(level(85, 66).why.map((why) => why.code)).toContain('heat-sum-greatly-reduced');
      expect(level(85, 66).level).toBe('unmounted');
    },
  );
  it('unmounted over 90 °F', source('accredited centre in Oregon: 90 / 91'), () => {
    expect(level(90, 20).level).not.toBe('unmounted');
    expect(level(91, 20).level).toBe('unmounted');
  });
  it('unmounted when it feels under 32 °F', source('Georgetown centre: felt temperature under 32 °F'), () => {
    expect(level(32, 50).level).toBe('as-planned');
    expect(level(31, 50).level).toBe('unmounted');
    expect(level(36, 50, 20).why).toMatchObject([{ code: 'felt-too-cold', level: 'unmounted' }]);
  });
  it('walk only under 20 °F', source('Dr A. Yates: no trot, canter or jump under 20 °F'), () => {
    const codes = (airF: number) => level(airF, 50).why.map((why) => why.code);
    expect(codes(20)).not.toContain('walk-only-cold');
    expect(codes(19)).toContain('walk-only-cold');
  });
  it('waits a full 30 minutes after the last thunder', source('accredited centre in Maryland'), () => {
    const minute = 60_000;
    expect(thunderWaitMs(weather, 0, 29 * minute)).toBe(minute);
    expect(thunderWaitMs(weather, 0, 30 * minute)).toBe(0);
    expect(thunderWaitMs(weather, null, 5)).toBe(0);
  });
});

describe(
  'wet bulb globe temperature',
  source('Equestrian Australia, 4 February 2019', 'Racing Victoria, 8 March 2024'),
  () => {
    it.each([
      // Equestrian Australia, 4 February 2019: both reach over 33
      [32, 60, 33.26],
      [40, 25, 33.84],
    ])('%d °C at %d %%', (airC, humidity, exact) => {
      const wbgt = wbgtC(airC, humidity);
      expect(wbgt).toBeCloseTo(exact, 2);
      expect(wbgt).toBeGreaterThan(33);
    });
    it.each([
      // Racing Victoria, 8 March 2024
      [27.9, 'low'],
      [28.0, 'moderate'],
      [31.9, 'moderate'],
      [32.0, 'high'],
    ] as const)('%d °C: %s', (wbgt, band) => {
      expect(wbgtBand(wbgt)).toBe(band);
    });
  },
);
