/** Findings on the board: seen, read by name, and settled when the horse is released. */
import { own } from '../barn/basics.ts';
import type { Hold } from '../barn/horse.ts';
import { advise, type Advice, type Hold as AdvisedHold } from '../care/advise.ts';
import type { Board, FindingNote } from './board.ts';

/** What was seen on a horse and not settled since, earliest first. */
export function openFindings(board: Board, horse: string): FindingNote[] {
  return board.findings.filter((note) => note.horse === horse && !note.settled);
}

/** What the barn's rules make of a horse's open findings. Advice: a named person decides. */
export function adviceFor(board: Board, horse: string): Advice | null {
  const open = openFindings(board, horse);
  if (open.length === 0 || !own(board.barn.horses, horse)) return null;
  return advise(
    open.map((note) => note.finding),
    board.barn.rules.care,
  );
}

/** What a pull is proposed with, from the strictest hold the findings call for. */
export const HOLD_OF: Record<AdvisedHold, Hold['kind']> = {
  'until-vet': 'vet',
  'until-farrier': 'farrier',
  'until-instructor': 'instructor',
};

/** Those open on a horse that ask for something: a calm horse and a pulse within its range are no news. */
export function tellingFindings(board: Board, horse: string): FindingNote[] {
  return openFindings(board, horse).filter(
    ({ finding }) => advise([finding], board.barn.rules.care).level !== 'clear',
  );
}

/** Findings nobody of the staff has read yet, worst news for the instructor. */
export function unreadFindings(board: Board): FindingNote[] {
  return board.findings.filter((note) => !note.settled && note.read.length === 0);
}
