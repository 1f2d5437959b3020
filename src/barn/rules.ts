/**
 * What one barn does differently from the next. Every rule has a default and the source of that default, so that a
 * settings screen can show both. Times in whole minutes.
 */
import * as z from 'zod/mini';
import { CareRules, DEFAULT_CARE_RULES } from '../care/rulesOfCare.ts';

const Minutes = z.int().check(z.gte(0), z.lte(240));
const StageMinutes = z.number().check(z.gt(0), z.lte(240));
/** Below one half a needed-by time would promise to be missed; at 1 it would lie before any time there is. */
const Certainty = z.number().check(z.gte(0.5), z.lte(0.99));

const DEFAULT_CERTAINTY = 0.8;
const DEFAULT_EXTRAS_MINUTES = 10;
const DEFAULT_EARLIEST_MINUTES = 60;

export const Rules = z.object({
  /** In the arena, moving, before the rider mounts. */
  warmUpMinutes: Minutes,
  /** From standing at the ramp to the rider being up. */
  mountingMinutes: Minutes,
  /** Two lessons of one horse this close share a prep; further apart the horse is put away and prepared again. */
  sharedPrepGapMinutes: Minutes,
  /** Spare below this is called tight. */
  tightMinutes: Minutes,
  stageMinutes: z.object({ feet: StageMinutes, coat: StageMinutes, tack: StageMinutes }),
  /** Needed-by times leave the rest of the work this chance of being done by the ramp time. */
  certainty: z._default(Certainty, DEFAULT_CERTAINTY),
  /** Mane, tail, shoulders and hips, when the spare allows. */
  extrasMinutes: z._default(Minutes, DEFAULT_EXTRAS_MINUTES),
  /** A horse is taken up at the earliest this long before its ramp time. */
  earliestMinutes: z._default(Minutes, DEFAULT_EARLIEST_MINUTES),
  /** Load, work, weather, findings and the rest; their sources stand in `src/care/careRuleSources.ts`. */
  care: z.prefault(CareRules, {}),
});
export type Rules = z.infer<typeof Rules>;

export const DEFAULT_RULES: Rules = {
  warmUpMinutes: 10,
  mountingMinutes: 5,
  sharedPrepGapMinutes: 30,
  tightMinutes: 5,
  stageMinutes: { feet: 4, coat: 11, tack: 8 },
  certainty: DEFAULT_CERTAINTY,
  extrasMinutes: DEFAULT_EXTRAS_MINUTES,
  earliestMinutes: DEFAULT_EARLIEST_MINUTES,
  care: DEFAULT_CARE_RULES,
};

/** Where each default comes from, in the words a coordinator can check. */
export const RULE_SOURCES: { readonly [K in Exclude<keyof Rules, 'care'>]: string } = {
  warmUpMinutes:
    'Maryland Therapeutic Riding, horse leader training: horse moving in the arena 10–15 min before the start',
  mountingMinutes: 'Mitey Riders, From Mount to Dismount: 5 min a rider to mount',
  sharedPrepGapMinutes: 'common practice, no source',
  tightMinutes: 'common practice, no source',
  stageMinutes:
    'Mitey Riders, From Mount to Dismount: groom for class 15 min, of it 4 for the feet (from memory: 3–5); tack 5 min for an expert to 15, general manuals',
  certainty: 'common practice, no source',
  extrasMinutes: 'common practice, no source',
  earliestMinutes: 'common practice, no source',
};
