/** Whether a board is needed just now. */
import { MINUTE_MS } from '../../time/units.ts';
import type { Board } from '../board.ts';
import { isOver, isWanted, rampTime } from '../preps.ts';

/** A horse is being prepared, or is due to be, or is in its lesson, or somebody is on it, at `now` (barn time, ms). */
export function isAtWork({ barn, day }: Board, now: number): boolean {
  const { rules } = barn;
  return Object.values(day.preps).some((prep) => {
    if (prep.onIt !== null) return true;
    const ramp = rampTime(day, prep, rules);
    if (ramp === null || !isWanted(barn, prep)) return false;
    return now >= ramp - rules.earliestMinutes * MINUTE_MS && !isOver(day, prep, now);
  });
}
