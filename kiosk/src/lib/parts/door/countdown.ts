/** The one large figure on the arena door. */
import { minutesUntil } from '#core/time/countdown.ts';
import { say } from '../../words.ts';

export type BigFigure = { readonly figure: string; readonly unit: string };

/** Above this the figure would not be large any more. */
const MOST_MINUTES = 99;

type Times = { readonly rampTime: number; readonly start: number; readonly isReady: boolean };

/**
 * At `now`: minutes to the ramp time, or past it while a horse is missing. With every horse at hand the ramp time is no
 * alarm once it has passed: then the figure counts to the start. All instants in ms.
 */
export function bigFigure({ rampTime, start, isReady }: Times, now: number): BigFigure {
  const toRamp = minutesUntil(rampTime, now);
  if (toRamp >= 0) return figure(toRamp, say.DOOR.toRamp, say.DOOR.hoursToRamp);
  if (!isReady) return figure(-toRamp, say.DOOR_PLAN.past, say.DOOR_PLAN.hoursPast);
  return figure(Math.max(0, minutesUntil(start, now)), say.DOOR_PLAN.toStart, say.DOOR_PLAN.hoursToStart);
}

function figure(minutes: number, unit: string, hours: string): BigFigure {
  return minutes > MOST_MINUTES
    ? { figure: `${Math.floor(minutes / 60)}`, unit: hours }
    : { figure: `${minutes}`, unit };
}
