/** How long the barn lets a helmet serve, and what is known of one. */
import * as z from 'zod/mini';
import { DateText } from '../barn/fields.ts';

export const HelmetRules = z.object({
  years: z._default(z.int().check(z.minimum(1), z.maximum(10)), 5),
  warnDays: z._default(z.int().check(z.minimum(0), z.maximum(365)), 60),
});
export type HelmetRules = z.infer<typeof HelmetRules>;

/** What is known of one helmet. */
export const HelmetKept = z.object({
  /** null: nobody knows. */
  boughtOn: z.nullable(DateText),
  /** It was hit in a fall. */
  knocked: z.boolean(),
});
export type HelmetKept = z.infer<typeof HelmetKept>;
