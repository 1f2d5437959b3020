/**
 * Moves of work that would help, from the hub to a coordinator's tablet, with what each is good for; the tablet words them in
 * its own language. A move is only ever made by a person's tap, as the fact it carries.
 */
import * as z from 'zod/mini';
import { Instant } from '../barn/fields.ts';
import { LessonChange, Move, PersonChange, Verdict, Why } from '../plan/rebalance/model.ts';

/** Most that are sent at once. */
export const MOST_ALTERNATIVES = 4;

export const Alternative = z.object({
  /** To be made in this order. `from`: whose work it was when this was worked out. */
  moves: z.array(Move).check(z.minLength(1), z.maxLength(60)),
  why: Why,
  /** What changes, before and after. */
  lessons: z.array(LessonChange),
  people: z.array(PersonChange),
  /** No plan has the latest horse less late. */
  proven: z.boolean(),
  /** It makes nothing better or worse: what is nobody's goes to whoever would take it anyway. */
  onlyGivesOut: z.boolean(),
});
export type Alternative = z.infer<typeof Alternative>;

export const Suggestion = z.object({
  /** Barn time of the board it was worked out for. */
  asOf: Instant,
  verdict: Verdict,
  /** Of the latest horse as things stand; negative: to spare. Null: none gets ready. */
  lateMs: z.nullable(z.int()),
  /** Horses that do not get ready today as things stand. */
  undone: z.int(),
  /** Fewest moves first; each is better than the one before. Last, where there is one, what only gives out. */
  alternatives: z.array(Alternative).check(z.maxLength(MOST_ALTERNATIVES)),
});
export type Suggestion = z.infer<typeof Suggestion>;

/** To coordinators only: it names who is late. */
export const Suggested = z.object({ say: z.literal('suggested'), suggestion: Suggestion });
export type Suggested = z.infer<typeof Suggested>;
