/** What the weather asks of today's lessons: one level, with every reason and figure behind it. */
import type { WeatherRules, WeatherReading } from './weatherRules.ts';
import { cannotSay, type BadFigure, type CannotSay } from './figures.ts';
import { heatIndexBand, heatIndexF, type HeatIndex, type HeatIndexBand } from './heatIndex.ts';
import { heatSum, type HeatSum } from './heatSum.ts';
import { wbgtBand, wbgtC, type WbgtBand } from './wbgt.ts';
import { celsiusFromFahrenheit } from './units.ts';
import { windChillF, type WindChill } from './windChill.ts';

/** From mild to strict. */
export const LESSON_LEVELS = ['as-planned', 'lighter', 'unmounted', 'no-work'] as const;
export type LessonLevel = (typeof LESSON_LEVELS)[number];

export interface WeatherReason {
  readonly code:
    | 'heat-sum-reduced'
    | 'heat-sum-greatly-reduced'
    | 'heat-sum-no-work'
    | 'humid'
    | 'mostly-humidity'
    | 'people-caution'
    | 'people-extreme-caution'
    | 'people-danger'
    | 'people-extreme-danger'
    | 'air-too-hot'
    | 'felt-too-cold'
    | 'walk-only-cold'
    | 'wbgt-moderate'
    | 'wbgt-high';
  readonly level: LessonLevel;
  /** In the unit of the figure: °F, or °F + percent for the sum, or percent, or °C for the wet bulb globe. */
  readonly figure: number;
}

export interface WeatherAdvice {
  readonly kind: 'advice';
  readonly level: LessonLevel;
  readonly why: readonly WeatherReason[];
  readonly heatSum: HeatSum;
  readonly heatIndex: HeatIndex;
  readonly heatIndexBand: HeatIndexBand;
  /** null without a wind. */
  readonly windChill: WindChill | null;
  /** null: not measured, and outside the range in which it can be reckoned. */
  readonly wbgt: Wbgt | null;
}

export interface Wbgt {
  readonly celsius: number;
  readonly band: WbgtBand;
  /** False: reckoned from air and humidity. Only a measured one leads to a level. */
  readonly measured: boolean;
}

/**
 * Weighs the horse's heat sum, people's heat index, wind chill and the barn's own limits; the strictest wins.
 *
 * Sources of the levels: sum over 150 and felt under 32 °F unmounted, handbook of an accredited adaptive centre
 * (Georgetown, Texas); air over 90 °F unmounted, another (Oregon); no faster than a walk under 20 °F, Dr A. Yates.
 * The levels that people's bands and the wet bulb globe's lead to have no source. The instructor decides.
 */
export function adviseWeather(
  rules: WeatherRules,
  reading: WeatherReading,
): WeatherAdvice | CannotSay<BadFigure> {
  const sum = heatSum(rules.heatSum, reading.airF, reading.humidityPercent, reading.windMph);
  if (sum.kind === 'cannot-say') return sum;
  const index = heatIndexF(reading.airF, reading.humidityPercent);
  if (index.kind === 'cannot-say') return index;
  const chill = reading.windMph === null ? null : windChillF(reading.airF, reading.windMph);
  if (chill?.kind === 'cannot-say') return cannotSay(chill.reason);

  const band = heatIndexBand(rules.heatIndexBands, index.fahrenheit);
  const feltF = chill?.degrees ?? reading.airF;
  const why: WeatherReason[] = [];
  const say = (code: WeatherReason['code'], level: LessonLevel, figure: number) =>
    why.push({ code, level, figure });

  if (sum.band === 'no-work') say('heat-sum-no-work', 'no-work', sum.sum);
  if (sum.band === 'greatly-reduced') say('heat-sum-greatly-reduced', 'unmounted', sum.sum);
  if (sum.band === 'reduced') say('heat-sum-reduced', 'lighter', sum.sum);
  if (sum.band !== 'fine' && sum.humid) say('humid', 'lighter', reading.humidityPercent);
  if (sum.band !== 'fine' && sum.mostlyHumidity) say('mostly-humidity', 'lighter', reading.humidityPercent);
  if (band !== 'none') say(`people-${band}`, PEOPLE_LEVEL[band], index.fahrenheit);
  if (rules.unmountedOverF !== null && reading.airF > rules.unmountedOverF) {
    say('air-too-hot', 'unmounted', reading.airF);
  }
  if (rules.unmountedFeltUnderF !== null && feltF < rules.unmountedFeltUnderF) {
    say('felt-too-cold', 'unmounted', feltF);
  }
  if (reading.airF < rules.walkOnlyUnderF) say('walk-only-cold', 'lighter', reading.airF);
  const wbgt = wbgtOf(reading);
  if (wbgt?.measured && wbgt.band === 'moderate') say('wbgt-moderate', 'lighter', wbgt.celsius);
  if (wbgt?.measured && wbgt.band === 'high') say('wbgt-high', 'unmounted', wbgt.celsius);

  return {
    kind: 'advice',
    level: strictest(why.map((reason) => reason.level)),
    why,
    heatSum: sum,
    heatIndex: index,
    heatIndexBand: band,
    windChill: chill,
    wbgt,
  };
}

function wbgtOf({ airF, humidityPercent, wbgtC: measured }: WeatherReading): Wbgt | null {
  if (measured !== undefined) return { celsius: measured, band: wbgtBand(measured), measured: true };
  const celsius = wbgtC(celsiusFromFahrenheit(airF), humidityPercent);
  return typeof celsius === 'number' ? { celsius, band: wbgtBand(celsius), measured: false } : null;
}

const PEOPLE_LEVEL: Readonly<Record<Exclude<HeatIndexBand, 'none'>, LessonLevel>> = {
  caution: 'as-planned',
  'extreme-caution': 'lighter',
  danger: 'unmounted',
  'extreme-danger': 'no-work',
};

/** The strictest of some levels; none at all is "as planned". */
function strictest(levels: readonly LessonLevel[]): LessonLevel {
  const ranks = levels.map((level) => LESSON_LEVELS.indexOf(level));
  return LESSON_LEVELS[Math.max(0, ...ranks)] ?? 'as-planned';
}

/**
 * Milliseconds still to wait after the last thunder; 0 when the wait is over.
 * Default 30 minutes, counted anew with every thunder: an accredited centre in Maryland.
 */
export function thunderWaitMs(rules: WeatherRules, lastThunderMs: number | null, nowMs: number): number {
  if (lastThunderMs === null) return 0;
  return Math.max(0, lastThunderMs + rules.thunderWaitMinutes * 60_000 - nowMs);
}
