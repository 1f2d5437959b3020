/** Which of the hub's suggestions still mean something on the board as it is now, and which one to say first. */
import { own } from '../../barn/basics.ts';
import type { Move } from '../../plan/rebalance/model.ts';
import type { Alternative, Suggestion } from '../../wire/suggested.ts';
import type { Board } from '../board.ts';
import { ownerOf } from '../owners.ts';
import { pieceParts } from '../pieces.ts';
import type { OpFact } from '../ops.ts';
import { openStages } from '../preps.ts';
import { isCountedOn } from '../presence.ts';

/** More moves than this at once are not said first, if fewer help too: nobody remembers them on the way down the aisle. */
const EASILY_SAID = 3;

/** What a tap on this move says. */
export function factOf({ pieces, to, before }: Move): OpFact {
  return { kind: 'workMoved', pieces, to, before };
}

/** Those whose every move can still be made as it was meant: the work is still to do, and whose it was. */
export function standing(board: Board, alternatives: readonly Alternative[]): Alternative[] {
  return alternatives.filter(({ moves }) => {
    const moved = new Set<string>();
    return moves.every((move) => {
      const fresh = move.pieces.filter((piece) => !moved.has(piece));
      for (const piece of fresh) moved.add(piece);
      return fresh.every((piece) => isOpen(board, piece) && isStillOf(board, piece, move));
    });
  });
}

function isOpen({ barn, day }: Board, piece: string): boolean {
  const parts = pieceParts(piece);
  const prep = parts ? own(day.preps, parts.prep) : undefined;
  return parts !== null && prep !== undefined && openStages(barn, prep).some((one) => one === parts.stage);
}

function isStillOf(board: Board, piece: string, { from, to }: Move): boolean {
  const owner = ownerOf(board.day, piece);
  if (from !== null || owner === null) return owner === from;
  const presence = own(board.day.hands, owner)?.presence;
  return owner !== to && !(presence && isCountedOn(presence));
}

/** The most that helps among those easily said; what only gives out when nothing helps. */
export function firstToSay(alternatives: readonly Alternative[]): Alternative | null {
  const helping = alternatives.filter(({ onlyGivesOut }) => !onlyGivesOut);
  const easy = helping.findLast(({ moves }) => moves.length <= EASILY_SAID);
  return easy ?? helping[0] ?? alternatives[0] ?? null;
}

/** Somebody who has left, or is not coming, still has open work in their queue: whoever takes it is to be said at once. */
export function isOrphaned(board: Board): boolean {
  return Object.values(board.day.hands).some(
    ({ presence, queue }) => !isCountedOn(presence) && queue.some((piece) => isOpen(board, piece)),
  );
}

/** Some horse will be late or does not get ready, so that the coordinator wants to know whether anything helps. */
export function isWanting({ lateMs, undone }: Suggestion): boolean {
  return undone > 0 || lateMs === null || lateMs > 0;
}
