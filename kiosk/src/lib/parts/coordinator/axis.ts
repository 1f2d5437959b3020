/** The time axis the lanes share. Instants in ms. */
import { HOUR_MS, MINUTE_MS } from '#core/time/units.ts';

export type Axis = { readonly from: number; readonly until: number };

const TICK_MS = 15 * MINUTE_MS;
const BEFORE_NOW_MS = 10 * MINUTE_MS;
const LEAST_MS = HOUR_MS;
/** More would make the near future too narrow to read. */
const MOST_MS = 2.5 * HOUR_MS;

/** From a little before now to the last of `times` that is not too far off, rounded to whole ticks. */
export function axisFor(now: number, times: readonly number[]): Axis {
  const from = Math.floor((now - BEFORE_NOW_MS) / TICK_MS) * TICK_MS;
  const last = Math.max(from + LEAST_MS, ...times.filter((time) => time <= from + MOST_MS));
  return { from, until: Math.ceil(last / TICK_MS) * TICK_MS };
}

/** Where an instant stands on the axis, in percent, kept on it. */
export function at({ from, until }: Axis, time: number): number {
  return (100 * Math.min(Math.max(time - from, 0), until - from)) / (until - from);
}

export function ticks({ from, until }: Axis): number[] {
  return Array.from({ length: Math.round((until - from) / TICK_MS) + 1 }, (_, i) => from + i * TICK_MS);
}
