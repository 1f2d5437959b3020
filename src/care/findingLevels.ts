/** What the barn itself sets about findings. */
import * as z from 'zod/mini';
import { ADVICE_LEVELS, FINDING_RULE_IDS } from './findingRules.ts';
import { BodyPlace, DEFAULT_TACK_PLACES } from './findings.ts';

export const FindingsRules = z.object({
  /** The barn's own level for a row. */
  levels: z._default(z.partialRecord(z.enum(FINDING_RULE_IDS), z.enum(ADVICE_LEVELS)), {}),
  tackPlaces: z._default(z.array(BodyPlace), [...DEFAULT_TACK_PLACES]),
});
export type FindingsRules = z.infer<typeof FindingsRules>;
