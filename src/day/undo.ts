/**
 * Undo. Each op that can be taken back leaves a note of what it touched and how things were; an undo puts back just
 * that, and only while nothing later has touched it.
 */
import { own, put, without } from '../barn/basics.ts';
import { AFTER_STAGES, WORK_STAGES } from '../barn/stage.ts';
import type { Board, Day, PieceId, Recent, Restore } from './board.ts';
import { pieceId, stagesOf } from './pieces.ts';
import { RECENT_OPS } from './kept.ts';
import type { Fact } from './ops.ts';
import { ownersIn } from './owners.ts';
import { isFinished, prepOf } from './preps.ts';
import { regrouped, withDay, withHolds, withPrep, type Stamp } from './steps.ts';
import { dropCall } from './helpSteps.ts';
import { dropRideMarks } from './rideSteps.ts';
import { dropTicks } from './tickSteps.ts';
import { requeue } from './work.ts';

/** The next board with a note of how to take this fact back, where a fact can be taken back. */
export function remember(before: Board, after: Board, fact: Fact, stamp: Stamp): Board {
  if (after === before) return after;
  const restore = restoring(before, after, fact);
  if (!restore) return after;
  const earlier = after.day.recent.find((recent) => recent.op === stamp.id);
  const recent: Recent = {
    op: stamp.id,
    device: stamp.device,
    at: stamp.at,
    // Taken back in the opposite order.
    restore: [...restore, ...(earlier?.restore ?? [])],
  };
  const others = after.day.recent.filter((r) => r.op !== stamp.id);
  return { ...after, day: { ...after.day, recent: [...others, recent].slice(-RECENT_OPS) } };
}

/** The board with op `op` taken back; the same reference when there is no note of it. */
export function takeBack(board: Board, op: string): Board {
  const recent = board.day.recent.find((r) => r.op === op);
  if (!recent) return board;
  const restored = recent.restore.reduce(
    (next, step) => restore(next, step, recent),
    restoreLessons(board, recent.restore),
  );
  return withDay(restored, (day) => ({
    ...day,
    recent: day.recent.filter((r) => r.op !== op),
    planTaken: day.planTaken === op ? null : day.planTaken,
  }));
}

/** Whether something later touched what this op changed: then taking it back would wipe that out. */
export function touchedSince(day: Day, recent: Recent): boolean {
  const mine = recent.restore.flatMap((step) => touched(step) ?? []);
  const later = day.recent.slice(day.recent.indexOf(recent) + 1);
  return later.some(({ restore }) =>
    restore.some((step) => {
      const key = touched(step);
      return key !== null && mine.includes(key);
    }),
  );
}

/** What a step back would wipe out, if something later changed it; null: it takes out its own and nothing else. */
function touched(step: Restore): string | null {
  switch (step.what) {
    case 'piece':
      return `piece:${step.piece}`;
    case 'presence':
      return `presence:${step.volunteer}`;
    case 'lesson':
      return `lesson:${step.lesson}`;
    case 'holds':
      return `holds:${step.horse}`;
    case 'marks':
    case 'onIt':
    case 'findings':
      return null;
  }
}

/** Kinds of fact that leave their op's name on what they did. */
const LEAVES_MARKS: readonly Fact['kind'][] = [
  'stagesFinished',
  'stagesWrittenDown',
  'stageStarted',
  'findingSeen',
  'weatherRead',
  'itemsTicked',
  'helpAsked',
  'helpAnswered',
  'helpEnded',
  'placesChecked',
  'ridersUp',
  'ridersDown',
];

