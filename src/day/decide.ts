/**
 * May it? `decide(board, op)` says what the hub makes of an op: facts to write down, or a reason why not. It never
 * throws and changes nothing. A tablet runs the same function to show a tap before the hub has answered.
 */
import { own } from '../barn/basics.ts';
import type { Barn, Table } from '../barn/barn.ts';
import { recordsOf } from '../barn/tables.ts';
import { asks, isAfterStage, isCleared, type WorkStage } from '../barn/stage.ts';
import { MINUTE_MS } from '../time/units.ts';
import { wallTimeAt } from '../time/zone.ts';
import { wordsAsked } from './care.ts';
import type { Board, Day } from './board.ts';
import { isUnused } from './emptyDay.ts';
import { pieceParts } from './pieces.ts';
import { lessonsObjection } from './lessons.ts';
import type { Fact, Op, OpFact, Reason, WrittenStage } from './ops.ts';
import { HUB_DEVICE } from './hubDevice.ts';
import { isPulled, liveBookings } from './preps.ts';
import { planObjection } from './planPlaces.ts';
import { checkObjection } from './rides.ts';
import { rolesObjection } from './roles.ts';
import { touchedSince } from './undo.ts';

/** `facts` are to be written down; `why` tells the person what did not come of it (null: all as tapped). */
export type Decision = { readonly facts: readonly Fact[]; readonly why: Reason | null };

/** What the hub makes of `op`. Repeated and late ops: see `late.ts`. */
export function decide(board: Board, op: Op): Decision {
  if (op.by !== null && !isPerson(board.barn, op.by)) return declined({ code: 'unknownPerson' });
  const why = objection(board, op, op.fact);
  if (!why)
    return op.fact.kind === 'stagesWrittenDown' ? fromPaper(board, op.fact) : { facts: [op.fact], why: null };
  return { facts: keptInstead(op.fact, why), why };
}

/** Of what was ticked on paper each stage lands by itself; what comes too late to count is kept as a note. */
function fromPaper(board: Board, fact: Extract<OpFact, { kind: 'stagesWrittenDown' }>): Decision {
  const judged = fact.done.map((one) => ({ one, why: prepObjection(board, one.prep, [one.stage]) }));
  const done = judged.flatMap(({ one, why }) => (why ? [] : one));
  const notes = judged.flatMap(({ one, why }): Fact[] =>
    why ? [{ kind: 'tapKept', prep: one.prep, stages: [one.stage] }] : [],
  );
  return {
    facts: done.length > 0 ? [{ ...fact, done }, ...notes] : notes,
    why: judged.find(({ why }) => why)?.why ?? null,
  };
}

function declined(why: Reason): Decision {
  return { facts: [], why };
}

function isPerson(barn: Barn, id: string): boolean {
  return own(barn.volunteers, id) !== undefined || own(barn.staff, id) !== undefined;
}

/** A stage tap on a horse that is pulled or no longer needed counts for nothing, but what was done is not lost. */
function keptInstead(fact: OpFact, why: Reason): Fact[] {
  const tooLate = why.code === 'horsePulled' || why.code === 'notNeeded';
  if (!tooLate) return [];
  if (fact.kind === 'stagesFinished') return [{ kind: 'tapKept', prep: fact.prep, stages: fact.stages }];
  return [];
}

