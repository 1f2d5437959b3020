/** The board as it would stand on another date, by the barn's book. For looking ahead: nothing of it is kept. */
import type { Board } from './board.ts';
import { emptyDay } from './emptyDay.ts';
import { planOf } from './fromBook.ts';
import { takePlan } from './takePlan.ts';

/** The open day as it is; any other date (ISO 8601) as the book has it. Throws RangeError for a date no calendar has. */
export function boardOn(board: Board, date: string): Board {
  if (board.day.date === date) return board;
  const stamp = { id: 'preview', device: 'preview', by: null, at: 0, tappedAt: 0 };
  return takePlan({ ...board, day: emptyDay(date) }, planOf(board.barn, date), stamp);
}
