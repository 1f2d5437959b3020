/**
 * What can happen, as facts in the past tense: one discriminated union, used by tablets, hub, journal and tests.
 *
 * A tablet sends an `Op`: a fact with its id, device and person. The hub answers each with an `Entry` that carries the
 * facts it made of it (usually the same one) under a sequence number. Only entries change a board.
 */
import * as z from 'zod/mini';
import { ZoneName, Table, TableRecord } from '../barn/barn.ts';
import { Clearance, DateText, Id, Instant, Key, ShownName, Words, WorkStage } from '../barn/fields.ts';
import { PlannedPlace } from '../barn/book.ts';
import { Hold } from '../barn/horse.ts';
import { Finding } from '../care/findings.ts';
import { WeatherReading } from '../care/weatherRules.ts';
import { ChangeReason, Lesson, LessonMinutes } from '../barn/lesson.ts';
import { isRuleValue } from '../barn/ruleValue.ts';
import { Rules } from '../barn/rules.ts';
import { Raised } from './alerts/record.ts';
import { HelpCall, PieceId, PlaceCheck } from './board.ts';

const kind = <const K extends string, S extends z.core.$ZodLooseShape>(name: K, shape: S) =>
  z.object({ kind: z.literal(name), ...shape });

/* Work on a horse */
const StagesFinished = kind('stagesFinished', {
  prep: Key,
  stages: z.array(WorkStage).check(z.minLength(1), z.maxLength(4)),
});
const StageStarted = kind('stageStarted', { prep: Key, stage: WorkStage });
/** Items of the prep's tack list, ticked while tacking; or the ticks taken off. */
const ItemsTicked = kind('itemsTicked', {
  prep: Key,
  tack: Id,
  items: z.array(ShownName).check(z.minLength(1), z.maxLength(20)),
  on: z.boolean(),
});

/* A hand */
const HelpAsked = kind('helpAsked', { horse: Id, call: HelpCall.shape.kind, to: z.nullable(Id) });
/** Somebody named comes. */
const HelpAnswered = kind('helpAnswered', { help: Id });
/** It is done with, says somebody named. */
const HelpEnded = kind('helpEnded', { help: Id });

/** One stage as it was ticked on paper. `at` null: ticked without a time; then nobody knows when it was done. */
export const WrittenStage = z.object({
  prep: Key,
  stage: WorkStage,
  at: z.nullable(Instant),
  by: z.nullable(Id),
});
export type WrittenStage = z.infer<typeof WrittenStage>;
const Written = z.array(WrittenStage).check(z.minLength(1), z.maxLength(200));

/** What was ticked on paper while the board was away, typed in at one go. `date`: the day the paper is of. */
const StagesWrittenDown = kind('stagesWrittenDown', { date: DateText, done: Written });

/* The horse itself */
const HorsePulled = kind('horsePulled', { horse: Id, why: Words, hold: Hold.shape.kind });
/** `word`: what the vet or the farrier said; where both hold the horse it is the vet's, and the farrier has one too. */
const HorseReleased = kind('horseReleased', { horse: Id, word: Words, farrierWord: z.optional(Words) });
/** Kept apart for its skin, and no longer. */
const HorseIsolated = kind('horseIsolated', { horse: Id, why: Words });
const IsolationEnded = kind('isolationEnded', { horse: Id });
const FarrierCame = kind('farrierCame', { horse: Id, date: DateText });
/** Henneke score. */
const ConditionScored = kind('conditionScored', { horse: Id, score: z.int().check(z.gte(1), z.lte(9)) });

const FindingSeen = kind('findingSeen', { horse: Id, finding: Finding, words: Words });
/** Somebody named has read a finding. */
const FindingRead = kind('findingRead', { finding: Id });
/** Another horse, or none, for places of today, and who prepares it: one decision, taken back as one. */
const StandInsTaken = kind('standInsTaken', {
  changes: z
    .array(z.object({ lesson: Id, place: Id, horse: z.nullable(Id), tack: z.nullable(Id) }))
    .check(z.minLength(1), z.maxLength(30)),
  /** Whose queue the new horse's open work goes to, in front of what they have. */
  work: z.array(z.object({ lesson: Id, place: Id, to: Id })).check(z.maxLength(30)),
});

