/** Whether a tap is only the one before it again. */

/** `at` in ms; x and y in CSS pixels of the window. */
export type Tap = {
  readonly at: number;
  readonly x: number;
  readonly y: number;
  readonly byPointer: boolean;
};

/** A finger that bounces, or a second tap out of doubt, comes back within this. */
export const REPEAT_MS = 500;

/** What has just appeared under the finger is not what was meant. */
const SAME_SPOT_PX = 60;

export function isRepeat(last: Tap | null, tap: Tap, sameTarget: boolean): boolean {
  if (!last || tap.at - last.at >= REPEAT_MS) return false;
  if (sameTarget) return true;
  if (!tap.byPointer || !last.byPointer) return false;
  return Math.hypot(tap.x - last.x, tap.y - last.y) < SAME_SPOT_PX;
}
