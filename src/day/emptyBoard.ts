/** A barn without records on a day without a plan. */
import { emptyBarn } from '../barn/barn.ts';
import type { Board } from './board.ts';
import { emptyDay } from './emptyDay.ts';

export function emptyBoard(name: string, zone: string): Board {
  return { barn: emptyBarn(name, zone), day: emptyDay(null), findings: [], worked: [] };
}