/** What stands against the fact; null when nothing does. */
function objection(board: Board, op: Op, fact: OpFact): Reason | null {
  const { barn, day } = board;
  switch (fact.kind) {
    case 'stagesFinished':
      return prepObjection(board, fact.prep, fact.stages);
    case 'stagesWrittenDown':
      return fact.date === day.date && areOf(fact.date, fact.done, barn.zone)
        ? writtenObjection(board, fact.done)
        : { code: 'dayOver' };
    case 'stageStarted':
      return op.by === null || !own(barn.volunteers, op.by)
        ? { code: 'needsName' }
        : (prepObjection(board, fact.prep, [fact.stage]) ??
            clearanceObjection(board, op.by, fact.prep, fact.stage));
    case 'itemsTicked':
      return own(day.preps, fact.prep) ? null : { code: 'unknownPrep' };
    case 'helpAsked':
      if (!own(barn.horses, fact.horse)) return { code: 'unknownHorse' };
      return fact.to === null || isPerson(barn, fact.to) ? null : { code: 'unknownPerson' };
    case 'helpAnswered':
    case 'helpEnded':
      if (op.by === null) return { code: 'needsName' };
      return day.help.some((call) => call.id === fact.help) ? null : { code: 'unknownCall' };
    case 'horsePulled':
      return own(barn.horses, fact.horse)
        ? op.by === null
          ? { code: 'needsName' }
          : null
        : { code: 'unknownHorse' };
    case 'horseReleased':
      return releaseObjection(barn, op.by, fact);
    case 'horseIsolated':
    case 'isolationEnded':
    case 'farrierCame':
    case 'conditionScored':
      if (!own(barn.horses, fact.horse)) return { code: 'unknownHorse' };
      return op.by === null ? { code: 'needsName' } : null;
    case 'weatherRead':
      if (op.by === null) return { code: 'needsName' };
      return day.date === null ? { code: 'dayOver' } : null;
    case 'findingSeen':
      return own(barn.horses, fact.horse) ? null : { code: 'unknownHorse' };
    case 'findingRead':
      if (op.by === null) return { code: 'needsName' };
      return board.findings.some((note) => note.id === fact.finding) ? null : { code: 'unknownFinding' };
    case 'standInsTaken':
      return standInsObjection(board, fact);
    case 'volunteerExpected':
    case 'volunteerArrived':
    case 'volunteerLeft':
    case 'volunteerNotComing':
      return own(barn.volunteers, fact.volunteer) ? null : { code: 'unknownPerson' };
    case 'workMoved':
      if (fact.to !== null && !own(barn.volunteers, fact.to)) return { code: 'unknownPerson' };
      return moveObjection(board, fact.pieces, fact.to);
    case 'lessonAdded': {
      const known = own(day.lessons, fact.lesson.id);
      if (known)
        return JSON.stringify(known) === JSON.stringify(fact.lesson) ? null : { code: 'lessonExists' };
      return day.date === null ? { code: 'dayOver' } : doubleBooking(day, fact.lesson.id, horsesIn(fact));
    }
    case 'lessonMoved':
    case 'lessonShortened':
    case 'lessonCancelled':
      return own(day.lessons, fact.lesson) ? null : { code: 'unknownLesson' };
    case 'placeCancelled':
      return placeObjection(day, fact.lesson, fact.place);
    case 'placeHorseChanged':
      return changesObjection(board, [fact]);
    case 'lessonPlanned':
      return own(day.lessons, fact.lesson) ? null : { code: 'unknownLesson' };
    case 'placesPlanned':
      return planObjection(board, fact, op.tappedAt);
    case 'rolesChanged':
      return rolesObjection(board, fact, op.tappedAt);
    case 'placesChecked':
      return checkObjection(board, op, fact);
    case 'ridersUp':
    case 'ridersDown':
      return own(day.lessons, fact.lesson) ? null : { code: 'unknownLesson' };
    case 'lessonsMoved':
    case 'lessonsCancelled':
      return lessonsObjection(board, fact);
    case 'recordSaved':
      return null;
    case 'recordsImported':
      return importObjection(board, fact.gone);
    case 'recordRetired':
      return retireObjection(board, fact.table, fact.id);
    case 'ruleSet':
    case 'rulesChanged':
    case 'barnNamed':
      return null;
    case 'dayOpened':
      return day.date === null || fact.date > day.date || isWayBack(board, op, fact.date)
        ? null
        : { code: 'dayOver' };
    case 'ledgerCorrected':
      return correctionObjection(board, op.by, fact);
    case 'alertsRaised':
      return op.device === HUB_DEVICE ? null : { code: 'notAllowedHere' };
    case 'planTaken':
      return day.date === fact.date ? null : { code: 'dayOver' };
    case 'undone': {
      const recent = day.recent.find((r) => r.op === fact.op);
      if (!recent) return { code: 'nothingToUndo' };
      return touchedSince(day, recent) ? { code: 'changedSince' } : null;
    }
  }
}

