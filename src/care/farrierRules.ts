/** The barn’s weeks between visits of the farrier. */
import * as z from 'zod/mini';

const Weeks = z.int().check(z.minimum(2), z.maximum(16));

export const FarrierRules = z.object({
  warnAtWeeks: z._default(Weeks, 6),
  dueAtWeeks: z._default(Weeks, 8),
  /** How long until a farrier comes for a lost shoe, working days; shown as an expectation only. */
  visitWorkingDays: z._default(z.int().check(z.minimum(0), z.maximum(30)), 2),
  /** An overdue horse is not offered as a stand-in, and the coordinator is asked to take it off. */
  overdueIsOff: z._default(z.boolean(), false),
});
export type FarrierRules = z.infer<typeof FarrierRules>;
