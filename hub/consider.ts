/** What would the board be after these facts? On a copy, with nothing written down. */
import type { Board } from '#core/day/board.ts';
import type { OpFact, Reason } from '#core/day/ops.ts';
import type { Forecast } from '#core/plan/model.ts';
import { pretend } from '#core/day/pretend.ts';
import type { Planner } from './planner.ts';

/** The forecast after `facts`, at barn time `at` (ms); or why one of them cannot be. */
export async function consider(
  planner: Pick<Planner, 'consider'>,
  board: Board,
  facts: readonly OpFact[],
  at: number,
): Promise<{ why: Reason | null; forecast: Forecast | null }> {
  const after = pretend(board, facts, at);
  if ('why' in after) return { why: after.why, forecast: null };
  return { why: null, forecast: await planner.consider(after.board) };
}