/**
 * A hub whose clock was ahead has opened a day to come. Nobody is to wait for that day, so the hub itself may go back to
 * today, as long as the day it leaves holds nothing.
 */
function isWayBack({ barn, day }: Board, op: Op, date: string): boolean {
  const isHub = op.device === HUB_DEVICE && op.by === null;
  return isHub && date !== day.date && isUnused(day) && date === wallTimeAt(op.tappedAt, barn.zone).date;
}

/** A horse that is pulled or not needed is still untacked and put away. */
function prepObjection({ barn, day }: Board, id: string, stages: readonly WorkStage[]): Reason | null {
  const prep = own(day.preps, id);
  if (!prep) return { code: 'unknownPrep' };
  if (stages.every(isAfterStage)) return null;
  if (isPulled(barn, prep.horse)) return { code: 'horsePulled', horse: prep.horse };
  return prep.places.length === 0 ? { code: 'notNeeded', horse: prep.horse } : null;
}

/** Nothing of it lands when a horse or a person is not of this barn: a line of the paper was misread. */
function writtenObjection({ barn, day }: Board, done: readonly WrittenStage[]): Reason | null {
  if (done.some(({ prep }) => !own(day.preps, prep))) return { code: 'unknownPrep' };
  return done.every(({ by }) => by === null || isPerson(barn, by)) ? null : { code: 'unknownPerson' };
}

function areOf(date: string, done: readonly WrittenStage[], zone: string): boolean {
  return done.every(({ at }) => at === null || wallTimeAt(at, zone).date === date);
}

/** As long as a lesson can be planned. */
const LONGEST_LESSON_MS = 240 * MINUTE_MS;

/** A correction is named, is of today or before, and its times are of that day. */
function correctionObjection(
  { barn, day }: Board,
  by: string | null,
  { date, correction }: Extract<OpFact, { kind: 'ledgerCorrected' }>,
): Reason | null {
  if (by === null) return { code: 'needsName' };
  if (day.date === null || date > day.date) return { code: 'dayOver' };
  const isOfThatDay = (at: number | null): boolean => at === null || wallTimeAt(at, barn.zone).date === date;
  switch (correction.about) {
    case 'stay': {
      const { volunteer, from, until } = correction;
      if (!own(barn.volunteers, volunteer)) return { code: 'unknownPerson' };
      const isOrdered = until === null || from <= until;
      return isOrdered && isOfThatDay(from) && isOfThatDay(until) ? null : { code: 'dayOver' };
    }
    case 'stage':
      if (correction.by !== null && !isPerson(barn, correction.by)) return { code: 'unknownPerson' };
      return isOfThatDay(correction.at) ? null : { code: 'dayOver' };
    case 'lesson': {
      const { start, end } = correction;
      const isLesson = start <= end && end - start <= LONGEST_LESSON_MS;
      return isLesson && isOfThatDay(start) && isOfThatDay(end) ? null : { code: 'dayOver' };
    }
    case 'ride':
      return own(barn.horses, correction.horse) ? null : { code: 'unknownHorse' };
    case 'stages':
      return areOf(date, correction.done, barn.zone) ? null : { code: 'dayOver' };
    case 'note':
      return null;
  }
}

/** A release is named; after a vet or farrier hold it also carries that person's word, after both the words of both. */
function releaseObjection(
  barn: Barn,
  by: string | null,
  { horse: id, word, farrierWord }: Extract<OpFact, { kind: 'horseReleased' }>,
): Reason | null {
  const horse = own(barn.horses, id);
  if (!horse) return { code: 'unknownHorse' };
  if (horse.holds.length === 0) return { code: 'notPulled', horse: id };
  if (by === null) return { code: 'needsName' };
  const asked = wordsAsked(horse.holds).length;
  const given = [word, farrierWord ?? ''].filter((one) => one.trim() !== '').length;
  return given < asked ? { code: 'needsWord', horse: id } : null;
}

function placeObjection(day: Day, lessonId: string, placeId: string): Reason | null {
  const lesson = own(day.lessons, lessonId);
  if (!lesson) return { code: 'unknownLesson' };
  return lesson.places.some((place) => place.id === placeId) ? null : { code: 'unknownPlace' };
}

