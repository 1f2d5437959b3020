/** What if? The same forecast for a board on which something has happened that has not. */
import type { Board } from '../day/board.ts';
import { decide } from '../day/decide.ts';
import { evolve } from '../day/evolve.ts';
import type { OpFact, Reason } from '../day/ops.ts';
import { forecast, type ForecastOptions } from './forecast.ts';
import { planInput } from './input.ts';
import type { Learned } from './learned.ts';
import type { Forecast } from './model.ts';

/** The board after `facts`, in order, at barn time `at` (ms), with nothing written down; or why one cannot be. */
export function pretend(
  board: Board,
  facts: readonly OpFact[],
  at: number,
): { readonly board: Board } | { readonly why: Reason } {
  // Some facts ask for a name; in a what-if anyone of the staff will do.
  const by = Object.keys(board.barn.staff)[0] ?? null;
  let next = board;
  for (const [i, fact] of facts.entries()) {
    const op = { id: `if-${i}`, device: 'hub', by, tappedAt: at, fact };
    const { facts: made, why } = decide(next, op);
    if (why) return { why };
    next = evolve(next, { ...op, seq: i + 1, at, facts: [...made], why });
  }
  return { board: next };
}

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
