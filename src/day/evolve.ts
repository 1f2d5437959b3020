/**
 * Then what? `evolve(board, entry)` is the only way a board changes, on the hub and on every tablet. It is total: an
 * entry it cannot place changes nothing. It returns the same reference when nothing changed.
 */
import type { TableRecord } from '../barn/barn.ts';
import { withoutRecord, withRecord } from '../barn/tables.ts';
import { withValue } from '../barn/atPath.ts';
import { own } from '../barn/basics.ts';
import type { Horse } from '../barn/horse.ts';
import type { Board } from './board.ts';
import { emptyDay, isUnused } from './emptyDay.ts';
import type { Entry, Fact } from './ops.ts';
import {
  regrouped,
  withDay,
  withHolds,
  withLesson,
  withPlace,
  withPrep,
  withPresence,
  withState,
  type Stamp,
} from './steps.ts';
import { endIsolation, farrierCame, isolate, readWeather, scoreCondition } from './care.ts';
import { planPlaces } from './planPlaces.ts';
import { readFinding, seeFinding, settle } from './findingSteps.ts';
import { askHelp, sayToCall } from './helpSteps.ts';
import { cancelLessons, movedTo, moveLessons } from './lessons.ts';
import { checkPlaces, ridersTapped } from './rideSteps.ts';
import { changeRoles } from './roles.ts';
import { takeStandIns } from './standIns.ts';
import { importRecords } from './importRecords.ts';
import { takePlan } from './takePlan.ts';
import { withDayWorked } from './worked.ts';
import { tickItems } from './tickSteps.ts';
import { remember, takeBack } from './undo.ts';
import { finish, finishOnPaper, keepNote, moveWork, start, stepOff } from './work.ts';

/** The board after one entry. */
export function evolve(board: Board, entry: Entry): Board {
  return entry.facts.reduce((next, fact) => remember(next, apply(next, fact, entry), fact, entry), board);
}

