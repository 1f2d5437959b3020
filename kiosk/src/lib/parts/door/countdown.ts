/** The one large figure on the arena door. */
import { DOOR } from '#core/words/en.ts';

/** Above this the figure would not be large any more. */
const MOST_MINUTES = 99;

/** `minutes` to the ramp time, negative past it: the figure, and what it counts. */
export function bigFigure(minutes: number): { readonly figure: string; readonly unit: string } {
  const size = Math.abs(minutes);
  if (minutes < 0) {
    return size > MOST_MINUTES
      ? { figure: `${Math.floor(size / 60)}`, unit: DOOR.hoursPast }
      : { figure: `${size}`, unit: DOOR.past };
  }
  return size > MOST_MINUTES
    ? { figure: `${Math.floor(size / 60)}`, unit: DOOR.hoursToRamp }
    : { figure: `${size}`, unit: DOOR.toRamp };
}
