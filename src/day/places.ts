/** Where a tablet hangs, and what may be done from there. */
import * as z from 'zod/mini';
import { Id } from '../barn/fields.ts';

/** What a tablet tells the hub about itself. */
export const TabletPlace = z.discriminatedUnion('role', [
  /** Stalls this tablet shows; empty: all. */
  z.object({ role: z.literal('aisle'), stalls: z.array(Id) }),
  /** Arena null: all arenas. Distance in metres at which people stand. */
  z.object({
    role: z.literal('door'),
    arena: z.nullable(Id),
    metres: z.number().check(z.gte(0.5), z.lte(30)),
  }),
  z.object({ role: z.literal('coordinator') }),
]);
export type TabletPlace = z.infer<typeof TabletPlace>;
export type Role = TabletPlace['role'];
