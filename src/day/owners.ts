/** Whose queue each piece of work stands in. */
import type { Day, PieceId } from './board.ts';

/** Asked several times for every tap and for every tile, and queues change at most once with a tap. */
const known = new WeakMap<Day['hands'], ReadonlyMap<PieceId, string>>();

/** Person by piece; nobody's pieces are not in it. */
export function ownersIn(hands: Day['hands']): ReadonlyMap<PieceId, string> {
  const before = known.get(hands);
  if (before) return before;
  const owners = new Map<PieceId, string>();
  for (const id in hands) {
    for (const piece of hands[id]?.queue ?? []) if (!owners.has(piece)) owners.set(piece, id);
  }
  known.set(hands, owners);
  return owners;
}

/** In whose queue a piece stands; null: nobody's. */
export function ownerOf({ hands }: Day, piece: PieceId): string | null {
  return ownersIn(hands).get(piece) ?? null;
}
