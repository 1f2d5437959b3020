/** What taps are about that the hub has not answered. */
import type { Op } from '#core/day/ops.ts';

/** A tap kept since another version of the board may be of any shape: it shows nothing, and the hub says so. */
export function asFarAsRead<T>(read: () => T, otherwise: T): T {
  try {
    return read();
  } catch {
    return otherwise;
  }
}

/** What these ops are about, by id: preps, horses, people, lessons; for a mark on what is not confirmed yet. */
export function pendingSubjects(ops: readonly Op[]): ReadonlySet<string> {
  return new Set(ops.flatMap((op) => asFarAsRead(() => subjectsOf(op), [])));
}

function subjectsOf({ fact }: Op): readonly string[] {
  switch (fact.kind) {
    case 'stagesFinished':
    case 'stageStarted':
    case 'itemsTicked':
      return [fact.prep];
    case 'stagesWrittenDown':
      return fact.done.map((one) => one.prep);
    case 'helpAsked':
    case 'horsePulled':
    case 'horseReleased':
    case 'findingSeen':
    case 'horseIsolated':
    case 'isolationEnded':
    case 'farrierCame':
    case 'conditionScored':
      return [fact.horse];
    case 'helpAnswered':
    case 'helpEnded':
      return [fact.help];
    case 'rolesChanged':
      return fact.changes.map((change) => change.lesson);
    case 'lessonsMoved':
      return fact.moves.map((move) => move.lesson);
    case 'lessonsCancelled':
      return fact.lessons;
    case 'findingRead':
      return [fact.finding];
    case 'standInsTaken':
      return fact.changes.map((change) => change.lesson);
    case 'volunteerExpected':
    case 'volunteerArrived':
    case 'volunteerLeft':
    case 'volunteerNotComing':
      return [fact.volunteer];
    case 'workMoved':
      return fact.pieces;
    case 'lessonAdded':
      return [fact.lesson.id];
    case 'lessonMoved':
    case 'lessonShortened':
    case 'lessonCancelled':
    case 'placeCancelled':
    case 'placeHorseChanged':
    case 'placesChecked':
    case 'ridersUp':
    case 'ridersDown':
      return [fact.lesson];
    case 'recordSaved':
      return [fact.saved.record.id];
    case 'recordRetired':
      return [fact.id];
    case 'recordsImported':
      return fact.put.map(({ record }) => record.id);
    case 'lessonPlanned':
      return [fact.lesson];
    case 'placesPlanned':
      return fact.changes.map((change) => change.lesson);
    case 'planTaken':
      return fact.lessons.map((lesson) => lesson.id);
    case 'undone':
      return [fact.op];
    case 'ruleSet':
    case 'rulesChanged':
    case 'barnNamed':
    case 'dayOpened':
    case 'ledgerCorrected':
    case 'alertsRaised':
    case 'weatherRead':
      return [];
  }
}
