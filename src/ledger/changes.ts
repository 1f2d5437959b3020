/** Who changed what of the plan and the records. What was done on a horse or seen on it is no change. */
import type { Fact } from '../day/ops.ts';
import type { Change } from './account.ts';
import { takenBack, told, type DayRecord } from './record.ts';

/** What happens in the barn rather than to the plan. */
const HAPPENINGS = [
  'stagesFinished',
  'stageStarted',
  'stagesWrittenDown',
  'itemsTicked',
  'helpAsked',
  'helpAnswered',
  'helpEnded',
  'findingSeen',
  'findingRead',
  'weatherRead',
  'volunteerArrived',
  'volunteerLeft',
  'placesChecked',
  'ridersUp',
  'ridersDown',
  'tapKept',
  'dayOpened',
  'ledgerCorrected',
  'alertsRaised',
] as const satisfies readonly Fact['kind'][];

export type ChangeKind = Exclude<Fact['kind'], (typeof HAPPENINGS)[number]>;
type ChangeFact = Extract<Fact, { kind: ChangeKind }>;

export function changesOf({ date, entries }: DayRecord): Change[] {
  const undone = takenBack(entries);
  return told(entries).flatMap(({ id, by, at, fact }): Change[] =>
    isChange(fact)
      ? [{ date, at, by, kind: fact.kind, about: aboutOf(fact), takenBack: undone.has(id) }]
      : [],
  );
}

function isChange(fact: Fact): fact is ChangeFact {
  return !HAPPENINGS.some((kind) => kind === fact.kind);
}

/** Which horses, people and lessons. */
function aboutOf(fact: ChangeFact): string[] {
  switch (fact.kind) {
    case 'horsePulled':
    case 'horseReleased':
    case 'horseIsolated':
    case 'isolationEnded':
    case 'farrierCame':
    case 'conditionScored':
      return [fact.horse];
    case 'standInsTaken':
      return [
        ...new Set(
          fact.changes.flatMap((one) => (one.horse === null ? one.lesson : [one.horse, one.lesson])),
        ),
      ];
    case 'volunteerExpected':
    case 'volunteerNotComing':
      return [fact.volunteer];
    case 'workMoved':
      return fact.to === null ? [] : [fact.to];
    case 'lessonAdded':
      return [fact.lesson.id];
    case 'lessonMoved':
    case 'lessonShortened':
    case 'lessonCancelled':
    case 'lessonPlanned':
    case 'placeCancelled':
      return [fact.lesson];
    case 'lessonsMoved':
      return fact.moves.map((one) => one.lesson);
    case 'lessonsCancelled':
      return fact.lessons;
    case 'placesPlanned':
      return [...new Set(fact.changes.map((one) => one.lesson))];
    case 'rolesChanged':
      return [...new Set(fact.changes.flatMap((one) => [...(one.in === null ? [] : [one.in]), one.lesson]))];
    case 'placeHorseChanged':
      return fact.horse === null ? [fact.lesson] : [fact.horse, fact.lesson];
    case 'recordSaved':
      return [fact.saved.record.id];
    case 'recordRetired':
      return [fact.id];
    case 'recordsImported':
    case 'ruleSet':
    case 'rulesChanged':
    case 'barnNamed':
    case 'planTaken':
    case 'undone':
      return [];
  }
}
