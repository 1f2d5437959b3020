/** The horse's own heat rule: air in °F plus relative humidity in percent. */
import { AIR_F, HUMIDITY_PERCENT } from './heatIndex.ts';
import { WIND_MPH } from './windChill.ts';
import type { HeatSumRules } from './heatSumRules.ts';
import { from, over, reaches } from './bands.ts';
import { badFigure, cannotSay, type BadFigure, type CannotSay, type Sourced } from './figures.ts';

export type HeatSumBand = 'fine' | 'reduced' | 'greatly-reduced' | 'no-work';

export interface HeatSum {
  readonly kind: 'sum';
  readonly sum: number;
  readonly band: HeatSumBand;
  /** Humidity over the barn's bound (75 %). */
  readonly humid: boolean;
  /** Humidity makes more than half of the sum: worse than the sum alone says. AAEP 2021. */
  readonly mostlyHumidity: boolean;
}

/**
 * Heat sum and its band.
 *
 * Default edges: under 130 fine, over 150 greatly reduced, over 180 dangerous (Univ. of Minnesota Equine Extension;
 * AAEP). The sources leave 130 itself open; here it belongs to the stricter side. 150 and 180 stay on the milder
 * side because the sources say "over". Humidity flag: eXtension Horses, 2006.
 *
 * @param windMph taken off only when the barn's switch says so; then a missing wind counts as none
 */
export function heatSum(
  rules: HeatSumRules,
  airF: number,
  humidityPercent: number,
  windMph: number | null,
): HeatSum | CannotSay<BadFigure> {
  const wind = rules.subtractWind ? (windMph ?? 0) : 0;
  const bad =
    badFigure('airF', airF, ...AIR_F) ??
    badFigure('humidityPercent', humidityPercent, ...HUMIDITY_PERCENT) ??
    badFigure('windMph', wind, ...WIND_MPH);
  if (bad) return cannotSay(bad);
  const sum = airF + humidityPercent - wind;
  return {
    kind: 'sum',
    sum,
    band: heatSumBand(rules, sum),
    humid: humidityPercent > rules.humidOverPercent,
    mostlyHumidity: humidityPercent > (airF + humidityPercent) / 2,
  };
}

/** The band a sum falls in. NaN is no figure and never comes from `heatSum`. */
export function heatSumBand(
  rules: Pick<HeatSumRules, 'reduced' | 'greatlyReduced' | 'noWork'>,
  sum: number,
): HeatSumBand {
  if (reaches(rules.noWork, sum)) return 'no-work';
  if (reaches(rules.greatlyReduced, sum)) return 'greatly-reduced';
  if (reaches(rules.reduced, sum)) return 'reduced';
  return 'fine';
}

/** Sets of edges in use, for a barn to choose from. */
export const HEAT_SUM_SETS = [
  {
    id: 'extension',
    edges: { reduced: from(130), greatlyReduced: over(150), noWork: over(180) },
    subtractWind: false,
    source: 'Univ. of Minnesota Equine Extension; AAEP 2021; eXtension Horses 2006',
    grade: 'A',
  },
  {
    id: 'agrilife-wind',
    edges: { reduced: from(130), greatlyReduced: from(180), noWork: from(180) },
    subtractWind: true,
    source: 'Texas AgriLife Extension, county agent, 2009',
    grade: 'B',
  },
  {
    id: 'early',
    edges: { reduced: from(120), greatlyReduced: from(150), noWork: from(180) },
    subtractWind: false,
    source: 'Stable pages on the general web',
    grade: 'C',
  },
] as const satisfies readonly (Sourced & {
  readonly id: string;
  readonly edges: Pick<HeatSumRules, 'reduced' | 'greatlyReduced' | 'noWork'>;
  readonly subtractWind: boolean;
})[];
