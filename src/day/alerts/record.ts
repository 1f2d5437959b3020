/** What begins to call for attention by time passing, as it stands in the journal. */
import * as z from 'zod/mini';
import { Key } from '../../barn/fields.ts';

/** Kinds that no tap brings. */
export const RAISED_KINDS = ['notKept', 'feetBy', 'openRole', 'behind', 'damage'] as const;

/** `about`: a prep, a lesson or a trouble of the hub; never a person. */
export const Raised = z.object({ alert: z.enum(RAISED_KINDS), about: Key });
export type Raised = z.infer<typeof Raised>;
