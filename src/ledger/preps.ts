/** Each preparation of a day as it was done, for putting it right. */
import type { Day } from '../day/board.ts';
import { stagesOf } from '../day/pieces.ts';
import { markOf, rampTime } from '../day/preps.ts';
import type { Rules } from '../barn/rules.ts';
import type { PrepRecord } from './account.ts';

/** By ramp time, as on the paper; those that served no lesson are left out. */
export function prepsOf(day: Day, rules: Rules): PrepRecord[] {
  return Object.values(day.preps)
    .flatMap((prep): PrepRecord[] => {
      const ramp = rampTime(day, prep, rules);
      if (ramp === null) return [];
      const stages = [...stagesOf(prep), ...rules.afterStages].map((stage) => {
        const mark = markOf(prep, stage);
        return {
          stage,
          done: mark !== undefined,
          at: mark && !mark.untimed ? mark.at : null,
          by: mark?.by ?? null,
        };
      });
      return [{ prep: prep.id, horse: prep.horse, ramp, stages }];
    })
    .sort((a, b) => a.ramp - b.ramp || (a.prep < b.prep ? -1 : 1));
}
