/** Findings on the board: seen, read by name, and settled when the horse is released. */
import { own } from '../barn/basics.ts';
import type { Hold } from '../barn/horse.ts';
import { advise, type Advice, type Hold as AdvisedHold } from '../care/advise.ts';
import type { Board, FindingNote } from './board.ts';
import { KEPT_FINDINGS } from './kept.ts';
import type { Fact } from './ops.ts';
import type { Stamp } from './steps.ts';

/** Earliest first; the id settles a tie, so that findings commute. */
function inOrder(notes: readonly FindingNote[]): FindingNote[] {
  return notes.toSorted((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1)).slice(-KEPT_FINDINGS);
}

export function seeFinding(board: Board, fact: Extract<Fact, { kind: 'findingSeen' }>, stamp: Stamp): Board {
  if (board.findings.some((note) => note.id === stamp.id)) return board;
  const note: FindingNote = {
    id: stamp.id,
    horse: fact.horse,
    finding: fact.finding,
    words: fact.words,
    by: stamp.by,
    at: Math.min(stamp.tappedAt, stamp.at),
    read: [],
    settled: false,
  };
  return { ...board, findings: inOrder([...board.findings, note]) };
}

export function readFinding(board: Board, id: string, stamp: Stamp): Board {
  const { by } = stamp;
  const note = board.findings.find((one) => one.id === id);
  if (!note || by === null || note.read.some((one) => one.by === by)) return board;
  const read = { ...note, read: [...note.read, { by, at: stamp.at }] };
  return { ...board, findings: board.findings.map((one) => (one.id === id ? read : one)) };
}

/** A released horse's findings say nothing about its work any more. */
export function settle(board: Board, horse: string): Board {
  if (openFindings(board, horse).length === 0) return board;
  return {
    ...board,
    findings: board.findings.map((note) => (note.horse === horse ? { ...note, settled: true } : note)),
  };
}

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
