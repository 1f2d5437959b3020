/** The board's whole state: the barn's records and one date's day. `evolve` makes the next one from an entry. */
import { PLACE_CHECKS } from './placeChecks.ts';
import * as z from 'zod/mini';
import { DateText, Id, Instant, Key, ShownName, Words, WorkStage } from '../barn/fields.ts';
import { Barn } from '../barn/barn.ts';
import { Hold } from '../barn/horse.ts';
import { Lesson } from '../barn/lesson.ts';
import { Finding } from '../care/findings.ts';
import { WeatherReading } from '../care/weatherRules.ts';

/**
 * That a stage was finished: by whom (null: nobody gave a name), when, and by which op, so that it can be undone. `tack`
 * is the list the prep asked for then: a horse tacked for one place is not tacked for another that asks for other tack.
 */
export const Mark = z.object({
  op: Id,
  by: z.nullable(Id),
  at: Instant,
  tack: z.nullable(Id),
  /** Ticked on paper without a time: `at` is only when it was typed in. */
  untimed: z.optional(z.literal(true)),
  /** Untacked other than after the lessons of this prep: before another one it is tacked again. */
  early: z.optional(z.boolean()),
});
export type Mark = z.infer<typeof Mark>;

const StageMarks = z.array(Mark);
/** Days kept before there were stages after the lesson have none of these. */
const AfterMarks = z._default(StageMarks, []);

/** Every tap for a stage is kept, earliest first; the first one counts. So taps commute, and an undo takes out its own. */
const Marks = z.object({
  feet: StageMarks,
  coat: StageMarks,
  tack: StageMarks,
  untack: AfterMarks,
  cool: AfterMarks,
  look: AfterMarks,
  away: AfterMarks,
});

/** An item of a tack list ticked, or the tick taken off again. The last tap for an item counts. */
export const Tick = z.object({
  op: Id,
  tack: Id,
  item: ShownName,
  on: z.boolean(),
  by: z.nullable(Id),
  at: Instant,
});
export type Tick = z.infer<typeof Tick>;

/** Who is on this prep now, on which stage, since when. */
export const OnIt = z.object({ op: Id, stage: WorkStage, by: Id, since: Instant });
export type OnIt = z.infer<typeof OnIt>;

export const PlaceRef = z.object({ lesson: Id, place: Id });
export type PlaceRef = z.infer<typeof PlaceRef>;

export const Prep = z.object({
  id: Key,
  horse: Id,
  /** `full`: all stages. `tackChange`: straight from another lesson, so only the tack. */
  kind: z.enum(['full', 'tackChange']),
  /** The places this prep serves, by lesson start. Empty: the horse is no longer needed, its marks are kept. */
  places: z.array(PlaceRef),
  /** The places it served when its horse was untacked after them and they were then cancelled: only for these it goes on. */
  served: z.optional(z.array(PlaceRef)),
  /** The horse's tack list for these places; null: the barn keeps none. */
  tack: z.nullable(Id),
  marks: Marks,
  onIt: z.nullable(OnIt),
  /** By time. */
  ticks: z._default(z.array(Tick), []),
});
export type Prep = z.infer<typeof Prep>;

/** One stage of one prep, as it stands in a person's queue: `bramble.1:coat`. */
export const PieceId = Key;
export type PieceId = z.infer<typeof PieceId>;

export const Presence = z.object({
  state: z.enum(['expected', 'here', 'left', 'notComing']),
  /** When the state was last changed. */
  since: Instant,
  /** Hours given for today; null: open. */
  from: z.nullable(Instant),
  until: z.nullable(Instant),
});
export type Presence = z.infer<typeof Presence>;

export const Hands = z.object({
  presence: Presence,
  /** Work given to this person, in order. Finished and needless pieces stay in it, so that an undo brings them back. */
  queue: z.array(PieceId),
});
export type Hands = z.infer<typeof Hands>;

/** How to take an op back, written down when it was applied. */
export const Restore = z.discriminatedUnion('what', [
  /** Takes out the marks, start or finding the op left; it needs no record of what was there before. */
  z.object({ what: z.literal('marks') }),
  z.object({ what: z.literal('onIt'), prep: Key, was: OnIt }),
  z.object({ what: z.literal('presence'), volunteer: Id, was: z.nullable(Presence) }),
  /** Whose the piece was (null: nobody's) and which piece came after it (null: none). */
  z.object({ what: z.literal('piece'), piece: PieceId, was: z.nullable(Id), before: z.nullable(PieceId) }),
  z.object({ what: z.literal('holds'), horse: Id, was: z.array(Hold) }),
  z.object({ what: z.literal('findings'), was: z.array(Id) }),
  z.object({ what: z.literal('lesson'), lesson: Id, was: z.nullable(Lesson) }),
]);
export type Restore = z.infer<typeof Restore>;