/* The weather, typed in by a person */
const WeatherRead = kind('weatherRead', { reading: WeatherReading });

/* People and their work */
const VolunteerExpected = kind('volunteerExpected', {
  volunteer: Id,
  from: z.nullable(Instant),
  until: z.nullable(Instant),
});
const VolunteerArrived = kind('volunteerArrived', { volunteer: Id });
const VolunteerLeft = kind('volunteerLeft', { volunteer: Id });
const VolunteerNotComing = kind('volunteerNotComing', { volunteer: Id });
const WorkMoved = kind('workMoved', {
  pieces: z.array(PieceId).check(z.minLength(1), z.maxLength(60)),
  /** Null: taken off everybody's queue. */
  to: z.nullable(Id),
  /** The piece it goes in front of; null: at the end. */
  before: z.nullable(PieceId),
});

/* Lessons */
const LessonAdded = kind('lessonAdded', { lesson: Lesson });
const LessonMoved = kind('lessonMoved', { lesson: Id, start: Instant });
const LessonShortened = kind('lessonShortened', { lesson: Id, minutes: LessonMinutes });
const LessonCancelled = kind('lessonCancelled', { lesson: Id });
const PlaceCancelled = kind('placeCancelled', { lesson: Id, place: Id });
const PlaceHorseChanged = kind('placeHorseChanged', {
  lesson: Id,
  place: Id,
  horse: z.nullable(Id),
  tack: z.nullable(Id),
});

/** What and when a lesson is; its places are planned apart. */
const LessonPlanned = kind('lessonPlanned', {
  lesson: Id,
  name: ShownName,
  start: Instant,
  minutes: LessonMinutes,
  arena: z.nullable(Id),
  instructor: z.nullable(Id),
});
/** Who rides which horse with whom, for places of today; a place the lesson has not is added. One decision. */
const PlacesPlanned = kind('placesPlanned', {
  changes: z.array(z.object({ lesson: Id, place: PlannedPlace })).check(z.minLength(1), z.maxLength(120)),
});
/** Who leads and walks beside: `out` makes room (null: nobody) for `in` (null: the role is open). One decision. */
const RolesChanged = kind('rolesChanged', {
  changes: z
    .array(
      z.object({
        lesson: Id,
        place: Id,
        role: z.enum(['leader', 'sideWalker']),
        out: z.nullable(Id),
        in: z.nullable(Id),
      }),
    )
    .check(z.minLength(1), z.maxLength(24)),
});
const PlacesChecked = kind('placesChecked', {
  lesson: Id,
  places: z.array(Id).check(z.minLength(1), z.maxLength(12)),
  check: PlaceCheck,
});
/** Every rider of the lesson is up; every rider is down again. */
const RidersUp = kind('ridersUp', { lesson: Id });
const RidersDown = kind('ridersDown', { lesson: Id });
/** Delayed together, or two that change times and arenas: one decision, taken back as one. */
const LessonsMoved = kind('lessonsMoved', {
  moves: z
    .array(z.object({ lesson: Id, start: Instant, arena: z.nullable(Id) }))
    .check(z.minLength(1), z.maxLength(40)),
  why: ChangeReason,
});
const LessonsCancelled = kind('lessonsCancelled', {
  lessons: z.array(Id).check(z.minLength(1), z.maxLength(40)),
  why: ChangeReason,
});

