/** Wind chill for people: a face in the wind, no sun. */
import { AIR_F } from './heatIndex.ts';
import { badFigure, cannotSay, type BadFigure, type CannotSay } from './figures.ts';
import { celsiusFromFahrenheit, fahrenheitFromCelsius, kmhFromMph, mphFromKmh } from './units.ts';

/** Warmest air the index is made for, °F. */
const WIND_CHILL_TOP_F = 50;
/** Wind at or below which the air temperature itself stands, mph. */
const CALM_MPH = 3;
export const WIND_MPH = [0, 250] as const;

export interface WindChill {
  readonly kind: 'index';
  /** In the unit asked for. */
  readonly degrees: number;
  /** 'air': too warm or too calm for the index, so the air temperature stands. */
  readonly branch: 'air' | 'wind-chill';
}

/**
 * Wind chill in °F from air in °F and wind in mph.
 * 35.74 + 0.6215 T − 35.75 V^0.16 + 0.4275 T V^0.16 for T ≤ 50 °F and V > 3 mph, else the air temperature.
 * Source: US National Weather Service, index of 1 November 2001 (table of NWS La Crosse).
 * Refused outside -80 to 130 °F, 0 to 250 mph.
 */
export function windChillF(airF: number, windMph: number): WindChill | CannotSay<BadFigure> {
  const bad = badFigure('airF', airF, ...AIR_F) ?? badFigure('windMph', windMph, ...WIND_MPH);
  if (bad) return cannotSay(bad);
  if (airF > WIND_CHILL_TOP_F || windMph <= CALM_MPH) return { kind: 'index', degrees: airF, branch: 'air' };
  const v = windMph ** 0.16;
  const degrees = 35.74 + 0.6215 * airF - 35.75 * v + 0.4275 * airF * v;
  return { kind: 'index', degrees, branch: 'wind-chill' };
}

/**
 * The same index in °C from air in °C and wind in km/h, by its own published constants:
 * 13.12 + 0.6215 T − 11.37 V^0.16 + 0.3965 T V^0.16. Within 0.1 °C of the other form.
 */
export function windChillC(airC: number, windKmh: number): WindChill | CannotSay<BadFigure> {
  const bad =
    badFigure('airC', airC, celsiusFromFahrenheit(AIR_F[0]), celsiusFromFahrenheit(AIR_F[1])) ??
    badFigure('windKmh', windKmh, 0, kmhFromMph(WIND_MPH[1]));
  if (bad) return cannotSay(bad);
  if (fahrenheitFromCelsius(airC) > WIND_CHILL_TOP_F || mphFromKmh(windKmh) <= CALM_MPH) {
    return { kind: 'index', degrees: airC, branch: 'air' };
  }
  const v = windKmh ** 0.16;
  const degrees = 13.12 + 0.6215 * airC - 11.37 * v + 0.3965 * airC * v;
  return { kind: 'index', degrees, branch: 'wind-chill' };
}
