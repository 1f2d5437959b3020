/** The stages of a prep, and the pieces of work they are in people’s queues. */
import { STAGES, WORK_STAGES, type Stage, type WorkStage } from '../barn/stage.ts';
import type { Prep, PieceId } from './board.ts';

/** The stages a prep asks for, in order. */
export function stagesOf(prep: Prep): readonly Stage[] {
  return prep.kind === 'tackChange' ? ['tack'] : STAGES;
}

export function pieceId(prep: string, stage: WorkStage): PieceId {
  return `${prep}:${stage}`;
}

/** The prep and stage a piece names; null for anything that is not a piece. */
export function pieceParts(piece: PieceId): { prep: string; stage: WorkStage } | null {
  const cut = piece.lastIndexOf(':');
  const stage = WORK_STAGES.find((s) => s === piece.slice(cut + 1));
  return cut > 0 && stage ? { prep: piece.slice(0, cut), stage } : null;
}
