/** The AAEP lameness grade, and what the barn makes of it. */
import * as z from 'zod/mini';

/**
 * AAEP lameness grade, whole numbers 0 (none seen) to 5 (minimal weight bearing or unable to move).
 * Source: American Association of Equine Practitioners, scale as given in BMC Vet Res 2016, table 1
 * (12917-016-0873-7). The British 0-10 scale is another one and is not accepted.
 */
export const AaepGrade = z.int().check(z.minimum(0), z.maximum(5)).brand<'AAEP 0-5'>();
export type AaepGrade = z.infer<typeof AaepGrade>;

/** From which grade a horse is off lessons, and from which the vet is called. */
export const LamenessRules = z.object({
  offFromGrade: z._default(z.int().check(z.minimum(1), z.maximum(3)), 1),
  vetFromGrade: z._default(z.int().check(z.minimum(2), z.maximum(4)), 4),
});
export type LamenessRules = z.infer<typeof LamenessRules>;
