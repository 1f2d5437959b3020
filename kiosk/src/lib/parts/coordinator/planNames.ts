/** How sentences about the plan call people, horses and lessons on this tablet. */
import type { Board } from '#core/day/board.ts';
import type { Names } from '#core/words/names.ts';
import { namesOn } from '#core/words/namesOn.ts';
import { say } from '../../words.ts';
import { clockTime } from '../format.ts';

export function planNames(board: Board): Names {
  return namesOn(board, (instant) => clockTime(instant, board.barn.zone), say);
}
