/** A lesson of one day, and its places: one rider each, with horse, tack and the people who go along. */
import { CHANGE_REASONS } from './changeReasons.ts';
import * as z from 'zod/mini';
import { Id, Instant, ShownName } from './fields.ts';

export const Place = z.object({
  id: Id,
  rider: z.nullable(Id),
  horse: z.nullable(Id),
  /** Id of one of the horse's tack lists; null when the barn keeps none for it. */
  tack: z.nullable(Id),
  leader: z.nullable(Id),
  sideWalkers: z.array(Id).check(z.maxLength(2)),
  /** How many people this ride asks for; missing: a leader, and the side-walkers it was planned with. */
  wanted: z.optional(z.object({ leader: z.boolean(), sideWalkers: z.int().check(z.gte(0), z.lte(2)) })),
  cancelled: z.boolean(),
});
export type Place = z.infer<typeof Place>;

export const LessonMinutes = z.int().check(z.gte(5), z.lte(240));
export const ChangeReason = z.enum(CHANGE_REASONS);
export type ChangeReason = z.infer<typeof ChangeReason>;

export const Lesson = z.object({
  id: Id,
  name: ShownName,
  start: Instant,
  minutes: LessonMinutes,
  arena: z.nullable(Id),
  instructor: z.nullable(Id),
  cancelled: z.boolean(),
  /** When it was to start before it was first moved; missing: it was not. */
  plannedStart: z.optional(Instant),
  /** Why it was last moved, or cancelled. */
  changedFor: z.optional(ChangeReason),
  places: z.array(Place).check(
    z.maxLength(12),
    z.refine((places) => new Set(places.map((place) => place.id)).size === places.length),
  ),
});
export type Lesson = z.infer<typeof Lesson>;
