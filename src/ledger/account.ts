/**
 * What one day, or several together, came to: a day's account is an account of one date, and a week's or a term's is the
 * sum of its days. Instants in ms since 1970, lengths in ms. Ids stand for people and horses; a screen names them.
 */
import * as z from 'zod/mini';
import { DateText, Id, Instant, Key, ShownName, Stage, Words, WorkStage } from '../barn/fields.ts';
import { Hold } from '../barn/horse.ts';
import { Finding } from '../care/findings.ts';
import { ALERT_KINDS } from '../day/alerts/alert.ts';
import { HelpCall } from '../day/board.ts';
import { Correction } from '../day/ops.ts';

const Count = z.int().check(z.gte(0));
const Length = z.int().check(z.gte(0));
const Person = z.nullable(Id);

/** A horse's work over the limit of a rule, as it stood on that date. */
const Over = z.object({
  date: DateText,
  code: z.enum(['minutes-per-day', 'minutes-in-a-row', 'lessons-per-day', 'days-in-a-row', 'days-per-week']),
  figure: z.number(),
  limit: z.number(),
});

const HorseFigures = z.object({
  horse: Id,
  lessons: Count,
  lessonMs: Length,
  /** In the arena between two lessons. */
  waitingMs: Length,
  /** Each date on which it worked, how long by the barn's rules, and on how many of that and the six days before. */
  days: z.array(z.object({ date: DateText, ms: Length, daysInWeek: Count })),
  over: z.array(Over),
});
export type HorseFigures = z.infer<typeof HorseFigures>;

/** Who put something in the ledger right, when and why. */
const CorrectedBy = z.object({ id: Id, by: Person, at: Instant, why: Words });

/** One coming and going of a volunteer. */
const Stay = z.object({
  date: DateText,
  /** The op that began it, or the correction that added it. */
  id: Id,
  volunteer: Id,
  /** Null: nobody tapped when they came, so it counts for nothing. */
  from: z.nullable(Instant),
  /** Null: nobody tapped when they went; then it is counted to `countedUntil`, the day's close. */
  until: z.nullable(Instant),
  countedUntil: z.nullable(Instant),
  ms: Length,
  /** As it was tapped, when it was put right since; null when nobody tapped any of it. */
  tapped: z.nullable(z.object({ from: z.nullable(Instant), until: z.nullable(Instant) })),
  correction: z.nullable(CorrectedBy),
});
export type Stay = z.infer<typeof Stay>;

const PersonFigures = z.object({
  person: Id,
  ms: Length,
  stays: Count,
  /** Of them, those nobody ended with a tap. */
  openStays: Count,
  leadingMs: Length,
  sideWalkingMs: Length,
  /** Stages finished in their name. */
  stages: Count,
});
export type PersonFigures = z.infer<typeof PersonFigures>;

/** When a horse was ready for one lesson. */
const HorseReady = z.object({
  place: Id,
  horse: Id,
  ramp: Instant,
  readyAt: z.nullable(Instant),
  /** Why `readyAt` is null, or why it does not matter. */
  unknown: z.nullable(z.enum(['notTapped', 'noTime', 'pulled'])),
});
export type HorseReady = z.infer<typeof HorseReady>;

const LessonRecord = z.object({
  date: DateText,
  lesson: Id,
  name: ShownName,
  start: Instant,
  minutes: z.int(),
  state: z.enum(['held', 'cancelled', 'toCome']),
  horses: z.array(HorseReady),
});
export type LessonRecord = z.infer<typeof LessonRecord>;

const FindingRecord = z.object({
  date: DateText,
  at: Instant,
  horse: Id,
  finding: Finding,
  words: Words,
  by: Person,
  readBy: z.array(Id),
});
export type FindingRecord = z.infer<typeof FindingRecord>;

/** A horse taken off work, released, or both, on one date. */
const HoldRecord = z.object({
  date: DateText,
  horse: Id,
  /** Null: it was held before that date, and only released on it. */
  pulled: z.nullable(z.object({ at: Instant, by: Person, hold: Hold.shape.kind, why: Words })),
  released: z.nullable(z.object({ at: Instant, by: Person, word: Words })),
});
export type HoldRecord = z.infer<typeof HoldRecord>;

