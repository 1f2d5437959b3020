/** What if? The same forecast for a board on which something has happened that has not. */
import type { Board } from '../day/board.ts';
import type { OpFact, Reason } from '../day/ops.ts';
import { pretend } from '../day/pretend.ts';
import { forecast, type ForecastOptions } from './forecast.ts';
import { planInput } from './input.ts';
import type { Learned } from './learned.ts';
import type { Forecast } from './model.ts';

/**
 * Forecasts without and with `facts`, both at `now` (barn time, ms) and with the same luck on the same pieces, so that
 * what differs between them comes from the facts alone.
 */
export function whatIf(
  board: Board,
  facts: readonly OpFact[],
  now: number,
  learned: Learned | null = null,
  options: ForecastOptions = {},
): { readonly before: Forecast; readonly after: Forecast } | { readonly why: Reason } {
  const then = pretend(board, facts, now);
  if ('why' in then) return then;
  return {
    before: forecast(planInput(board, now, learned), options),
    after: forecast(planInput(then.board, now, learned), options),
  };
}
