/**
 * What a forecast is computed from and what it says. Instants in ms since 1970, lengths in ms. Everything of `src/plan`
 * takes a `PlanInput` and none of it looks at the board, so that a what-if is the same functions on another input.
 */
import * as z from 'zod/mini';
import { AfterStage, Id, Instant, Key, Stage } from '../barn/fields.ts';
import type { AfterStage as AfterStageName, Clearance, Stage as StageName } from '../barn/stage.ts';
import type { Learned } from './learned.ts';

/** One stage of one prep still to do. */
export type Piece = {
  readonly id: string;
  readonly prep: string;
  readonly stage: StageName;
  readonly horse: string;
  /** Everything a person must be cleared for to do it. */
  readonly asks: readonly Clearance[];
  /** The barn's time for it at pace 1, in ms. */
  readonly lengthMs: number;
  /** Who is on it, and since when. */
  readonly underWay: { readonly by: string; readonly since: number } | null;
};

/** A horse to be made ready: its open stages in order. No pieces: it is tacked. */
export type Work = {
  readonly prep: string;
  readonly horse: string;
  /** Metres from the aisle's first stall. */
  readonly metres: number;
  readonly rampTime: number;
  /** Latest end of the feet check that leaves the barn's usual time to prepare a stand-in; null when it is done. */
  readonly feetBy: number | null;
  /** Before this the horse is still in another lesson; null: it stands in its stall. */
  readonly freeFrom: number | null;
  /** That lesson. */
  readonly freeAfter: string | null;
  /** Nobody takes the horse up before this, however idle; null: at any time. */
  readonly notBefore: number | null;
  /** When the last stage done so far was finished; null: none is. */
  readonly markedAt: number | null;
  readonly pieces: readonly Piece[];
};

/** One stage after the lessons still to do. */
export type AfterPiece = {
  readonly id: string;
  readonly stage: AfterStageName;
  readonly asks: readonly Clearance[];
  /** The barn's time for it at pace 1, in ms. */
  readonly lengthMs: number;
  /** By when the barn asks for it; no lesson waits for it. */
  readonly dueBy: number;
  /** Who is on it, since when, and until when it usually takes. */
  readonly underWay: { readonly by: string; readonly since: number; readonly until: number } | null;
};

/** A horse to be put away after its lessons: its open stages in order. */
export type AfterWork = {
  readonly prep: string;
  readonly horse: string;
  /** When its lessons let it go; not before now. */
  readonly from: number;
  /** Who leads it out of the last of them. */
  readonly ledBy: string | null;
  readonly pieces: readonly AfterPiece[];
};

/** A person who can work today: when they are here, when a lesson role blocks them, what is given to them in order. */
export type Worker = {
  readonly id: string;
  /** Their place among today's people, whoever comes and goes: it says which luck is theirs. */
  readonly seat: number;
  readonly clearances: readonly Clearance[];
  /** Time taken over the barn's time. */
  readonly pace: number;
  readonly from: number;
  readonly until: number | null;
  /** When they were expected, while they are not here; null: they are here. */
  readonly expectedFrom: number | null;
  /** Here and on nothing since then, as far as the board knows; null: on something, in a lesson, or not here. */
  readonly idleSince: number | null;
  readonly busy: readonly Duty[];
  readonly queue: readonly string[];
};

/** A part in a lesson. Whoever has one may still work on `horse`, which they are to lead or walk beside. */
export type Duty = { readonly from: number; readonly until: number; readonly horse: string | null };

/** A lesson still to come or running, and the preps that bring its horses. */
export type LessonWork = {
  readonly id: string;
  /** When its last horse must stand at the ramp. */
  readonly rampTime: number;
  readonly horses: readonly {
    readonly prep: string;
    readonly rampTime: number;
    /** Out of a lesson before this one, whose prep it shares; null: comes fresh. */
    readonly freeFrom: number | null;
  }[];
  /** A rider has no horse, or one that is pulled. */
  readonly missing: 'noHorse' | 'pulled' | null;
};

/** Something the forecast goes without, and why. */
export const LeftOut = z.object({
  what: z.enum(['prep', 'person', 'lesson', 'everything']),
  id: z.string(),
  why: z.enum(['unknownHorse', 'unknownPerson', 'noLesson', 'badTime', 'badPace', 'twice']),
});
export type LeftOut = z.infer<typeof LeftOut>;

export type PlanInput = {
  readonly now: number;
  readonly works: readonly Work[];
  /** Done in the time that the works above leave. */
  readonly afterWorks: readonly AfterWork[];
  readonly workers: readonly Worker[];
  readonly lessons: readonly LessonWork[];
  /** How long stages take here, and going from one to the next. */
  readonly learned: Learned;
  /** Chance that a needed-by time leaves the rest of the work, 0.5 … 0.99. */
  readonly certainty: number;
  readonly extrasMs: number;
  /** What of the board could not be made into work. */
  readonly leftOut: readonly LeftOut[];
};

