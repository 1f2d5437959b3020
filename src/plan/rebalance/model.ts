/**
 * What a rebalance answers: small sets of moves for a person to choose from, each with what it changes. Plain data;
 * nothing here moves anybody. Instants in ms since 1970, lengths in ms; `lateMs` below zero is time to spare.
 */
import * as z from 'zod/mini';
import { Id, Instant, Key, Stage } from '../../barn/fields.ts';
import { PieceId } from '../../day/board.ts';
import { LeftOut, Unplanned } from '../model.ts';

const Ms = z.int();
const Minutes = z.int().check(z.gte(0));

/** A `workMoved` fact and whose work it was. */
export const Move = z.object({
  pieces: z.array(PieceId).check(z.minLength(1), z.maxLength(60)),
  prep: Key,
  horse: Id,
  stages: z.array(Stage),
  /** Null: nobody's, or somebody's who cannot be counted on. The same as `to`: it only changes its turn. */
  from: z.nullable(Id),
  to: Id,
  /** The piece it goes in front of; null: at the end. */
  before: z.nullable(PieceId),
  /** The horse that piece is on. */
  beforeHorse: z.nullable(Id),
});
export type Move = z.infer<typeof Move>;

/** How a lesson or person stands. `at` null: it cannot be said. */
const Standing = z.object({ at: z.nullable(Instant), lateMs: z.nullable(Ms) });
type Standing = z.infer<typeof Standing>;

/** `at`: when its last horse is ready. `lateMs`: of the horse that is latest for this lesson. */
export const LessonChange = z.object({ lesson: Id, before: Standing, after: Standing });
export type LessonChange = z.infer<typeof LessonChange>;

/** `at`: when all they do is done. `lateMs`: of the piece of theirs that ends latest for its needed-by time. */
export const PersonChange = z.object({ person: Id, before: Standing, after: Standing });
export type PersonChange = z.infer<typeof PersonChange>;

/** What an alternative is good for. Minutes are whole and never more than the gain. */
export const Gain = z.discriminatedUnion('code', [
  /** A horse that nobody would get ready gets ready. */
  z.object({ code: z.literal('getsReady'), horse: Id }),
  z.object({ code: z.literal('lessonEarlier'), lesson: Id, minutes: Minutes }),
  /** Minutes late, summed over all horses. */
  z.object({ code: z.literal('lessLate'), minutes: Minutes }),
  /** A foot that is bad is known of so much sooner after the last moment for a stand-in. */
  z.object({ code: z.literal('feetSooner'), horse: Id, minutes: Minutes }),
  /** Work that was nobody's is somebody's; nothing else changes. */
  z.object({ code: z.literal('givenOut'), pieces: z.int() }),
]);
export type Gain = z.infer<typeof Gain>;

export const Why = z.object({
  gain: Gain,
  /** The lesson that pays most for it: late now, and by so much later than it would have been. Null: none. */
  later: z.nullable(z.object({ lesson: Id, minutes: Minutes })),
});
export type Why = z.infer<typeof Why>;

/** How good a plan is, level by level. */
export const Worth = z.object({
  /** Horses that are not ready today at all. */
  undone: z.int(),
  /** Of the latest horse; null: no horse gets ready. */
  latenessMs: z.nullable(Ms),
  /** Over all horses, with what feet checked too late are expected to cost. */
  tardinessMs: Ms,
});
export type Worth = z.infer<typeof Worth>;

export const Alternative = z.object({
  /** To be made in this order. */
  moves: z.array(Move).check(z.minLength(1)),
  why: Why,
  worth: Worth,
  /** Only those that change. */
  lessons: z.array(LessonChange),
  people: z.array(PersonChange),
  /** No plan makes the latest horse less late by `MIN_GAIN_MS`. */
  proven: z.boolean(),
});
export type Alternative = z.infer<typeof Alternative>;

/** A horse that cannot be planned to the end, and the first piece that cannot. `notToday`: a day or more from now. */
export const Cannot = z.object({
  prep: Key,
  horse: Id,
  piece: PieceId,
  stage: Stage,
  why: z.enum([...Unplanned.options, 'notToday']),
});
export type Cannot = z.infer<typeof Cannot>;

/**
 * `inTime`: every horse is ready with time to spare. `better`: see the alternatives. `provenBest`: no plan is better by
 * `MIN_GAIN_MS`, whatever anybody does. `noBetterFound`: there may be one.
 */
export const Verdict = z.enum(['nothingToDo', 'inTime', 'better', 'provenBest', 'noBetterFound']);
export type Verdict = z.infer<typeof Verdict>;

export const Rebalanced = z.object({
  asOf: Instant,
  verdict: Verdict,
  now: Worth,
  /** No plan whatever has a latest horse less late than this; null: nothing is known. */
  boundMs: z.nullable(Ms),
  /** As `Alternative.proven`, of the plan in force. */
  proven: z.boolean(),
  /** Fewest moves first; each is better than the one before. */
  alternatives: z.array(Alternative),
  /** Gives what is nobody's to whoever is expected to take it; null: nothing is nobody's. */
  giveOut: z.nullable(Alternative),
  cannot: z.array(Cannot),
  leftOut: z.array(LeftOut),
});
export type Rebalanced = z.infer<typeof Rebalanced>;
