/** A lesson of one day, and its places: one rider each, with horse, tack and the people who go along. */
import * as z from 'zod/mini';
import { Id, Instant, ShownName } from './basics.ts';

export const Place = z.object({
  id: Id,
  rider: z.nullable(Id),
  horse: z.nullable(Id),
  /** Id of one of the horse's tack lists; null when the barn keeps none for it. */
  tack: z.nullable(Id),
  leader: z.nullable(Id),
  sideWalkers: z.array(Id).check(z.maxLength(2)),
  cancelled: z.boolean(),
});
export type Place = z.infer<typeof Place>;

export const LessonMinutes = z.int().check(z.gte(5), z.lte(240));

export const Lesson = z.object({
  id: Id,
  name: ShownName,
  start: Instant,
  minutes: LessonMinutes,
  arena: z.nullable(Id),
  instructor: z.nullable(Id),
  cancelled: z.boolean(),
  places: z.array(Place).check(
    z.maxLength(12),
    z.refine((places) => new Set(places.map((place) => place.id)).size === places.length),
  ),
});
export type Lesson = z.infer<typeof Lesson>;
