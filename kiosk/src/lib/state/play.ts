/**
 * How boards change: by entries, and by this tablet's own taps before the hub has taken them, with the hub's own decide and
 * evolve. A first picture needs none of it.
 */
import { decide } from '#core/day/decide.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Board } from '#core/day/board.ts';
import type { Op, Reason } from '#core/day/ops.ts';
import { say } from '../words.ts';
import { asFarAsRead, pendingSubjects } from './pending.ts';
import type { Role } from '#core/day/places.ts';
import { objectionHere } from '#core/day/mayDo.ts';

/** `board` (after entry `seq`) with `ops` taken in order, as far as they would be. */
export function pretend(board: Board, seq: number, ops: readonly Op[], role: Role): Board {
  return ops.reduce((next, op, i) => {
    const take = (): Board => {
      const facts = objectionHere(role, op, next.day) ? [] : [...decide(next, op).facts];
      const { id, device, by, tappedAt } = op;
      return evolve(next, { seq: seq + 1 + i, at: tappedAt, id, device, by, tappedAt, facts, why: null });
    };
    return asFarAsRead(take, next);
  }, board);
}

export { evolve, pendingSubjects };

/** In one sentence, what is so and what to do. */
export function explain(why: Reason, nameOf: (id: string) => string): string {
  return say.sayReason(why, nameOf);
}
