/** Stand-ins on the wire: asked for by the coordinator, answered in ready sentences, so that a tablet needs none of the search. */
import * as z from 'zod/mini';
import { Id, Instant } from '../barn/fields.ts';
import { OpFact, Reason } from '../day/ops.ts';

const Sentence = z.string().check(z.maxLength(400));
const Sentences = z.array(Sentence);

/** All places still to come of a horse, or one place. */
export const StandInsFor = z.union([z.object({ horse: Id }), z.object({ lesson: Id, place: Id })]);
export type StandInsFor = z.infer<typeof StandInsFor>;

/** `language`: BCP 47, what the answer is worded in; one the hub does not know is answered in English. */
export const AskStandIns = z.object({
  say: z.literal('askStandIns'),
  ask: Id,
  about: StandInsFor,
  language: z._default(z.string().check(z.maxLength(35)), 'en'),
});

const SaidChange = z.object({
  lesson: Id,
  place: Id,
  horse: Id,
  /** `Moss instead of Fern`. */
  says: Sentence,
  /** The lesson's start. */
  start: Instant,
  /** When it can stand at the ramp; null: cannot be said. */
  ready: z.nullable(Instant),
  /** That it does so in time, 0 to 1; null: cannot be said. */
  chance: z.nullable(z.number().check(z.gte(0), z.lte(1))),
  for: Sentences,
  against: Sentences,
});

const SaidOption = z.object({
  /** Ready to send. */
  fact: OpFact,
  changes: z.array(SaidChange),
  /** Who does what from now. */
  tasks: Sentences,
  effects: Sentences,
});
export type SaidOption = z.infer<typeof SaidOption>;

/** Why each horse cannot take one place, and what would change that. */
const SaidBlocked = z.object({
  lesson: Id,
  place: Id,
  says: Sentence,
  horses: z.array(
    z.object({
      horse: Id,
      name: z.string(),
      blocks: z.array(z.object({ why: Sentence, unblock: z.nullable(Sentence) })),
    }),
  ),
});
export type SaidBlocked = z.infer<typeof SaidBlocked>;

export const SaidStandIns = z.object({
  /** Best first; none: no place can be covered. */
  options: z.array(SaidOption),
  blocked: z.array(SaidBlocked),
  /** False: the search was cut short, so something better may exist. */
  exact: z.boolean(),
});
export type SaidStandIns = z.infer<typeof SaidStandIns>;

/** `why`: nothing could be looked for. */
export const StandInsAnswer = z.object({
  say: z.literal('standIns'),
  ask: Id,
  why: z.nullable(Reason),
  found: z.nullable(SaidStandIns),
});
export type StandInsAnswer = z.infer<typeof StandInsAnswer>;
