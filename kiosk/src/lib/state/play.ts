/**
 * How boards change: by entries, and by this tablet's own taps before the hub has taken them, with the hub's own decide and
 * evolve; and what is said of that, and of the hub. A first picture needs none of it.
 */
import { decide } from '#core/day/decide.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Board } from '#core/day/board.ts';
import type { Op, Reason } from '#core/day/ops.ts';
import { say } from '../words.ts';
import { asFarAsRead, pendingSubjects } from './pending.ts';
import type { Role } from '#core/day/places.ts';
import { objectionHere } from '#core/day/mayDo.ts';
import type { HubTrouble } from '#core/day/alerts/alert.ts';
import type { REFUSALS, Status } from '#core/wire/messages.ts';

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

/** Of a coordinator's tap that the hub heard of once the tablet was locked. */
export const explainLocked = (): string => say.LOCKED_MEANWHILE;

/** Why the hub does not take what this tablet sent. */
export const explainRefused = (code: (typeof REFUSALS)[number]): string => say.HUB_SAYS[code];

/** What the hub says of itself, while this tablet keeps `taps` for it. Empty where there is nothing to say. */
export function explainHub(
  trouble: Exclude<HubTrouble, 'away' | 'unreadable'>,
  { readOnly, clockJump }: Status,
  taps: number,
): string {
  switch (trouble) {
    case 'readOnly':
      return readOnly
        ? `${say.HUB_STATUS.readOnly[readOnly.why]} ${taps > 0 ? say.LINK.held(taps) : ''}`
        : '';
    case 'clockJump':
      return clockJump ? say.clockJumped(clockJump) : '';
    case 'tornTail':
      return say.HUB_STATUS.tornTail;
  }
}
