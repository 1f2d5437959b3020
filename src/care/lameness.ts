/** Lameness as graded by a qualified person. A grade of its own type: it is never mixed with another scale. */
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

export type LamenessAdvice = 'none-seen' | 'off-today' | 'call-now';

/** Reads a number as an AAEP grade; null for anything but a whole number 0 to 5. */
export function aaepGrade(value: number): AaepGrade | null {
  const read = AaepGrade.safeParse(value);
  return read.success ? read.data : null;
}

/** What a grade means for today's work. The grade itself is a qualified person's judgement. */
export function adviseLameness(rules: LamenessRules, grade: AaepGrade): LamenessAdvice {
  if (grade >= rules.vetFromGrade) return 'call-now';
  if (grade >= rules.offFromGrade) return 'off-today';
  return 'none-seen';
}
