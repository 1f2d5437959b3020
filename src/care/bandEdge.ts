/** Where a band on a scale begins, as a barn sets it. */
import * as z from 'zod/mini';

/** A band begins above `at`, or at it when `inclusive`. */
export const BandEdge = z.object({ at: z.number(), inclusive: z.boolean() });
export type BandEdge = z.infer<typeof BandEdge>;