/** Stages measured from a tap at their start to the tap at their end. */
const StageFigures = z.object({
  stage: Stage,
  horse: Id,
  person: Id,
  count: Count,
  totalMs: Length,
  shortestMs: Length,
  longestMs: Length,
});
export type StageFigures = z.infer<typeof StageFigures>;

/** Stages that were done and tell no length, and why. */
const NotMeasured = z.object({ because: z.string().check(z.maxLength(40)), count: Count });

/** What somebody changed of the plan or the records. */
const Change = z.object({
  date: DateText,
  at: Instant,
  by: Person,
  kind: z.string().check(z.maxLength(40)),
  /** Ids of horses, people and lessons it was about. */
  about: z.array(Key),
  takenBack: z.boolean(),
});
export type Change = z.infer<typeof Change>;

/** How much was left to the needed-by time when a stage was finished; negative: too late. */
const SparePoint = z.object({ at: Instant, horse: Id, stage: Stage, spareMs: z.int() });
export type SparePoint = z.infer<typeof SparePoint>;

const CorrectionRecord = z.object({
  ...CorrectedBy.shape,
  date: DateText,
  correction: Correction,
  /** What it is about as it was recorded; null: nothing was, or the account says it elsewhere. */
  was: z.nullable(z.object({ from: z.nullable(Instant), until: z.nullable(Instant), by: Person })),
});
export type CorrectionRecord = z.infer<typeof CorrectionRecord>;

const Done = z.nullable(z.object({ at: z.nullable(Instant), by: Person }));
/** What was done after a horse's lessons; null: not, or nobody tapped it. `at` null: ticked on paper without a time. */
const AfterRecord = z.object({
  date: DateText,
  horse: Id,
  untack: Done,
  cool: Done,
  look: Done,
  away: Done,
});
export type AfterRecord = z.infer<typeof AfterRecord>;

/** One preparation as it stands, with what was put right. */
const PrepRecord = z.object({
  prep: Key,
  horse: Id,
  ramp: Instant,
  /** Those asked of it, before and after its lessons. `at` null and `done`: nobody knows when. */
  stages: z.array(z.object({ stage: WorkStage, done: z.boolean(), at: z.nullable(Instant), by: Person })),
});
export type PrepRecord = z.infer<typeof PrepRecord>;

/** Somebody called for a hand, or was not sure. */
const CallRecord = z.object({
  date: DateText,
  at: Instant,
  horse: Id,
  kind: HelpCall.shape.kind,
  by: Person,
  /** When the first person said that they come; null: nobody did. */
  answeredAt: z.nullable(Instant),
});
export type CallRecord = z.infer<typeof CallRecord>;

/** What called for attention on one date, in order; and how long that day was, from its first tap to its last. */
const DayAlerts = z.object({
  date: DateText,
  ms: Length,
  calls: z.array(z.object({ at: Instant, kind: z.enum(ALERT_KINDS) })),
});
export type DayAlerts = z.infer<typeof DayAlerts>;

export const Account = z.object({
  /** Dates there is a record of, in order. */
  dates: z.array(DateText),
  /** Of them, those judged by the barn's rules of today, since theirs were not kept. */
  byTodaysRules: z.array(DateText),
  horses: z.array(HorseFigures),
  people: z.array(PersonFigures),
  stays: z.array(Stay),
  lessons: z.array(LessonRecord),
  findings: z.array(FindingRecord),
  holds: z.array(HoldRecord),
  stages: z.array(StageFigures),
  notMeasured: z.array(NotMeasured),
  changes: z.array(Change),
  spare: z.array(SparePoint),
  after: z.array(AfterRecord),
  /** Of one date alone; over several there are none. */
  preps: z.array(PrepRecord),
  calls: z.array(CallRecord),
  alerts: z.array(DayAlerts),
  corrections: z.array(CorrectionRecord),
});
export type Account = z.infer<typeof Account>;

export const EMPTY_ACCOUNT: Account = {
  dates: [],
  byTodaysRules: [],
  horses: [],
  people: [],
  stays: [],
  lessons: [],
  findings: [],
  holds: [],
  stages: [],
  notMeasured: [],
  changes: [],
  spare: [],
  after: [],
  preps: [],
  calls: [],
  alerts: [],
  corrections: [],
};

/** How the hub answers. `damaged`: files of past days that cannot be read, so that they are missing from it. */
export const AccountAnswer = z.object({ account: Account, damaged: z.array(z.string()) });
