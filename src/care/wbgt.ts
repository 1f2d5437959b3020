/** Wet bulb globe temperature, approximated for shade from air and humidity, and the bands equestrian bodies use. */
import { badFigure, cannotSay, type BadFigure, type CannotSay } from './figures.ts';
import { from, reaches } from './bands.ts';
import { HUMIDITY_PERCENT } from './heatIndex.ts';

/**
 * Approximate WBGT in °C from air in °C and humidity in percent, moderate sun and light wind assumed:
 * 0.567 T + 0.393 e + 3.94, vapour pressure e = RH/100 · 6.105 · exp(17.27 T / (237.7 + T)) in hPa.
 * The form is the Australian Bureau of Meteorology's, from memory; it puts 32 °C / 60 % and 40 °C / 25 % over 33
 * as Equestrian Australia (4 February 2019) says. A measuring instrument is better. Refused outside -20 to 55 °C.
 */
export function wbgtC(airC: number, humidityPercent: number): number | CannotSay<BadFigure> {
  const bad =
    badFigure('airC', airC, -20, 55) ?? badFigure('humidityPercent', humidityPercent, ...HUMIDITY_PERCENT);
  if (bad) return cannotSay(bad);
  const vapourHPa = (humidityPercent / 100) * 6.105 * Math.exp((17.27 * airC) / (237.7 + airC));
  return 0.567 * airC + 0.393 * vapourHPa + 3.94;
}

export type WbgtBand = 'low' | 'moderate' | 'high';

/** Of the edges. */
export const WBGT_SOURCE = 'Racing Victoria guidelines, 8 March 2024: moderate from 28 °C, high from 32 °C';

/** Edges in °C. */
const WBGT_EDGES = { moderate: from(28), high: from(32) } as const;

/** The band of a WBGT in °C. */
export function wbgtBand(wbgt: number): WbgtBand {
  if (reaches(WBGT_EDGES.high, wbgt)) return 'high';
  if (reaches(WBGT_EDGES.moderate, wbgt)) return 'moderate';
  return 'low';
}