/** An op that can still be undone. */
export const Recent = z.object({
  op: Id,
  device: Id,
  at: Instant,
  restore: z.array(Restore),
});
export type Recent = z.infer<typeof Recent>;

/** A stage tap that changed nothing but is kept: the horse was pulled, or no longer needed, when it came. */
export const TapNote = z.object({
  op: Id,
  prep: Key,
  stages: z.array(WorkStage),
  by: z.nullable(Id),
  at: Instant,
});
export type TapNote = z.infer<typeof TapNote>;

/** What the weather was, and who read it. */
export const WeatherNote = z.object({
  /** The op it came with. */
  id: Id,
  reading: WeatherReading,
  by: z.nullable(Id),
  at: Instant,
});
export type WeatherNote = z.infer<typeof WeatherNote>;
/** That something about a lesson was tapped: by whom (null: nobody gave a name) and when. */
export const RideMark = z.object({ op: Id, by: z.nullable(Id), at: Instant });
export type RideMark = z.infer<typeof RideMark>;
export const PlaceCheck = z.enum(PLACE_CHECKS);
export type PlaceCheck = z.infer<typeof PlaceCheck>;

/** A check holds for the horse and tack it was made on: a stand-in is checked anew. */
export const CheckMark = z.object({ op: Id, by: Id, at: Instant, horse: Id, tack: z.nullable(Id) });
export type CheckMark = z.infer<typeof CheckMark>;

/** What was tapped of one lesson: riders up, riders down, and each place's checks. Earliest first. */
export const Ride = z.object({
  mounted: z.array(RideMark),
  down: z.array(RideMark),
  checks: z.record(Id, z.object({ girth: z.array(CheckMark), instructor: z.array(CheckMark) })),
});
export type Ride = z.infer<typeof Ride>;

/** Somebody at a horse wants a hand, or is not sure and wants somebody named to look. */
export const HelpCall = z.object({
  /** The op it came with. */
  id: Id,
  horse: Id,
  kind: z.enum(['hand', 'unsure']),
  /** Who is called by name; null: whoever can. */
  to: z.nullable(Id),
  by: z.nullable(Id),
  at: Instant,
  /** Who said they come, earliest first. */
  answers: z.array(z.object({ op: Id, by: Id, at: Instant })),
  /** Who said it is done with, earliest first; none: it stands. */
  ends: z.array(z.object({ op: Id, by: Id, at: Instant })),
});
export type HelpCall = z.infer<typeof HelpCall>;

export const Day = z.object({
  /** Null before the first day is opened. */
  date: z.nullable(DateText),
  lessons: z.record(Id, Lesson),
  preps: z.record(Key, Prep),
  hands: z.record(Id, Hands),
  recent: z.array(Recent),
  notes: z.array(TapNote),
  /** The op that first copied this date out of the barn's book; null: none did. */
  planTaken: z._default(z.nullable(Id), null),
  /** Earliest first. */
  weather: z._default(z.array(WeatherNote), []),
  /** By lesson. A lesson of which nothing was tapped has none. */
  rides: z._default(z.record(Id, Ride), {}),
  /** Earliest first. */
  help: z._default(z.array(HelpCall), []),
});
export type Day = z.infer<typeof Day>;

/** What somebody saw on a horse, and who has read it since. */
export const FindingNote = z.object({
  /** The op it came with. */
  id: Id,
  horse: Id,
  finding: Finding,
  words: Words,
  by: z.nullable(Id),
  at: Instant,
  read: z.array(z.object({ by: Id, at: Instant })),
  /** The horse was released after it: it says nothing about today any more. */
  settled: z.boolean(),
});
export type FindingNote = z.infer<typeof FindingNote>;

/** What one horse did on a day that is over. */
export const HorseWork = z.object({ lessons: z.int().check(z.gte(0)), minutes: z.number().check(z.gte(0)) });
/** A day that is over, by horse; a horse that is not in it rested. */
export const DayWork = z.object({ date: DateText, horses: z.record(Id, HorseWork) });
export type DayWork = z.infer<typeof DayWork>;

export const Board = z.object({
  barn: Barn,
  day: Day,
  /** Newest last, over days, so that a horse's last weeks are on every board. */
  findings: z.array(FindingNote),
  /** The last days before the open one, earliest first: what the rules about days in a row and rest look back on. */
  worked: z._default(z.array(DayWork), []),
});
export type Board = z.infer<typeof Board>;
