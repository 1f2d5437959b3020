/** How long until an instant, in the whole minutes a board shows. */
import { MINUTE_MS } from './units.ts';

/**
 * Whole minutes from `now` to `until` (both ms), rounded so that the board never promises more time than there is:
 * 4 min 59 s is 4, and 1 s too late is already -1.
 */
export function minutesUntil(until: number, now: number): number {
  const minutes = Math.floor((until - now) / MINUTE_MS);
  return minutes === 0 ? 0 : minutes;
}