/** Why a piece has no predicted end. `badLength`: no number for how long it takes. */
export const Unplanned = z.enum(['nobodyHere', 'nobodyCleared', 'nobodyFree', 'badLength']);
export type Unplanned = z.infer<typeof Unplanned>;

const Ms = z.int();
const Chance = z.number().check(z.gte(0), z.lte(1));

const PieceForecast = z.object({
  id: Key,
  stage: Stage,
  neededBy: Instant,
  /** Who is expected to do it: given to them, or the next free person cleared for it (`given` false). */
  by: z.nullable(Id),
  given: z.boolean(),
  /** Medians. */
  start: z.nullable(Instant),
  end: z.nullable(Instant),
});
export type PieceForecast = z.infer<typeof PieceForecast>;

export const PrepForecast = z.object({
  prep: Key,
  rampTime: Instant,
  feetBy: z.nullable(Instant),
  /** Predicted median: when the horse can stand at the ramp. Null: cannot be said, see `unplanned`. */
  ready: z.nullable(Instant),
  /** Eight times in ten it is ready between these; null: no such time today. */
  p10: z.nullable(Instant),
  p90: z.nullable(Instant),
  /** Of being ready by the ramp time. */
  chance: Chance,
  /** Ramp time minus predicted, in ms; negative: late. Null with `ready`. */
  spareMs: z.nullable(z.int()),
  unplanned: z.nullable(Unplanned),
  pieces: z.array(PieceForecast),
  /** Delay of this prep that makes no horse late and keeps nobody from a lesson; negative: one is late already. */
  totalFloatMs: z.nullable(Ms),
  /** Delay of this prep that moves nobody's other work. */
  freeFloatMs: z.nullable(Ms),
  /** There is time for mane and tail now, and somebody for it. */
  extras: z.boolean(),
});
export type PrepForecast = z.infer<typeof PrepForecast>;

const AfterPieceForecast = z.extend(PieceForecast, { stage: AfterStage });
export type AfterPieceForecast = z.infer<typeof AfterPieceForecast>;

/** How a horse will be put away after its lessons, in the time that preparing leaves. */
export const AfterForecast = z.object({
  prep: Key,
  /** When it is put away; null: cannot be said, or it goes out again before that. */
  done: z.nullable(Instant),
  /** Why nobody is foreseen for the first stage without an end; null: it goes out again first, or all have one. */
  unplanned: z.nullable(Unplanned),
  pieces: z.array(AfterPieceForecast),
});
export type AfterForecast = z.infer<typeof AfterForecast>;

export const HandsForecast = z.object({
  volunteer: Id,
  /** How late the worst of their own pieces ends after its needed-by time, in ms; 0: not behind. */
  behindMs: z.int().check(z.gte(0)),
  /** That piece. */
  because: z.nullable(Key),
  /** When everything given to them is done; null: nothing is. */
  doneAt: z.nullable(Instant),
  /** Since when they have been shown as behind; null: they are not. */
  since: z.nullable(Instant),
  /** Late, but not by their own doing: their piece that will be late, and what it waits for. */
  heldUp: z.nullable(
    z.object({
      late: Key,
      lateMs: Ms,
      piece: z.nullable(Key),
      /** Who is expected to do that piece. */
      by: z.nullable(Id),
      /** The horse is still in this lesson. */
      lesson: z.nullable(Id),
    }),
  ),
  /** How long they could do something else now: without a horse late, and without moving anybody else's work. */
  totalFloatMs: z.nullable(Ms),
  freeFloatMs: z.nullable(Ms),
});
export type HandsForecast = z.infer<typeof HandsForecast>;

/** `onTime`: at the barn's certainty. `tight`: more likely than not. `late`: less. */
export const LessonWord = z.enum(['ready', 'onTime', 'tight', 'late', 'nobody', 'noHorse', 'pulled']);
export type LessonWord = z.infer<typeof LessonWord>;

export const LessonForecast = z.object({
  lesson: Id,
  /** That every rider has a horse at the ramp by its ramp time. */
  chance: Chance,
  /** Median of the last horse; null: cannot be said. */
  ready: z.nullable(Instant),
  word: LessonWord,
});
export type LessonForecast = z.infer<typeof LessonForecast>;

export const Forecast = z.object({
  asOf: Instant,
  preps: z.record(Key, PrepForecast),
  /** By prep: horses through with their lessons, and those that will be. */
  after: z._default(z.record(Key, AfterForecast), {}),
  lessons: z.record(Id, LessonForecast),
  /** Empty on aisle and arena door: who is behind is for the coordinator. */
  hands: z.record(Id, HandsForecast),
  leftOut: z.array(LeftOut),
});
export type Forecast = z.infer<typeof Forecast>;