type PlaceChange = { lesson: string; place: string; horse: string | null };

/** All changes are judged together: two horses may swap their places. */
function changesObjection({ barn, day }: Board, changes: readonly PlaceChange[]): Reason | null {
  for (const { lesson, place, horse } of changes) {
    const missing = placeObjection(day, lesson, place);
    if (missing) return missing;
    if (horse === null) continue;
    if (!own(barn.horses, horse)) return { code: 'unknownHorse' };
    if (isPulled(barn, horse)) return { code: 'horsePulled', horse };
    const then = own(day.lessons, lesson)?.places.flatMap((other) => {
      const change = changes.find((c) => c.lesson === lesson && c.place === other.id);
      return other.cancelled ? [] : ((change ? change.horse : other.horse) ?? []);
    });
    if (then && then.filter((one) => one === horse).length > 1) return { code: 'horseTwice', horse };
  }
  return null;
}

function standInsObjection(board: Board, fact: Extract<OpFact, { kind: 'standInsTaken' }>): Reason | null {
  const why = changesObjection(board, fact.changes);
  if (why) return why;
  return fact.work.every(({ to }) => own(board.barn.volunteers, to)) ? null : { code: 'unknownPerson' };
}

function horsesIn(fact: Extract<OpFact, { kind: 'lessonAdded' }>): string[] {
  return fact.lesson.places.flatMap((place) => (place.horse !== null && !place.cancelled ? place.horse : []));
}

function doubleBooking(day: Day, lesson: string, horses: readonly string[]): Reason | null {
  const twice = horses.find((horse, i) => horses.indexOf(horse) !== i);
  return twice === undefined || own(day.lessons, lesson) ? null : { code: 'horseTwice', horse: twice };
}

function moveObjection(board: Board, pieces: readonly string[], to: string | null): Reason | null {
  for (const piece of pieces) {
    const parts = pieceParts(piece);
    if (!parts || !own(board.day.preps, parts.prep)) return { code: 'unknownPiece' };
    const why = to === null ? null : clearanceObjection(board, to, parts.prep, parts.stage);
    if (why) return why;
  }
  return null;
}

/** Nobody is sent to work they are not cleared for. A stage finished all the same is a fact, and lands. */
function clearanceObjection(
  { barn, day }: Board,
  id: string,
  prepId: string,
  stage: WorkStage,
): Reason | null {
  const volunteer = own(barn.volunteers, id);
  const horse = own(barn.horses, own(day.preps, prepId)?.horse ?? '');
  if (!volunteer || !horse) return null;
  const cleared = isCleared(volunteer.clearances, asks(horse.experiencedFor, stage));
  return cleared ? null : { code: 'notCleared', volunteer: id, stage, horse: horse.id };
}

/** What is already gone is no matter; what is still used keeps the whole file out. */
function importObjection(board: Board, gone: readonly { table: Table; id: string }[]): Reason | null {
  const isUsed = gone.some(({ table, id }) => retireObjection(board, table, id)?.code === 'stillUsed');
  return isUsed ? { code: 'stillUsed' } : null;
}

/** A record that today's day still needs cannot go. */
function retireObjection({ barn, day }: Board, table: Table, id: string): Reason | null {
  if (own(recordsOf(barn, table), id) === undefined) return { code: 'unknownRecord' };
  const bookings = liveBookings(day);
  const used: Partial<Record<Table, () => boolean>> = {
    stalls: () => Object.values(barn.horses).some((horse) => horse.stall === id),
    horses: () => bookings.some(({ place }) => place.horse === id),
    volunteers: () => (own(day.hands, id)?.presence.state ?? 'left') === 'here',
    staff: () => bookings.some(({ lesson }) => lesson.instructor === id),
    riders: () => bookings.some(({ place }) => place.rider === id),
    arenas: () => bookings.some(({ lesson }) => lesson.arena === id),
    terms: () => Object.values(barn.book.pattern).some((lesson) => lesson.term === id),
  };
  return used[table]?.() ? { code: 'stillUsed' } : null;
}
