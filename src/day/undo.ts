/**
 * Undo. Each op that can be taken back leaves a note of what it touched and how things were; an undo puts back just
 * that, and only while nothing later has touched it.
 */
import { own, put, without } from '../barn/basics.ts';
import { STAGES } from '../barn/stage.ts';
import {
  pieceId,
  pieceParts,
  RECENT_OPS,
  type Board,
  type Day,
  type PieceId,
  type Recent,
  type Restore,
} from './board.ts';
import type { Fact } from './ops.ts';
import { stagesOf } from './board.ts';
import { regrouped, withDay, withHolds, withPrep, type Stamp } from './steps.ts';
import { moveWork } from './work.ts';

/** The next board with a note of how to take this fact back, where a fact can be taken back. */
export function remember(before: Board, after: Board, fact: Fact, stamp: Stamp): Board {
  if (after === before) return after;
  const step = restoring(before, fact, stamp);
  if (!step) return after;
  const earlier = after.day.recent.find((recent) => recent.op === stamp.id);
  const recent: Recent = {
    op: stamp.id,
    device: stamp.device,
    at: stamp.at,
    touches: [...(earlier?.touches ?? []), ...step.touches],
    // Taken back in the opposite order.
    restore: [...step.restore, ...(earlier?.restore ?? [])],
  };
  const others = after.day.recent.filter((r) => r.op !== stamp.id);
  return { ...after, day: { ...after.day, recent: [...others, recent].slice(-RECENT_OPS) } };
}

/** The board with op `op` taken back; the same reference when there is no note of it. */
export function takeBack(board: Board, op: string): Board {
  const recent = board.day.recent.find((r) => r.op === op);
  if (!recent) return board;
  const restored = recent.restore.reduce((next, step) => restore(next, step, recent), board);
  return withDay(restored, (day) => ({ ...day, recent: day.recent.filter((r) => r.op !== op) }));
}

/** Whether something later touched what this op changed: then taking it back would wipe that out. */
export function touchedSince(day: Day, recent: Recent): boolean {
  const later = day.recent.slice(day.recent.indexOf(recent) + 1);
  return later.some((other) => other.touches.some((key) => recent.touches.includes(key)));
}

type Step = { touches: string[]; restore: Restore[] };

function restoring({ barn, day }: Board, fact: Fact, stamp: Stamp): Step | null {
  switch (fact.kind) {
    case 'stagesFinished':
      return { touches: [], restore: [{ what: 'marks' }] };
    case 'stageStarted': {
      const prep = own(day.preps, fact.prep);
      const pieces = prep ? stagesOf(prep).map((stage) => pieceId(prep.id, stage)) : [];
      const was = Object.values(day.preps).filter(
        (p) => p.onIt && (p.id === fact.prep || p.onIt.by === stamp.by),
      );
      return {
        touches: [`onIt:${fact.prep}`, `person:${stamp.by ?? ''}`],
        restore: [
          { what: 'marks' },
          ...pieceRestores(day, pieces),
          ...was.flatMap((p): Restore[] => (p.onIt ? [{ what: 'onIt', prep: p.id, was: p.onIt }] : [])),
        ],
      };
    }
    case 'horsePulled':
    case 'horseReleased':
      return {
        touches: [`holds:${fact.horse}`],
        restore: [{ what: 'holds', horse: fact.horse, was: own(barn.horses, fact.horse)?.holds ?? [] }],
      };
    case 'volunteerExpected':
    case 'volunteerArrived':
    case 'volunteerLeft':
    case 'volunteerNotComing': {
      const was = own(day.hands, fact.volunteer)?.presence ?? null;
      return {
        touches: [`presence:${fact.volunteer}`],
        restore: [{ what: 'presence', volunteer: fact.volunteer, was }],
      };
    }
    case 'workMoved': {
      const onIt = fact.pieces.flatMap((piece): Restore[] => {
        const prep = own(day.preps, pieceParts(piece)?.prep ?? '');
        return prep?.onIt && pieceId(prep.id, prep.onIt.stage) === piece
          ? [{ what: 'onIt', prep: prep.id, was: prep.onIt }]
          : [];
      });
      return {
        touches: fact.pieces.map((piece) => `piece:${piece}`),
        restore: [...pieceRestores(day, fact.pieces), ...onIt],
      };
    }
    case 'lessonAdded':
    case 'lessonMoved':
    case 'lessonShortened':
    case 'lessonCancelled':
    case 'placeCancelled':
    case 'placeHorseChanged': {
      const id = fact.kind === 'lessonAdded' ? fact.lesson.id : fact.lesson;
      return {
        touches: [`lesson:${id}`],
        restore: [{ what: 'lesson', lesson: id, was: own(day.lessons, id) ?? null }],
      };
    }
    case 'tapKept':
    case 'recordSaved':
    case 'recordRetired':
    case 'rulesChanged':
    case 'barnNamed':
    case 'dayOpened':
    case 'undone':
      return null;
  }
}

/** Where each piece stands now. Last piece first, so that each finds the one it stood in front of. */
function pieceRestores(day: Day, pieces: readonly PieceId[]): Restore[] {
  const places = pieces.map((piece): Restore & { what: 'piece' } => {
    const owner = Object.entries(day.hands).find(([, hands]) => hands.queue.includes(piece));
    const queue = owner?.[1].queue ?? [];
    const before = owner ? (queue[queue.indexOf(piece) + 1] ?? null) : null;
    return { what: 'piece', piece, was: owner?.[0] ?? null, before };
  });
  const rank = (p: Restore & { what: 'piece' }): number =>
    p.was === null ? -1 : (own(day.hands, p.was)?.queue.indexOf(p.piece) ?? -1);
  return places.sort((a, b) => rank(b) - rank(a));
}

function restore(board: Board, step: Restore, { op, at }: Recent): Board {
  switch (step.what) {
    case 'marks':
      return withDay(board, (day) => dropMarks(day, op));
    case 'onIt':
      return withPrep(board, step.prep, (prep) =>
        prep.onIt || prep.marks[step.was.stage].length > 0 ? prep : { ...prep, onIt: step.was },
      );
    case 'presence':
      return withDay(board, (day) => {
        const hands = own(day.hands, step.volunteer);
        if (!hands) return day;
        if (step.was)
          return { ...day, hands: put(day.hands, step.volunteer, { ...hands, presence: step.was }) };
        return hands.queue.length === 0 ? { ...day, hands: without(day.hands, step.volunteer) } : day;
      });
    case 'piece':
      return withDay(board, (day) => moveWork(day, [step.piece], step.was, step.before, at));
    case 'holds':
      return withHolds(board, step.horse, () => step.was);
    case 'lesson': {
      const { lessons } = board.day;
      const restored =
        step.was === null ? without(lessons, step.lesson) : put(lessons, step.lesson, step.was);
      return regrouped({ ...board, day: { ...board.day, lessons: restored } });
    }
  }
}

function dropMarks(day: Day, op: string): Day {
  const preps = { ...day.preps };
  for (const prep of Object.values(preps)) {
    const hit = STAGES.some((stage) => prep.marks[stage].some((mark) => mark.op === op));
    if (!hit && prep.onIt?.op !== op) continue;
    const marks = { ...prep.marks };
    for (const stage of STAGES) marks[stage] = marks[stage].filter((mark) => mark.op !== op);
    preps[prep.id] = { ...prep, marks, onIt: prep.onIt?.op === op ? null : prep.onIt };
  }
  return { ...day, preps };
}