/* Records and the day */
const RecordSaved = kind('recordSaved', { saved: TableRecord });
const RecordRetired = kind('recordRetired', { table: Table, id: Id });
/** A file brought in, or one taken back again: all of it or nothing. `name`: how the file is called. */
const RecordsImported = kind('recordsImported', {
  name: z.string().check(z.maxLength(80)),
  put: z.array(TableRecord).check(z.maxLength(20_000)),
  /** Records that go: those an import had added, when it is taken back. */
  gone: z.array(z.object({ table: Table, id: Id })).check(z.maxLength(20_000)),
});
/** One rule, by its path in the barn's rules; no value: as the table of findings has it. */
const RuleSet = kind('ruleSet', {
  path: z.string().check(z.maxLength(80)),
  value: z.optional(z.json()),
}).check(z.refine(({ path, value }) => isRuleValue(path, value)));
/** All rules at once, as boards said it before they said them one by one. */
const RulesChanged = kind('rulesChanged', { rules: Rules });
const BarnNamed = kind('barnNamed', { name: ShownName, zone: ZoneName });
const DayOpened = kind('dayOpened', { date: DateText });
/** A day of the barn's book, copied: from here on it is the day's own. */
const PlanTaken = kind('planTaken', {
  date: DateText,
  lessons: z.array(Lesson).check(z.maxLength(60)),
  /** Who comes, and between which instants. */
  people: z
    .array(z.object({ volunteer: Id, from: z.nullable(Instant), until: z.nullable(Instant) }))
    .check(z.maxLength(200)),
});

/** The hub saw these begin to call for attention. The board is as it was; the ledger counts them. */
const AlertsRaised = kind('alertsRaised', {
  alerts: z.array(Raised).check(z.minLength(1), z.maxLength(200)),
});

/* The ledger */
/** Whole texts only: a correction says why. */
const Why = Words.check(z.trim(), z.minLength(1));
/** What is put right about a day. What was recorded stays as it was and is shown beside it. */
export const Correction = z.discriminatedUnion('about', [
  /**
   * When a volunteer came and went. `of`: the op that began the stay, or the correction that added it; null: a stay nobody
   * tapped. `until` null: when they went is still not known. No length: it is struck out.
   */
  z.object({
    about: z.literal('stay'),
    volunteer: Id,
    of: z.nullable(Id),
    from: Instant,
    until: z.nullable(Instant),
  }),
  /** Stages from paper that came to light when the day was over. */
  z.object({ about: z.literal('stages'), done: Written }),
  /** When a stage was really done, and by whom; `at` null: it was not. */
  z.object({
    about: z.literal('stage'),
    prep: Key,
    stage: WorkStage,
    at: z.nullable(Instant),
    by: z.nullable(Id),
  }),
  /** When a lesson really began and ended. No length: it did not take place. */
  z.object({ about: z.literal('lesson'), lesson: Id, start: Instant, end: Instant }),
  /** How long a horse really went in a lesson, whole minutes; 0: not at all. */
  z.object({ about: z.literal('ride'), lesson: Id, horse: Id, minutes: z.int().check(z.gte(0), z.lte(240)) }),
  z.object({ about: z.literal('note') }),
]);
export type Correction = z.infer<typeof Correction>;
const LedgerCorrected = kind('ledgerCorrected', { date: DateText, correction: Correction, why: Why });

const Undone = kind('undone', { op: Id });

/** What a tablet may send. */
export const OpFact = z.discriminatedUnion('kind', [
  StagesFinished,
  StageStarted,
  StagesWrittenDown,
  ItemsTicked,
  HelpAsked,
  HelpAnswered,
  HelpEnded,
  HorsePulled,
  HorseReleased,
  HorseIsolated,
  IsolationEnded,
  FarrierCame,
  ConditionScored,
  FindingSeen,
  FindingRead,
  StandInsTaken,
  WeatherRead,
  VolunteerExpected,
  VolunteerArrived,
  VolunteerLeft,
  VolunteerNotComing,
  WorkMoved,
  LessonAdded,
  LessonMoved,
  LessonShortened,
  LessonCancelled,
  PlaceCancelled,
  PlaceHorseChanged,
  LessonPlanned,
  PlacesPlanned,
  RolesChanged,
  PlacesChecked,
  RidersUp,
  RidersDown,
  LessonsMoved,
  LessonsCancelled,
  RecordSaved,
  RecordRetired,
  RecordsImported,
  RuleSet,
  RulesChanged,
  BarnNamed,
  DayOpened,
  LedgerCorrected,
  AlertsRaised,
  PlanTaken,
  Undone,
]);
export type OpFact = z.infer<typeof OpFact>;
export type OpKind = OpFact['kind'];

