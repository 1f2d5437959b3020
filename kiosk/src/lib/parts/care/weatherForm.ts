/** The weather as it is typed in: in the barn's own units, kept as a reading in °F, miles an hour and °C of wet bulb globe. */
import { AIR_F } from '#core/care/heatIndex.ts';
import {
  celsiusFromFahrenheit,
  fahrenheitFromCelsius,
  kmhFromMph,
  metresASecondFromMph,
  mphFromKmh,
  mphFromMetresASecond,
} from '#core/care/units.ts';
import type { TemperatureUnit, WeatherReading, WeatherRules, WindUnit } from '#core/care/weatherRules.ts';
import { WIND_MPH } from '#core/care/windChill.ts';

export type Units = Pick<WeatherRules, 'temperatureUnit' | 'windUnit'>;

/** In the barn's units; null: not read. */
export type WeatherForm = {
  readonly air: number;
  readonly humidity: number;
  readonly wind: number | null;
  readonly wbgt: number | null;
};
export type WeatherField = keyof WeatherForm;

/** A mild day: what somebody steps from when nothing was read yet. */
const MILD: WeatherReading = { airF: 68, humidityPercent: 50, windMph: 5 };
/** What a wet bulb globe is stepped from, °C. */
const FIRST_WBGT_C = 20;
const WBGT_C = [-20, 55] as const;

export function temperatureIn(unit: TemperatureUnit, fahrenheit: number): number {
  return unit === '°F' ? fahrenheit : celsiusFromFahrenheit(fahrenheit);
}

function fahrenheitOf(unit: TemperatureUnit, value: number): number {
  return unit === '°F' ? value : fahrenheitFromCelsius(value);
}

export function windIn(unit: WindUnit, mph: number): number {
  switch (unit) {
    case 'mph':
      return mph;
    case 'km/h':
      return kmhFromMph(mph);
    case 'm/s':
      return metresASecondFromMph(mph);
  }
}

function mphOf(unit: WindUnit, value: number): number {
  switch (unit) {
    case 'mph':
      return value;
    case 'km/h':
      return mphFromKmh(value);
    case 'm/s':
      return mphFromMetresASecond(value);
  }
}

/** From the last reading, rounded to whole units; `null`: none today. */
export function formFrom(units: Units, last: WeatherReading | null): WeatherForm {
  const { airF, humidityPercent, windMph, wbgtC } = last ?? MILD;
  return {
    air: Math.round(temperatureIn(units.temperatureUnit, airF)),
    humidity: Math.round(humidityPercent),
    wind: windMph === null ? null : Math.round(windIn(units.windUnit, windMph)),
    wbgt: wbgtC === undefined ? null : wbgtShown(units, wbgtC),
  };
}

/** The form with one value stepped, within what an instrument can show. A value that was left out begins anew. */
export function stepped(units: Units, form: WeatherForm, field: WeatherField, by: number): WeatherForm {
  const value = form[field];
  if (value === null) return putIn(units, form, field);
  const [low, high] = rangeOf(units, field);
  return { ...form, [field]: Math.min(high, Math.max(low, value + by)) };
}

/** Only wind and wet bulb globe can be left out. */
export function leftOut(form: WeatherForm, field: 'wind' | 'wbgt'): WeatherForm {
  return { ...form, [field]: null };
}

export function putIn(units: Units, form: WeatherForm, field: WeatherField): WeatherForm {
  const wbgt = wbgtShown(units, FIRST_WBGT_C);
  const mild = { ...formFrom(units, null), wbgt };
  return { ...form, [field]: mild[field] };
}

export function readingFrom(units: Units, form: WeatherForm): WeatherReading {
  const { air, humidity, wind, wbgt } = form;
  return {
    airF: hundredths(clamp(fahrenheitOf(units.temperatureUnit, air), AIR_F)),
    humidityPercent: humidity,
    windMph: wind === null ? null : hundredths(clamp(mphOf(units.windUnit, wind), WIND_MPH)),
    ...(wbgt !== null && { wbgtC: hundredths(clamp(celsiusOf(units.temperatureUnit, wbgt), WBGT_C)) }),
  };
}

function wbgtShown({ temperatureUnit }: Units, celsius: number): number {
  return Math.round(temperatureUnit === '°C' ? celsius : fahrenheitFromCelsius(celsius));
}

function celsiusOf(unit: TemperatureUnit, value: number): number {
  return unit === '°C' ? value : celsiusFromFahrenheit(value);
}

function rangeOf(units: Units, field: WeatherField): readonly [number, number] {
  const whole = ([low, high]: readonly [number, number]) => [Math.ceil(low), Math.floor(high)] as const;
  switch (field) {
    case 'air':
      return whole([
        temperatureIn(units.temperatureUnit, AIR_F[0]),
        temperatureIn(units.temperatureUnit, AIR_F[1]),
      ]);
    case 'humidity':
      return [0, 100];
    case 'wind':
      return whole([0, windIn(units.windUnit, WIND_MPH[1])]);
    case 'wbgt':
      return units.temperatureUnit === '°C'
        ? WBGT_C
        : whole([fahrenheitFromCelsius(WBGT_C[0]), fahrenheitFromCelsius(WBGT_C[1])]);
  }
}

function clamp(value: number, [low, high]: readonly [number, number]): number {
  return Math.min(high, Math.max(low, value));
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}
