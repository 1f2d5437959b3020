/**
 * Moves of work that would help, from the hub to a coordinator's tablet, with every sentence ready made: a tablet needs
 * nothing of the planner to show them. A move is only ever made by a person's tap, as the fact it carries.
 */
import * as z from 'zod/mini';
import { Id, Instant } from '../barn/basics.ts';
import { PieceId } from '../day/board.ts';
import { LessonChange, PersonChange, Verdict } from '../plan/rebalance/model.ts';

/** Most that are sent at once. */
export const MOST_ALTERNATIVES = 4;

const SuggestedMove = z.object({
  text: z.string(),
  /** Whose work it was when this was worked out; null: nobody's who can be counted on. */
  from: z.nullable(Id),
  fact: z.object({
    kind: z.literal('workMoved'),
    pieces: z.array(PieceId).check(z.minLength(1), z.maxLength(60)),
    to: Id,
    before: z.nullable(PieceId),
  }),
});
export type SuggestedMove = z.infer<typeof SuggestedMove>;

export const Alternative = z.object({
  /** One sentence: the moves and what they are good for. */
  text: z.string(),
  /** To be made in this order. */
  moves: z.array(SuggestedMove).check(z.minLength(1), z.maxLength(60)),
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
