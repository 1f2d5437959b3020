/** What boards show of findings: those nobody has read, a horse's own list, and what the barn's rules make of each. */
import { own } from '../../barn/basics.ts';
import { advise, type Advice } from '../../care/advise.ts';
import { ADVICE_LEVELS } from '../../care/findingRules.ts';
import type { Finding } from '../../care/findings.ts';
import type { Board, FindingNote } from '../board.ts';
import { adviceFor, unreadFindings } from '../findings.ts';
import { personName } from './aisle.ts';

export type FindingLine = {
  readonly id: string;
  readonly finding: Finding;
  readonly words: string;
  /** Name of who saw it; null: nobody gave one. */
  readonly by: string | null;
  /** ms */
  readonly at: number;
  /** Names of who has read it. */
  readonly readBy: readonly string[];
  readonly settled: boolean;
  /** Of this finding alone. */
  readonly advice: Advice;
};

/** A horse with something nobody of the staff has read. */
export type UnreadHorse = {
  readonly horse: string;
  readonly name: string;
  /** Of all that was found on it and not settled. */
  readonly advice: Advice;
  /** Newest first. */
  readonly unread: readonly FindingLine[];
};

/** Everything known of a horse's findings, newest first. */
export function findingLines(board: Board, horse: string): FindingLine[] {
  return board.findings
    .filter((note) => note.horse === horse)
    .map((note) => line(board, note))
    .reverse();
}

/** Horses with findings nobody has read yet, the worst first. A horse that is only calm is no news. */
export function unreadHorses(board: Board): UnreadHorse[] {
  const byHorse = Map.groupBy(
    unreadFindings(board).map((note) => ({ horse: note.horse, line: line(board, note) })),
    ({ horse }) => horse,
  );
  const all = [...byHorse].flatMap(([horse, notes]) => {
    const record = own(board.barn.horses, horse);
    const advice = adviceFor(board, horse);
    const unread = notes.map((note) => note.line).filter((one) => one.advice.level !== 'clear');
    return record && advice && unread.length > 0
      ? [{ horse, name: record.name, advice, unread: unread.reverse() }]
      : [];
  });
  return all.sort((a, b) => rank(b) - rank(a) || (a.name < b.name ? -1 : 1));
}

function rank({ advice }: UnreadHorse): number {
  return ADVICE_LEVELS.indexOf(advice.level);
}

function line(board: Board, note: FindingNote): FindingLine {
  const { id, finding, words, by, at, read, settled } = note;
  return {
    id,
    finding,
    words,
    by: by === null ? null : personName(board, by),
    at,
    readBy: read.map((one) => personName(board, one.by)),
    settled,
    advice: advise([finding], board.barn.rules.care),
  };
}