/** What changed between two boards, as steps back. Null: nothing that can be taken back. */
function restoring(before: Board, after: Board, fact: Fact): Restore[] | null {
  if (!isUndoable(fact)) return null;
  const marks = LEAVES_MARKS.includes(fact.kind);
  const pieces = movedPieces(before.day, after.day, fact);
  const presences = changedKeys(before.day.hands, after.day.hands, (hands) => hands?.presence);
  const lessons = changedKeys(before.day.lessons, after.day.lessons, (lesson) => lesson);
  const horses = changedKeys(after.barn.horses, before.barn.horses, (horse) => horse?.holds).flatMap(
    (id) => own(before.barn.horses, id) ?? [],
  );
  const onIts = changedKeys(after.day.preps, before.day.preps, (prep) => prep?.onIt).flatMap((id) => {
    const prep = own(before.day.preps, id);
    return prep?.onIt ? prep : [];
  });
  return [
    ...(marks ? [{ what: 'marks' } as const] : []),
    ...lessons.map((id): Restore => ({
      what: 'lesson',
      lesson: id,
      was: own(before.day.lessons, id) ?? null,
    })),
    ...horses.map((horse): Restore => ({ what: 'holds', horse: horse.id, was: horse.holds })),
    ...findingRestores(before, after),
    ...pieceRestores(before.day, pieces),
    ...onIts.flatMap((p): Restore[] => (p.onIt ? [{ what: 'onIt', prep: p.id, was: p.onIt }] : [])),
    ...presences.map((id): Restore => ({
      what: 'presence',
      volunteer: id,
      was: own(before.day.hands, id)?.presence ?? null,
    })),
  ];
}

/** Keys of `now` under which `pick` finds another than in `was`. A table that is the same is not looked through. */
function changedKeys<T>(
  was: Readonly<Record<string, T>>,
  now: Readonly<Record<string, T>>,
  pick: (value: T | undefined) => unknown,
): string[] {
  if (was === now) return [];
  const changed: string[] = [];
  for (const id in now) {
    const before = own(was, id);
    if (before !== now[id] && pick(before) !== pick(now[id])) changed.push(id);
  }
  return changed;
}

/** Findings this fact settled are open again after an undo; one it added goes. */
function findingRestores(before: Board, after: Board): Restore[] {
  if (before.findings === after.findings) return [];
  const settled = before.findings.filter(
    (note) => !note.settled && after.findings.find((one) => one.id === note.id)?.settled,
  );
  return settled.length > 0 ? [{ what: 'findings', was: settled.map((note) => note.id) }] : [];
}

/** Records keep their own history and a day does not close again; everything else a tap does can be taken back. */
function isUndoable(fact: Fact): boolean {
  switch (fact.kind) {
    case 'stagesFinished':
    case 'stagesWrittenDown':
    case 'stageStarted':
    case 'horsePulled':
    case 'horseReleased':
    case 'findingSeen':
    case 'standInsTaken':
    case 'weatherRead':
    case 'volunteerExpected':
    case 'volunteerArrived':
    case 'volunteerLeft':
    case 'volunteerNotComing':
    case 'workMoved':
    case 'lessonAdded':
    case 'lessonMoved':
    case 'lessonShortened':
    case 'lessonCancelled':
    case 'placeCancelled':
    case 'placeHorseChanged':
    case 'lessonPlanned':
    case 'placesPlanned':
    case 'planTaken':
    case 'itemsTicked':
    case 'helpAsked':
    case 'helpAnswered':
    case 'helpEnded':
    case 'rolesChanged':
    case 'placesChecked':
    case 'ridersUp':
    case 'ridersDown':
    case 'lessonsMoved':
    case 'lessonsCancelled':
      return true;
    case 'tapKept':
    case 'horseIsolated':
    case 'isolationEnded':
    case 'farrierCame':
    case 'conditionScored':
    case 'findingRead':
    case 'recordSaved':
    case 'recordsImported':
    case 'recordRetired':
    case 'ruleSet':
    case 'rulesChanged':
    case 'barnNamed':
    case 'dayOpened':
    case 'ledgerCorrected':
    case 'alertsRaised':
    case 'undone':
      return false;
  }
}

