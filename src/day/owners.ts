/** Whose queue each piece of work stands in. */
import type { Day, PieceId } from './board.ts';

export type Owners = ReadonlyMap<PieceId, string>;

/** Asked several times for every tap, and queues change at most once with it. */
const known = new WeakMap<Day['hands'], Owners>();

/** Person by piece; nobody's pieces are not in it. */
export function ownersIn(hands: Day['hands']): Owners {
  const before = known.get(hands);
  if (before) return before;
  const owners = new Map<PieceId, string>();
  for (const id in hands) {
    for (const piece of hands[id]?.queue ?? []) if (!owners.has(piece)) owners.set(piece, id);
  }
  known.set(hands, owners);
  return owners;
}
