/** Stages finished and started, and pieces of work in people's queues. */
import { own } from '../barn/basics.ts';
import { isAfterStage, type WorkStage } from '../barn/stage.ts';
import type { Board, Day, Hands, Mark, OnIt, PieceId, Prep } from './board.ts';
import { KEPT_MARKS, KEPT_NOTES } from './kept.ts';
import { ownersIn } from './owners.ts';
import { pieceId, pieceParts } from './pieces.ts';
import { openAfter } from './after.ts';
import { isFinished, lessonsOf, openStages } from './preps.ts';
import type { Fact, WrittenStage } from './ops.ts';
import { clearOnIt, withDay, withPrep, withState, type Stamp } from './steps.ts';

export function finish(day: Day, prep: Prep, stages: readonly WorkStage[], stamp: Stamp): Prep {
  const at = Math.min(stamp.tappedAt, stamp.at);
  return withMark(day, prep, stages, { op: stamp.id, by: stamp.by, at, tack: prep.tack });
}

/** A stage ticked on paper, at its written time; never later than it was typed in. */
export function finishOnPaper(day: Day, prep: Prep, { stage, at, by }: WrittenStage, stamp: Stamp): Prep {
  const typedAt = Math.min(stamp.tappedAt, stamp.at);
  const mark = { op: stamp.id, by, at: Math.min(at ?? typedAt, typedAt), tack: prep.tack };
  return withMark(day, prep, [stage], at === null ? { ...mark, untimed: true } : mark);
}

function withMark(day: Day, prep: Prep, stages: readonly WorkStage[], mark: Mark): Prep {
  const fresh = stages.filter((stage) => !prep.marks[stage].some((m) => m.op === mark.op));
  if (fresh.length === 0) return prep;
  const marks = { ...prep.marks };
  // By the lessons' times alone: what was tapped of riders may arrive later.
  const last = Math.max(-Infinity, ...lessonsOf(day, prep).map((lesson) => lesson.start));
  const early = prep.places.length === 0 || mark.at < last;
  for (const stage of fresh) {
    const one = stage === 'untack' && early ? { ...mark, early } : mark;
    marks[stage] = [...marks[stage], one].sort(byTime).slice(0, KEPT_MARKS);
  }
  const next = { ...prep, marks };
  return prep.onIt && isFinished(next, prep.onIt.stage) ? { ...next, onIt: null } : next;
}

/** Earliest tap first; the op id settles a tie, so that every board agrees whatever the order of arrival. */
export function byTime(a: Mark, b: Mark): number {
  return a.at - b.at || (a.op < b.op ? -1 : 1);
}

export function start(board: Board, id: string, stage: WorkStage, stamp: Stamp): Board {
  const prep = own(board.day.preps, id);
  const by = stamp.by;
  if (!prep || by === null || isFinished(prep, stage) || prep.onIt?.op === stamp.id) return board;
  const onIt: OnIt = { op: stamp.id, stage, by, since: Math.min(stamp.tappedAt, stamp.at) };
  const state = own(board.day.hands, by)?.presence.state ?? 'expected';
  // Who starts work is here, whether or not they tapped so. One who left stays so: this tap may be an hour old.
  const known = state === 'expected' ? withState(board, by, 'here', stamp) : board;
  const alone = withDay(known, (day) => clearOnIt(day, (other) => other.onIt?.by === by));
  const begun = withPrep(alone, id, (p) => ({ ...p, onIt }));
  return withDay(begun, (day) => claim(day, board, prep, stage, by, stamp.at));
}

/** Who starts a stage takes it over; of a prep given to nobody, the rest too: people take a horse, not a stage. */
function claim(day: Day, board: Board, prep: Prep, stage: WorkStage, by: string, at: number): Day {
  const owners = ownersIn(day.hands);
  const { barn } = board;
  const open: readonly WorkStage[] = isAfterStage(stage)
    ? openAfter(prep, barn.rules)
    : openStages(barn, prep);
  const isOwned = (s: WorkStage): boolean => owners.has(pieceId(prep.id, s));
  const mine = open.every((s) => !isOwned(s)) ? open : open.filter((s) => s === stage);
  const pieces = mine.map((s) => pieceId(prep.id, s));
  const queue = own(day.hands, by)?.queue ?? [];
  if (pieces.every((piece) => queue.includes(piece))) return day;
  return moveWork(day, pieces, by, queue.find((piece) => !pieces.includes(piece)) ?? null, at);
}

export function keepNote(day: Day, fact: Extract<Fact, { kind: 'tapKept' }>, stamp: Stamp): Day {
  if (day.notes.some((note) => note.op === stamp.id && note.prep === fact.prep)) return day;
  const note = { op: stamp.id, prep: fact.prep, stages: fact.stages, by: stamp.by, at: stamp.at };
  return { ...day, notes: [...day.notes, note].slice(-KEPT_NOTES) };
}

export function stepOff(board: Board, volunteer: string): Board {
  return withDay(board, (day) => clearOnIt(day, (prep) => prep.onIt?.by === volunteer));
}

/** Gives pieces to somebody, or to nobody. Whoever loses the piece they are on is no longer on it. */
export function moveWork(
  day: Day,
  pieces: readonly PieceId[],
  to: string | null,
  before: PieceId | null,
  at: number,
): Day {
  const moved = requeue(day, pieces, to, before, at);
  if (moved === day) return day;
  const lost = (prep: Prep): boolean =>
    prep.onIt !== null && prep.onIt.by !== to && pieces.includes(pieceId(prep.id, prep.onIt.stage));
  return clearOnIt(moved, lost);
}

/** The same for queues alone, as an undo asks for it: who is on what comes back, or stays, by itself. */
export function requeue(
  day: Day,
  pieces: readonly PieceId[],
  to: string | null,
  before: PieceId | null,
  at: number,
): Day {
  const real = pieces.filter((piece, i) => {
    const parts = pieceParts(piece);
    return parts && own(day.preps, parts.prep) && pieces.indexOf(piece) === i;
  });
  if (real.length === 0) return day;
  const hands: Record<string, Hands> = {};
  for (const [id, hand] of Object.entries(day.hands)) {
    const loses = hand.queue.some((piece) => real.includes(piece));
    hands[id] = loses ? { ...hand, queue: hand.queue.filter((piece) => !real.includes(piece)) } : hand;
  }
  if (to !== null) {
    const taker = own(hands, to) ?? {
      presence: { state: 'expected', since: at, from: null, until: null },
      queue: [],
    };
    const cut = before === null ? -1 : taker.queue.indexOf(before);
    const index = cut < 0 ? taker.queue.length : cut;
    hands[to] = { ...taker, queue: taker.queue.toSpliced(index, 0, ...real) };
  }
  return { ...day, hands };
}