/** What the hub alone makes of an op: a tap that came too late to count, kept as a note. */
const TapKept = kind('tapKept', { prep: Key, stages: z.array(WorkStage) });

/** What can stand in the journal. */
export const Fact = z.discriminatedUnion('kind', [...OpFact.def.options, TapKept]);
export type Fact = z.infer<typeof Fact>;

export const Op = z.object({
  id: Id,
  device: Id,
  /** The person who did it: a volunteer or one of the staff; null when nobody gave a name. */
  by: z.nullable(Id),
  /** When it was tapped, by the tablet's estimate of hub time. */
  tappedAt: Instant,
  fact: OpFact,
});
export type Op = z.infer<typeof Op>;

/** Why an op changed nothing, or less than it said. The words for each code stand in `src/words`. */
export const Reason = z.discriminatedUnion('code', [
  z.object({ code: z.literal('unknownPrep') }),
  z.object({ code: z.literal('unknownHorse') }),
  z.object({ code: z.literal('unknownPerson') }),
  z.object({ code: z.literal('unknownLesson') }),
  z.object({ code: z.literal('unknownPlace') }),
  z.object({ code: z.literal('unknownPiece') }),
  z.object({ code: z.literal('unknownRecord') }),
  z.object({ code: z.literal('unknownFinding') }),
  z.object({ code: z.literal('horsePulled'), horse: Id }),
  z.object({ code: z.literal('notNeeded'), horse: Id }),
  z.object({ code: z.literal('notPulled'), horse: Id }),
  z.object({ code: z.literal('needsName') }),
  z.object({ code: z.literal('notCleared'), volunteer: Id, stage: WorkStage, horse: Id }),
  z.object({ code: z.literal('needsWord'), horse: Id }),
  z.object({ code: z.literal('unknownCall') }),
  z.object({ code: z.literal('notClearedFor'), volunteer: Id, clearance: Clearance }),
  z.object({ code: z.literal('tooYoung'), volunteer: Id }),
  z.object({ code: z.literal('roleTwice'), volunteer: Id, lesson: Id }),
  z.object({ code: z.literal('roleFull'), lesson: Id }),
  z.object({ code: z.literal('ridersUp'), lesson: Id }),
  z.object({ code: z.literal('samePerson'), horse: Id }),
  z.object({ code: z.literal('onlyLeader'), horse: Id }),
  z.object({ code: z.literal('needsInstructor') }),
  z.object({ code: z.literal('lessonExists') }),
  z.object({ code: z.literal('horseTwice'), horse: Id }),
  z.object({ code: z.literal('stillUsed') }),
  z.object({ code: z.literal('dayOver') }),
  z.object({ code: z.literal('nothingToUndo') }),
  z.object({ code: z.literal('changedSince') }),
  z.object({ code: z.literal('notYours') }),
  z.object({ code: z.literal('notAllowedHere') }),
  /** Kept on a tablet since another version of the board; it comes into no entry. */
  z.object({ code: z.literal('unreadable') }),
]);
export type Reason = z.infer<typeof Reason>;

/** One line of the journal: what the hub made of one op. No facts and a `why`: declined. */
export const Entry = z.object({
  seq: z.int().check(z.gte(1)),
  /** Hub time at acceptance. */
  at: Instant,
  id: Id,
  device: Id,
  by: z.nullable(Id),
  tappedAt: Instant,
  facts: z.array(Fact),
  why: z.nullable(Reason),
});
export type Entry = z.infer<typeof Entry>;
