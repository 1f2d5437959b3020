/** The barn’s limits on a horse’s work. */
import * as z from 'zod/mini';

const MinutesOfDay = z.int().check(z.minimum(15), z.maximum(24 * 60));

export const WorkloadRules = z.object({
  minutesPerDay: z._default(MinutesOfDay, 360),
  minutesInARow: z._default(MinutesOfDay, 180),
  /** A pause out of the arena at least this long ends a stretch. */
  breakMinutes: z._default(z.int().check(z.minimum(5), z.maximum(240)), 30),
  /** null: the minutes alone decide. */
  lessonsPerDay: z._default(z.nullable(z.int().check(z.minimum(1), z.maximum(16))), null),
  daysInARow: z._default(z.int().check(z.minimum(1), z.maximum(7)), 6),
  /** Days worked in any seven. */
  daysPerWeek: z._default(z.int().check(z.minimum(1), z.maximum(7)), 6),
  /** Waiting in the arena between lessons counts as work. */
  arenaWaitCounts: z._default(z.boolean(), true),
});
export type WorkloadRules = z.infer<typeof WorkloadRules>;
