/** The one word a board says about a horse and a lesson, and which of two is worse. */
import { own } from '../../barn/basics.ts';
import { MINUTE_MS } from '../../time/units.ts';
import type { Forecast } from '../../plan/model.ts';
import type { Board, Prep } from '../board.ts';
import { isPulled, nextStage } from '../preps.ts';

/** From best to worst. */
export const READINESS = ['ready', 'onTime', 'tight', 'late', 'nobody', 'noHorse', 'pulled'] as const;
export type Readiness = (typeof READINESS)[number];

/** The worse of two. */
export function worse(a: Readiness, b: Readiness): Readiness {
  return READINESS.indexOf(a) >= READINESS.indexOf(b) ? a : b;
}

/** How a prep stands against its ramp time. A prep the forecast does not know yet counts as on time. */
export function readiness(board: Board, prep: Prep, forecast: Forecast | null): Readiness {
  if (isPulled(board.barn, prep.horse)) return 'pulled';
  if (nextStage(prep) === null) return 'ready';
  const known = forecast ? own(forecast.preps, prep.id) : undefined;
  if (!known) return 'onTime';
  if (known.spareMs === null) return 'nobody';
  if (known.spareMs < 0) return 'late';
  return known.spareMs < board.barn.rules.tightMinutes * MINUTE_MS ? 'tight' : 'onTime';
}
