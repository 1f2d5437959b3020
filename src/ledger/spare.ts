/** How much was left when each stage was finished. */
import type { Rules } from '../barn/rules.ts';
import type { Day, Prep } from '../day/board.ts';
import { stagesOf } from '../day/pieces.ts';
import type { Stage } from '../barn/stage.ts';
import { markOf, rampTime } from '../day/preps.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { SparePoint } from './account.ts';

/**
 * By when a stage of the prep had to end, ms: the ramp time less the barn's own minutes for the stages after it. Null: the
 * horse is not needed. What the board says while the day runs also reckons with how people and horses differ.
 */
export function neededByRule(day: Day, prep: Prep, stage: Stage, rules: Rules): number | null {
  const ramp = rampTime(day, prep, rules);
  if (ramp === null) return null;
  const stages = stagesOf(prep);
  const after = stages.slice(stages.indexOf(stage) + 1);
  return ramp - after.reduce((sum, one) => sum + rules.stageMinutes[one] * MINUTE_MS, 0);
}

/** Of every stage finished at a known time, in that order. */
export function spareOf(day: Day, rules: Rules): SparePoint[] {
  return Object.values(day.preps)
    .flatMap((prep) =>
      stagesOf(prep).flatMap((stage): SparePoint[] => {
        const mark = markOf(prep, stage);
        const needed = neededByRule(day, prep, stage, rules);
        if (!mark || mark.untimed || needed === null) return [];
        return [{ at: mark.at, horse: prep.horse, stage, spareMs: Math.round(needed - mark.at) }];
      }),
    )
    .sort((a, b) => a.at - b.at || (a.horse < b.horse ? -1 : 1));
}
