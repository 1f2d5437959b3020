/** Calendar addresses, as a coordinator's tablet makes and sees them. */
import * as z from 'zod/mini';
import { Id, Instant } from '../barn/fields.ts';

/** What an address shows: the barn's lessons, or one volunteer's shifts and roles. */
export const FeedOf = z.discriminatedUnion('is', [
  z.object({ is: z.literal('lessons'), withRiders: z.boolean() }),
  z.object({ is: z.literal('person'), person: Id }),
]);
export type FeedOf = z.infer<typeof FeedOf>;

/** `language`: a code, in which its words are. */
export const FeedAsk = z.object({ of: FeedOf, language: z.string().check(z.maxLength(8)) });
export type FeedAsk = z.infer<typeof FeedAsk>;

export const FeedKnown = z.object({ id: Id, of: FeedOf, madeAt: Instant });
export type FeedKnown = z.infer<typeof FeedKnown>;

/** Said once: the hub keeps no more of the secret than its hash. */
export const FeedMade = z.object({ id: Id, path: z.string() });
export type FeedMade = z.infer<typeof FeedMade>;
