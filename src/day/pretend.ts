/** The board as it would be if something happened that has not. */
import type { Board } from './board.ts';
import { decide } from './decide.ts';
import { evolve } from './evolve.ts';
import type { OpFact, Reason } from './ops.ts';

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
