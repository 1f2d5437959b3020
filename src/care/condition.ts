/** Body condition by Henneke's nine scores. A score of its own type: it is never mixed with another scale. */
import * as z from 'zod/mini';

/**
 * Henneke condition score, whole numbers 1 (poor) to 9 (extremely fat).
 * Source: Henneke, Potter, Kreider, Yeates, Equine Vet J 1983;15 (read through secondary pages). Other scales
 * (0-5) exist and are not accepted.
 */
export const HennekeScore = z.int().check(z.minimum(1), z.maximum(9)).brand<'Henneke 1-9'>();
export type HennekeScore = z.infer<typeof HennekeScore>;

/** Which scores call for a look at the load. */
export const ConditionRules = z.object({
  thinUpTo: z._default(z.int().check(z.minimum(1), z.maximum(4)), 3),
  fatFrom: z._default(z.int().check(z.minimum(6), z.maximum(9)), 8),
});
export type ConditionRules = z.infer<typeof ConditionRules>;

export type ConditionFlag = 'thin' | 'fat';

/** Reads a number as a Henneke score; null for anything but a whole number 1 to 9. */
export function hennekeScore(value: number): HennekeScore | null {
  const read = HennekeScore.safeParse(value);
  return read.success ? read.data : null;
}

/** The flag a score raises under the barn's rules, or null. */
export function conditionFlag(rules: ConditionRules, score: HennekeScore): ConditionFlag | null {
  if (score <= rules.thinUpTo) return 'thin';
  if (score >= rules.fatFrom) return 'fat';
  return null;
}