function apply(board: Board, fact: Fact, stamp: Stamp): Board {
  switch (fact.kind) {
    case 'stagesFinished':
      return withPrep(board, fact.prep, (prep) => finish(board.day, prep, fact.stages, stamp));
    case 'stagesWrittenDown':
      return fact.done.reduce(
        (next, one) => withPrep(next, one.prep, (prep) => finishOnPaper(board.day, prep, one, stamp)),
        board,
      );
    case 'stageStarted':
      return start(board, fact.prep, fact.stage, stamp);
    case 'itemsTicked':
      return withPrep(board, fact.prep, (prep) => tickItems(prep, fact, stamp));
    case 'helpAsked':
      return askHelp(board, fact, stamp);
    case 'helpAnswered':
      return sayToCall(board, fact.help, 'answers', stamp);
    case 'helpEnded':
      return sayToCall(board, fact.help, 'ends', stamp);
    case 'tapKept':
      return withDay(board, (day) => keepNote(day, fact, stamp));
    case 'horsePulled':
      return withHolds(board, fact.horse, (holds) => [
        ...holds,
        { kind: fact.hold, why: fact.why, by: stamp.by, since: stamp.at },
      ]);
    case 'horseReleased':
      return settle(
        withHolds(board, fact.horse, () => []),
        fact.horse,
      );
    case 'horseIsolated':
      return isolate(board, fact, stamp);
    case 'isolationEnded':
      return endIsolation(board, fact.horse);
    case 'farrierCame':
      return farrierCame(board, fact.horse, fact.date);
    case 'conditionScored':
      return scoreCondition(board, fact, stamp);
    case 'weatherRead':
      return withDay(board, (day) => readWeather(day, fact.reading, stamp));
    case 'findingSeen':
      return seeFinding(board, fact, stamp);
    case 'findingRead':
      return readFinding(board, fact.finding, stamp);
    case 'standInsTaken':
      return takeStandIns(board, fact, stamp);
    case 'volunteerExpected':
      return withPresence(board, fact.volunteer, (was) => ({
        state: was?.state ?? 'expected',
        since: was?.since ?? stamp.at,
        from: fact.from,
        until: fact.until,
      }));
    case 'volunteerArrived':
      return withState(board, fact.volunteer, 'here', stamp);
    case 'volunteerLeft':
      return stepOff(withState(board, fact.volunteer, 'left', stamp), fact.volunteer);
    case 'volunteerNotComing':
      return stepOff(withState(board, fact.volunteer, 'notComing', stamp), fact.volunteer);
    case 'workMoved':
      return withDay(board, (day) => moveWork(day, fact.pieces, fact.to, fact.before, stamp.at));
    case 'lessonAdded':
      return withLesson(board, fact.lesson.id, () => fact.lesson);
    case 'lessonMoved':
      return withLesson(board, fact.lesson, (lesson) => lesson && movedTo(lesson, fact.start));
    case 'lessonShortened':
      return withLesson(board, fact.lesson, (lesson) => lesson && { ...lesson, minutes: fact.minutes });
    case 'lessonCancelled':
      return withLesson(board, fact.lesson, (lesson) => lesson && { ...lesson, cancelled: true });
    case 'placeCancelled':
      return withLesson(
        board,
        fact.lesson,
        (lesson) => lesson && withPlace(lesson, fact.place, { cancelled: true }),
      );
    case 'placeHorseChanged':
      return withLesson(
        board,
        fact.lesson,
        (lesson) => lesson && withPlace(lesson, fact.place, { horse: fact.horse, tack: fact.tack }),
      );
    case 'lessonPlanned': {
      const { kind: _kind, lesson: id, ...plan } = fact;
      return withLesson(board, id, (lesson) => lesson && { ...lesson, ...plan });
    }
    case 'placesPlanned':
      return planPlaces(board, fact);
    case 'rolesChanged':
      return changeRoles(board, fact);
    case 'placesChecked':
      return checkPlaces(board, fact, stamp);
    case 'ridersUp':
      return ridersTapped(board, fact.lesson, 'mounted', stamp);
    case 'ridersDown':
      return ridersTapped(board, fact.lesson, 'down', stamp);
    case 'lessonsMoved':
      return moveLessons(board, fact);
    case 'lessonsCancelled':
      return cancelLessons(board, fact);
    case 'recordSaved':
      return saveRecord(board, fact.saved);
    case 'recordsImported':
      return importRecords(board, fact, keepsWhatHolds);
    case 'recordRetired': {
      const barn = withoutRecord(board.barn, fact.table, fact.id);
      return barn === board.barn ? board : { ...board, barn };
    }
    case 'ruleSet':
      return regrouped({
        ...board,
        barn: { ...board.barn, rules: withValue(board.barn.rules, fact.path, fact.value) },
      });
    case 'rulesChanged':
      return regrouped({ ...board, barn: { ...board.barn, rules: fact.rules } });
    case 'barnNamed':
      return { ...board, barn: { ...board.barn, name: fact.name, zone: fact.zone } };
    case 'dayOpened':
      return openDay(board, fact.date);
    case 'ledgerCorrected':
    case 'alertsRaised':
      // The board shows the day as it was tapped; the ledger reads these from the journal.
      return board;
    case 'planTaken':
      return takePlan(board, fact, stamp);
    case 'undone':
      return takeBack(board, fact.op);
  }
}

/** A horse saved from a form keeps its holds and its isolation: only a named person takes them off. */
function saveRecord(board: Board, saved: TableRecord): Board {
  if (saved.table !== 'horses') return { ...board, barn: withRecord(board.barn, saved) };
  const known = own(board.barn.horses, saved.record.id);
  const record = known ? keepsWhatHolds(saved.record, known) : saved.record;
  return { ...board, barn: withRecord(board.barn, { table: 'horses', record }) };
}

function keepsWhatHolds({ isolation: _typed, ...record }: Horse, { holds, isolation }: Horse): Horse {
  return { ...record, holds, ...(isolation && { isolation }) };
}

function openDay(board: Board, date: string): Board {
  const open = board.day.date;
  if (open === date) return board;
  if (open !== null && open > date) {
    // No clock set back releases a horse: what is held for today stays held.
    return isUnused(board.day) ? { ...board, day: emptyDay(date) } : board;
  }
  const horses = { ...board.barn.horses };
  for (const horse of Object.values(horses)) {
    const holds = horse.holds.filter((hold) => hold.kind !== 'today');
    if (holds.length < horse.holds.length) horses[horse.id] = { ...horse, holds };
  }
  return {
    ...board,
    barn: { ...board.barn, horses },
    day: emptyDay(date),
    worked: withDayWorked(board.worked, board.day),
  };
}
