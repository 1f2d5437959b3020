/** What a tap makes of findings: seen, read by name, settled when the horse is released. */
import type { Board, FindingNote } from './board.ts';
import { KEPT_FINDINGS } from './kept.ts';
import type { Fact } from './ops.ts';
import type { Stamp } from './steps.ts';
import { openFindings } from './findings.ts';

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
