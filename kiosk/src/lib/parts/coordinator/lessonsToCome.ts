/** Today's lessons that are not over, to choose one from. */
import type { Board } from '#core/day/board.ts';
import { lessonEnd } from '#core/day/preps.ts';
import { clockTime } from '../format.ts';

/** At barn time `now` in ms, by start. */
export function lessonsToCome(board: Board, now: number): { id: string; name: string; more: string }[] {
  return Object.values(board.day.lessons)
    .filter((lesson) => !lesson.cancelled && lessonEnd(lesson) > now)
    .sort((a, b) => a.start - b.start || (a.id < b.id ? -1 : 1))
    .map(({ id, name, start }) => ({ id, name, more: clockTime(start, board.barn.zone) }));
}
