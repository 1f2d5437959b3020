/** The barn’s limits for the weather, and a reading of its instruments. */
import * as z from 'zod/mini';
import { AIR_F, HUMIDITY_PERCENT } from './heatIndex.ts';
import { HeatSumRules } from './heatSumRules.ts';
import { WIND_MPH } from './windChill.ts';

/** What a barn's own instruments show. Readings are kept in °F and miles an hour, whatever they were typed in. */
export const TEMPERATURE_UNITS = ['°F', '°C'] as const;
export const WIND_UNITS = ['mph', 'km/h', 'm/s'] as const;
export type TemperatureUnit = (typeof TEMPERATURE_UNITS)[number];
export type WindUnit = (typeof WIND_UNITS)[number];

export const WeatherRules = z.object({
  heatSum: z.prefault(HeatSumRules, {}),
  heatIndexBands: z._default(z.enum(['newer', 'older']), 'newer'),
  /** Air hotter than this: unmounted, °F. null for no such rule. */
  unmountedOverF: z._default(z.nullable(z.number().check(z.minimum(60), z.maximum(120))), 90),
  /** Felt temperature (wind chill) colder than this: unmounted, °F. null for no such rule. */
  unmountedFeltUnderF: z._default(z.nullable(z.number().check(z.minimum(-40), z.maximum(60))), 32),
  /** Air colder than this: walk only, °F. */
  walkOnlyUnderF: z._default(z.number().check(z.minimum(-40), z.maximum(60)), 20),
  /** Wait after the last thunder, minutes. */
  thunderWaitMinutes: z._default(z.int().check(z.minimum(10), z.maximum(120)), 30),
  /** A reading older than this is shown as old, minutes. */
  oldAfterMinutes: z._default(z.int().check(z.minimum(5), z.maximum(24 * 60)), 60),
  temperatureUnit: z._default(z.enum(TEMPERATURE_UNITS), '°F'),
  windUnit: z._default(z.enum(WIND_UNITS), 'mph'),
});
export type WeatherRules = z.infer<typeof WeatherRules>;

/** What a person read off the barn's instruments. */
export const WeatherReading = z.object({
  /** In the shade, °F. */
  airF: z.number().check(z.minimum(AIR_F[0]), z.maximum(AIR_F[1])),
  humidityPercent: z.number().check(z.minimum(HUMIDITY_PERCENT[0]), z.maximum(HUMIDITY_PERCENT[1])),
  /** null: nobody knows; the air temperature then stands for the felt one. */
  windMph: z.nullable(z.number().check(z.minimum(WIND_MPH[0]), z.maximum(WIND_MPH[1]))),
  /** Wet bulb globe temperature off an instrument, °C; missing: none was read. */
  wbgtC: z.optional(z.number().check(z.minimum(-20), z.maximum(55))),
});
export type WeatherReading = z.infer<typeof WeatherReading>;
