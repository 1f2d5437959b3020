/**
 * The barn's people. What only the coordinator may see stands in `private`, so that leaving it out of a copy for an
 * aisle tablet is one step that cannot miss a field.
 */
import * as z from 'zod/mini';
import { HelmetKept } from '../care/helmetRules.ts';
import { Clearance, Id, ShownName, Words } from './fields.ts';

/** Minutes after local midnight. */
const MinuteOfDay = z.int().check(z.gte(0), z.lte(24 * 60));

export const UsualHours = z.object({
  /** ISO weekday: 1 Monday … 7 Sunday. */
  weekday: z.int().check(z.gte(1), z.lte(7)),
  from: MinuteOfDay,
  until: MinuteOfDay,
});

export const Volunteer = z.object({
  id: Id,
  name: ShownName,
  clearances: z.array(Clearance),
  private: z.optional(
    z.object({
      /** Time this person takes over the time the barn takes on average: 1.25 is a quarter slower. */
      pace: z.number().check(z.gte(0.25), z.lte(4)),
      /** When they come as long as the barn's book has no shift of theirs. */
      usualHours: z.array(UsualHours).check(z.maxLength(21)),
      /** Not of age; missing: of age, or nobody has said. The barn's rules say which parts in a lesson they may take. */
      minor: z.optional(z.boolean()),
    }),
  ),
});
export type Volunteer = z.infer<typeof Volunteer>;

export const Staff = z.object({
  id: Id,
  name: ShownName,
  role: z.enum(['instructor', 'coordinator']),
});
export type Staff = z.infer<typeof Staff>;

/** A rider. Nothing of this record leaves the hub towards an aisle or arena-door tablet. */
export const Rider = z.object({
  id: Id,
  /** How the rider is called on the coordinator's screen. */
  callName: ShownName,
  private: z.optional(
    z.object({
      fullName: z.string().check(z.maxLength(80)),
      /** As ridden: clothed, with shoes and helmet. */
      weightKg: z.nullable(z.number().check(z.gt(0), z.lte(250))),
      balanced: z.boolean(),
      needs: Words,
      approvedHorses: z.array(Id),
      notWithHorses: z.array(Id),
      /** The rider's own. Missing: rides in one of the barn's. */
      helmet: z.optional(HelmetKept),
    }),
  ),
});
export type Rider = z.infer<typeof Rider>;

/** A helmet the barn lends. About riders, so it stays with the coordinator like them. */
export const Helmet = z.object({ id: Id, name: ShownName, ...HelmetKept.shape });
export type Helmet = z.infer<typeof Helmet>;

export const Arena = z.object({ id: Id, name: ShownName });
export type Arena = z.infer<typeof Arena>;
