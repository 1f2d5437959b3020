/**
 * What a forecast is computed from and what it says. Instants in ms since 1970, lengths in ms. Everything of `src/plan`
 * takes a `PlanInput` and none of it looks at the board, so that a what-if is the same functions on another input.
 */
import * as z from 'zod/mini';
import { Id, Instant, Key } from '../barn/basics.ts';
import { Stage, type Clearance } from '../barn/stage.ts';

/** One stage of one prep still to do. */
export type Piece = {
  readonly id: string;
  readonly prep: string;
  readonly stage: Stage;
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
  /** Latest end of the feet check that leaves time to prepare a stand-in; null when the feet are checked. */
  readonly feetBy: number | null;
  /** Before this the horse is still in another lesson; null: it stands in its stall. */
  readonly freeFrom: number | null;
  readonly pieces: readonly Piece[];
};

/** A person who can work today: when they are here, when a lesson role blocks them, what is given to them in order. */
export type Worker = {
  readonly id: string;
  readonly clearances: readonly Clearance[];
  /** Time taken over the barn's time. */
  readonly pace: number;
  readonly from: number;
  readonly until: number | null;
  readonly busy: readonly { readonly from: number; readonly until: number }[];
  readonly queue: readonly string[];
};

export type PlanInput = {
  readonly now: number;
  readonly works: readonly Work[];
  readonly workers: readonly Worker[];
};

/** Why a piece has no predicted end. */
export const Unplanned = z.enum(['nobodyHere', 'nobodyCleared', 'nobodyFree']);
export type Unplanned = z.infer<typeof Unplanned>;

const PieceForecast = z.object({
  id: Key,
  stage: Stage,
  neededBy: Instant,
  /** Who is expected to do it: given to them, or the next free person cleared for it (`given` false). */
  by: z.nullable(Id),
  given: z.boolean(),
  start: z.nullable(Instant),
  end: z.nullable(Instant),
});
export type PieceForecast = z.infer<typeof PieceForecast>;

export const PrepForecast = z.object({
  prep: Key,
  rampTime: Instant,
  feetBy: z.nullable(Instant),
  /** Predicted: when the horse can stand at the ramp. Null: cannot be said, see `unplanned`. */
  ready: z.nullable(Instant),
  /** Ramp time minus predicted, in ms; negative: late. Null with `ready`. */
  spareMs: z.nullable(z.int()),
  unplanned: z.nullable(Unplanned),
  pieces: z.array(PieceForecast),
});
export type PrepForecast = z.infer<typeof PrepForecast>;

export const HandsForecast = z.object({
  volunteer: Id,
  /** How late the worst of their own pieces ends after its needed-by time, in ms; 0: not behind. */
  behindMs: z.int().check(z.gte(0)),
  /** That piece. */
  because: z.nullable(Key),
  /** When everything given to them is done; null: nothing is. */
  doneAt: z.nullable(Instant),
});
export type HandsForecast = z.infer<typeof HandsForecast>;

export const Forecast = z.object({
  asOf: Instant,
  preps: z.record(Key, PrepForecast),
  /** Empty on aisle and arena door: who is behind is for the coordinator. */
  hands: z.record(Id, HandsForecast),
});
export type Forecast = z.infer<typeof Forecast>;
