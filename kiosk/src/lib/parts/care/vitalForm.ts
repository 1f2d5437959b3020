/** Vital signs as they are counted: what is put in, and the findings that come of it. */
import type { VitalFinding } from '#core/care/findings.ts';
import { celsiusFromFahrenheit, fahrenheitFromCelsius } from '#core/care/units.ts';
import type { TemperatureUnit } from '#core/care/weatherRules.ts';

/** Counts over 15 s; temperature in tenths of the barn's degrees; refill in seconds. Null: not counted. */
export type VitalForm = { readonly [K in VitalFinding['kind']]: number | null };

export const NOTHING_COUNTED: VitalForm = { pulse: null, breathing: null, temperature: null, refill: null };

/** What is stepped from: amid the usual ranges of a horse at rest. */
const FIRST = { pulse: 9, breathing: 4, temperatureF: 100.5, refill: 2 };

const MOST_IN_15S = 75;
const TEMPERATURE_F = [90, 112] as const;
const MOST_REFILL_S = 20;

export function countVital(
  form: VitalForm,
  kind: VitalFinding['kind'],
  by: number,
  unit: TemperatureUnit,
): VitalForm {
  const value = form[kind];
  const [low, high] = rangeOf(kind, unit);
  const next = value === null ? firstOf(kind, unit) : Math.min(high, Math.max(low, value + by));
  return { ...form, [kind]: next };
}

export function leaveVital(form: VitalForm, kind: VitalFinding['kind']): VitalForm {
  return { ...form, [kind]: null };
}

/** One sign as a finding; null: not counted. */
export function vitalOf(
  form: VitalForm,
  kind: VitalFinding['kind'],
  unit: TemperatureUnit,
): VitalFinding | null {
  const value = form[kind];
  if (value === null) return null;
  switch (kind) {
    case 'pulse':
    case 'breathing':
      return { on: 'vital', kind, countIn15s: value };
    case 'temperature': {
      const degrees = unit === '°F' ? value / 10 : fahrenheitFromCelsius(value / 10);
      const [low, high] = TEMPERATURE_F;
      return {
        on: 'vital',
        kind,
        fahrenheit: Math.min(high, Math.max(low, Math.round(degrees * 100) / 100)),
      };
    }
    case 'refill':
      return { on: 'vital', kind, seconds: value };
  }
}

function firstOf(kind: VitalFinding['kind'], unit: TemperatureUnit): number {
  if (kind !== 'temperature') return FIRST[kind];
  return tenths(unit, FIRST.temperatureF);
}

function tenths(unit: TemperatureUnit, fahrenheit: number): number {
  return Math.round(10 * (unit === '°F' ? fahrenheit : celsiusFromFahrenheit(fahrenheit)));
}

function rangeOf(kind: VitalFinding['kind'], unit: TemperatureUnit): readonly [number, number] {
  switch (kind) {
    case 'pulse':
    case 'breathing':
      return [0, MOST_IN_15S];
    case 'temperature':
      return [tenths(unit, TEMPERATURE_F[0]), tenths(unit, TEMPERATURE_F[1])];
    case 'refill':
      return [0, MOST_REFILL_S];
  }
}