/** Pieces whose place in the queues this fact changed: in another's queue now, or moved by name. */
function movedPieces(before: Day, after: Day, fact: Fact): PieceId[] {
  if (before.hands === after.hands) return [];
  const [was, is] = [ownersIn(before.hands), ownersIn(after.hands)];
  const named = fact.kind === 'workMoved' ? fact.pieces : [];
  // Also what stood in the person's own queue already: it came to the front of it.
  const given = (fact.kind === 'standInsTaken' ? fact.work : []).flatMap(({ lesson, place, to }) => {
    const served = prepOf(after, lesson, place);
    const pieces = served ? stagesOf(served).map((stage) => pieceId(served.id, stage)) : [];
    return pieces.filter((piece) => is.get(piece) === to);
  });
  const prep = fact.kind === 'stageStarted' ? own(before.preps, fact.prep) : undefined;
  const claimed = prep ? [...stagesOf(prep), ...AFTER_STAGES].map((stage) => pieceId(prep.id, stage)) : [];
  // Only queues that changed can have lost or gained a piece.
  const changed = [...changedQueues(before, after), ...changedQueues(after, before)].filter(
    (piece) => was.get(piece) !== is.get(piece),
  );
  return [...new Set([...named, ...given, ...claimed, ...changed])];
}

/** Pieces in the queues of `day` that are not the same in `other`. */
function changedQueues(day: Day, other: Day): PieceId[] {
  return changedKeys(other.hands, day.hands, (hands) => hands?.queue).flatMap(
    (id) => own(day.hands, id)?.queue ?? [],
  );
}

type Ranked = { readonly rank: number; readonly step: Restore };

/** Where each piece stands now. Last piece first, so that each finds the one it stood in front of. */
function pieceRestores(day: Day, pieces: readonly PieceId[]): Restore[] {
  const owners = ownersIn(day.hands);
  const places = pieces.map((piece): Ranked => {
    const owner = owners.get(piece) ?? null;
    const queue = owner === null ? [] : (own(day.hands, owner)?.queue ?? []);
    const rank = queue.indexOf(piece);
    return {
      rank,
      step: { what: 'piece', piece, was: owner, before: owner === null ? null : (queue[rank + 1] ?? null) },
    };
  });
  return places.sort((a, b) => b.rank - a.rank).map(({ step }) => step);
}

function restore(board: Board, step: Restore, { op, at }: Recent): Board {
  switch (step.what) {
    case 'marks':
      return dropFinding(
        withDay(board, (day) => dropCall(dropRideMarks(dropTicks(dropMarks(day, op), op), op), op)),
        op,
      );
    case 'findings':
      return {
        ...board,
        findings: board.findings.map((note) =>
          step.was.includes(note.id) ? { ...note, settled: false } : note,
        ),
      };
    case 'onIt':
      return withPrep(board, step.prep, (prep) =>
        prep.onIt || isFinished(prep, step.was.stage) ? prep : { ...prep, onIt: step.was },
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
      return withDay(board, (day) => requeue(day, [step.piece], step.was, step.before, at));
    case 'holds':
      return withHolds(board, step.horse, () => step.was);
    case 'lesson':
      return board;
  }
}

/** All lessons at once: with only some of them back, a horse would be in two places or in none. */
function restoreLessons(board: Board, steps: readonly Restore[]): Board {
  const back = steps.filter((step) => step.what === 'lesson');
  if (back.length === 0) return board;
  const lessons = back.reduce(
    (next, { lesson, was }) => (was === null ? without(next, lesson) : put(next, lesson, was)),
    board.day.lessons,
  );
  return regrouped({ ...board, day: { ...board.day, lessons } });
}

function dropFinding(board: Board, op: string): Board {
  const findings = board.findings.filter((note) => note.id !== op);
  return findings.length === board.findings.length ? board : { ...board, findings };
}

function dropMarks(day: Day, op: string): Day {
  const preps = { ...day.preps };
  for (const prep of Object.values(preps)) {
    const hit = WORK_STAGES.some((stage) => prep.marks[stage].some((mark) => mark.op === op));
    if (!hit && prep.onIt?.op !== op) continue;
    const marks = { ...prep.marks };
    for (const stage of WORK_STAGES) marks[stage] = marks[stage].filter((mark) => mark.op !== op);
    preps[prep.id] = { ...prep, marks, onIt: prep.onIt?.op === op ? null : prep.onIt };
  }
  const weather = day.weather.filter((note) => note.id !== op);
  // Of what was ticked on paper some may only have been kept as a note.
  const notes = day.notes.filter((note) => note.op !== op);
  return {
    ...day,
    preps,
    weather: weather.length < day.weather.length ? weather : day.weather,
    notes: notes.length < day.notes.length ? notes : day.notes,
  };
}
