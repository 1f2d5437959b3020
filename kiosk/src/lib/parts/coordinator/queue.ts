/** Where work goes in somebody's queue. */
import type { Lane, LanePiece } from '#core/day/views/coordinator.ts';

/** The piece of `lane` it goes in front of, by needed-by time, behind what is under way; null: at the end. */
export function placeInQueue(lane: Lane | null, moved: readonly LanePiece[]): string | null {
  const neededBy = Math.min(...moved.map((piece) => piece.neededBy ?? Infinity));
  const ids = moved.map((piece) => piece.id);
  const later = lane?.pieces.find(
    (piece) => !piece.underWay && !ids.includes(piece.id) && (piece.neededBy ?? Infinity) > neededBy,
  );
  return later?.id ?? null;
}
