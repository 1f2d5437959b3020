/** What would the board be after these facts? On a copy, with nothing written down. */
import type { Board } from '#core/day/board.ts';
import { decide } from '#core/day/decide.ts';
import { evolve } from '#core/day/evolve.ts';
import type { OpFact, Reason } from '#core/day/ops.ts';
import type { Forecast } from '#core/plan/model.ts';
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

/** The board after `facts`, in order, at barn time `at` (ms); or why one of them cannot be. */
function pretend(board: Board, facts: readonly OpFact[], at: number): { board: Board } | { why: Reason } {
  // Some facts ask for a name; in a what-if anyone of the staff will do.
  const by = Object.keys(board.barn.staff)[0] ?? null;
  let next = board;
  for (const [i, fact] of facts.entries()) {
    const op = { id: `if-${i}`, device: 'hub', by, tappedAt: at, fact };
    const { facts: made, why } = decide(next, op);
    if (why) return { why };
    next = evolve(next, {
      seq: i + 1,
      at,
      id: op.id,
      device: op.device,
      by,
      tappedAt: at,
      facts: [...made],
      why,
    });
  }
  return { board: next };
}
