/** A board on the wall that nobody needs just now: dark at night, and never quite still, so that nothing burns into its glass. */
import { MINUTE_MS } from '../time/units.ts';
import { wallTimeAt } from '../time/zone.ts';

/** Whole hours of the barn's clock; `from` null: never dark. */
export type DarkHours = { readonly darkFromHour: number | null; readonly darkToHour: number };

/** Nobody stands before it any more: common practice, no source. */
export const DARK_AFTER_MS = 3 * MINUTE_MS;

/** Slow enough that nobody sees it, quick enough to go all the way round within a few hours: common practice, no source. */
export const SHIFT_EVERY_MS = 3 * MINUTE_MS;

/** Somebody may be about to tap: nothing moves before. */
export const STILL_AFTER_TOUCH_MS = MINUTE_MS;

/** Whether `now` (ms) is in the dark hours of a barn in this zone. From and to alike: never. */
export function isDarkHour(
  { darkFromHour: from, darkToHour: to }: DarkHours,
  now: number,
  zone: string,
): boolean {
  if (from === null) return false;
  const hour = Number(wallTimeAt(now, zone).time.slice(0, 2));
  return from <= to ? hour >= from && hour < to : hour >= from || hour < to;
}

/** Farthest from its place, in CSS pixels, each way. */
export const MOST_SHIFT_PX = 2;

const SIDE = 2 * MOST_SHIFT_PX + 1;
const LAST = SIDE * SIDE - 1;

/**
 * How far the picture stands from its place after so many steps, in CSS pixels: from the middle, line by line over all places
 * and back again, one pixel in one direction at a time.
 */
export function shiftAt(step: number): { x: number; y: number } {
  const round = (step + LAST / 2) % (2 * LAST);
  const at = round <= LAST ? round : 2 * LAST - round;
  const row = Math.floor(at / SIDE);
  const column = row % 2 === 0 ? at % SIDE : SIDE - 1 - (at % SIDE);
  return { x: column - MOST_SHIFT_PX, y: row - MOST_SHIFT_PX };
}
