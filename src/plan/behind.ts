/**
 * Who is behind by their own work, and who is only held up. Somebody is behind when a piece given to them would end
 * after its needed-by time although everybody before them keeps to theirs: their queue is taken through once more with
 * every horse handed over by its needed-by time at the latest. What is late beyond that is somebody else's, or a
 * lesson's, and is named.
 */
import type { Planned } from './floats.ts';
import type { HandsForecast } from './model.ts';

/** A piece in the plan, and what its horse comes from. */
export type Given = Planned & {
  /** It stands in this person's own queue. */
  readonly given: boolean;
  /** The piece before it on the same horse; null: none, or not in the plan. */
  readonly before: Planned | null;
  /** When the horse is out of the lesson it goes in before, and which; null: none. */
  readonly lesson: { readonly id: string; readonly until: number } | null;
};

export type Behind = Pick<HandsForecast, 'behindMs' | 'because' | 'heldUp'>;

const ON_TIME: Behind = { behindMs: 0, because: null, heldUp: null };

/** `pieces`: all of one person's, in the order they are done; `freeFrom`: when they can begin. */
export function behind(pieces: readonly Given[], freeFrom: number): Behind {
  const own = ownLateness(pieces, freeFrom);
  if (own) return { behindMs: Math.ceil(own.lateMs), because: own.id, heldUp: null };
  const late = pieces.find((piece) => piece.given && piece.end > piece.neededBy);
  return late ? { ...ON_TIME, heldUp: heldUpBy(late, pieces) } : ON_TIME;
}

/** How late the worst of their given pieces would be if others kept to their times, and the first late one. */
function ownLateness(pieces: readonly Given[], freeFrom: number): { id: string; lateMs: number } | null {
  let clock = freeFrom;
  let first: string | null = null;
  let worst = 0;
  for (const [i, piece] of pieces.entries()) {
    const length = piece.end - piece.start;
    // Waiting for a duty to be over, or for a break in it, is part of the plan and no fault of either side.
    const idle = piece.start - piece.lead - Math.max(pieces[i - 1]?.end ?? freeFrom, horseReady(piece));
    const start = Math.max(clock, horseDue(piece, length)) + Math.max(0, idle) + piece.lead;
    // Nobody is made later by others being on time.
    const end = Math.min(start, piece.start) + length;
    clock = end;
    if (!piece.given || end <= piece.neededBy) continue;
    first ??= piece.id;
    worst = Math.max(worst, end - piece.neededBy);
  }
  return first === null ? null : { id: first, lateMs: worst };
}

/** When the horse is there for this piece, as planned. */
function horseReady(piece: Given): number {
  return Math.max(piece.before?.end ?? -Infinity, piece.lesson?.until ?? -Infinity);
}

/** When it would be there if everybody else kept to their times. */
function horseDue(piece: Given, length: number): number {
  const { before, lesson } = piece;
  const theirs = before && before.by !== piece.by ? Math.min(before.end, before.neededBy) : -Infinity;
  const lastStart = piece.neededBy - length - piece.lead;
  return Math.max(theirs, lesson ? Math.min(lesson.until, lastStart) : -Infinity);
}

/** Back along what was waited for, to the first that is not this person's own. */
function heldUpBy(late: Given, pieces: readonly Given[]): HandsForecast['heldUp'] {
  const lateMs = Math.ceil(late.end - late.neededBy);
  for (let i = pieces.indexOf(late); i >= 0; i -= 1) {
    const piece = pieces[i];
    if (!piece) break;
    const { before, lesson } = piece;
    const freeAt = pieces[i - 1]?.end ?? -Infinity;
    if (horseReady(piece) < freeAt) continue;
    if (lesson && lesson.until >= (before?.end ?? -Infinity)) {
      return { late: late.id, lateMs, piece: null, by: null, lesson: lesson.id };
    }
    if (before && before.by !== piece.by) {
      return { late: late.id, lateMs, piece: before.id, by: before.by, lesson: null };
    }
  }
  return { late: late.id, lateMs, piece: null, by: null, lesson: null };
}
