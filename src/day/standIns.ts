/** Other horses for places of today, and their preparation into people's queues, as one step. */
import { own, put } from '../barn/basics.ts';
import type { Board } from './board.ts';
import { pieceId } from './pieces.ts';
import type { Fact } from './ops.ts';
import { openStages, prepOf } from './preps.ts';
import { regrouped, withDay, withPlace, type Stamp } from './steps.ts';
import { moveWork } from './work.ts';

export function takeStandIns(
  board: Board,
  fact: Extract<Fact, { kind: 'standInsTaken' }>,
  stamp: Stamp,
): Board {
  const lessons = fact.changes.reduce((next, { lesson, place, horse, tack }) => {
    const was = own(next, lesson);
    const now = was && withPlace(was, place, { horse, tack });
    return now && now !== was ? put(next, lesson, now) : next;
  }, board.day.lessons);
  // Fitted once, with all changes made: in between, a horse would be in two places or in none.
  const placed =
    lessons === board.day.lessons ? board : regrouped({ ...board, day: { ...board.day, lessons } });
  return fact.work.reduce(
    (next, { lesson, place, to }) => giveWork(next, lesson, place, to, stamp.at),
    placed,
  );
}

/** The open work of the prep that serves this place, in front of the person's queue, but not of what they are on. */
function giveWork(board: Board, lesson: string, place: string, to: string, at: number): Board {
  const prep = prepOf(board.day, lesson, place);
  if (!prep) return board;
  const pieces = openStages(board.barn, prep).map((stage) => pieceId(prep.id, stage));
  const onNow = Object.values(board.day.preps).find((one) => one.onIt?.by === to);
  const current = onNow?.onIt ? pieceId(onNow.id, onNow.onIt.stage) : null;
  const queue = own(board.day.hands, to)?.queue ?? [];
  const before = queue.find((piece) => piece !== current && !pieces.includes(piece)) ?? null;
  return withDay(board, (day) => moveWork(day, pieces, to, before, at));
}
