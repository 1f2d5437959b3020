/**
 * What one barn does differently from the next. Every rule has a default and the source of that default, so that a
 * settings screen can show both. Times in whole minutes.
 */
import * as z from 'zod/mini';
import { CareRules, DEFAULT_CARE_RULES } from '../care/rulesOfCare.ts';
import { AfterStage } from './fields.ts';
import { AFTER_STAGES } from './stage.ts';

const Minutes = z.int().check(z.gte(0), z.lte(240));
/** Of the clock, 0 to 23. */
const Hour = z.int().check(z.gte(0), z.lte(23));
const StageMinutes = z.number().check(z.gt(0), z.lte(240));
/** Below one half a needed-by time would promise to be missed; at 1 it would lie before any time there is. */
const Certainty = z.number().check(z.gte(0.5), z.lte(0.99));

const DEFAULT_CERTAINTY = 0.8;
const DEFAULT_EXTRAS_MINUTES = 10;
const DEFAULT_EARLIEST_MINUTES = 60;
const DEFAULT_LEAD_MINUTES = 0;
const DEFAULT_GIRTH_MINUTES = 1;
const DEFAULT_REST_MINUTES = 10;
const DEFAULT_KEEP_PERSONAL_DAYS = 400;
const DEFAULT_DARK_FROM_HOUR = 21;
const DEFAULT_DARK_TO_HOUR = 6;
const DEFAULT_AFTER_MINUTES = { untack: 5, cool: 10, look: 10, away: 5 };
const DEFAULT_AFTER_WITHIN_MINUTES = { untack: 15, cool: 30, look: 40, away: 45 };

/**
 * Who checks girth and stirrups after whoever tacked: `anyone` cleared for tack, the one who will lead the horse
 * (`leader`), or nobody (`off`). An instructor always may.
 */
const SecondCheck = z.enum(['off', 'anyone', 'leader']);
const DEFAULT_SECOND_CHECK = 'anyone';

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
  /** Leaders and side-walkers have no other work from so long before their horse's ramp time. */
  leadMinutes: z._default(Minutes, DEFAULT_LEAD_MINUTES),
  minorsMayLead: z._default(z.boolean(), false),
  minorsMaySideWalk: z._default(z.boolean(), true),
  secondCheck: z._default(SecondCheck, DEFAULT_SECOND_CHECK),
  /** The instructor checks tack and girth of each horse; the door says where that is still to do. */
  instructorCheck: z._default(z.boolean(), true),
  /** To check girth and stirrups of a horse that goes again on the same tack. */
  girthMinutes: z._default(Minutes, DEFAULT_GIRTH_MINUTES),
  /** A horse stands out of work so long between two lessons. */
  restMinutes: z._default(Minutes, DEFAULT_REST_MINUTES),
  /** Water is offered between two lessons. */
  waterBetween: z._default(z.boolean(), true),
  /** What is done with a horse after its last lesson, in this order. */
  afterStages: z._default(
    z.array(AfterStage).check(z.refine((stages) => new Set(stages).size === stages.length)),
    [...AFTER_STAGES],
  ),
  afterMinutes: z._default(
    z.object({ untack: StageMinutes, cool: StageMinutes, look: StageMinutes, away: StageMinutes }),
    DEFAULT_AFTER_MINUTES,
  ),
  /** So long after its riders are down each of them is asked to be done. Preparing for a lesson comes before it. */
  afterWithinMinutes: z._default(
    z.object({ untack: StageMinutes, cool: StageMinutes, look: StageMinutes, away: StageMinutes }),
    DEFAULT_AFTER_WITHIN_MINUTES,
  ),
  /** Days that are over lose their people after so many days; what was done stays counted. */
  keepPersonalDays: z._default(z.int().check(z.gte(7), z.lte(3660)), DEFAULT_KEEP_PERSONAL_DAYS),
  /** A board on the wall that nobody touches goes dark from this hour of the clock to that; null: never. */
  darkFromHour: z._default(z.nullable(Hour), DEFAULT_DARK_FROM_HOUR),
  darkToHour: z._default(Hour, DEFAULT_DARK_TO_HOUR),
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
  leadMinutes: DEFAULT_LEAD_MINUTES,
  minorsMayLead: false,
  minorsMaySideWalk: true,
  secondCheck: DEFAULT_SECOND_CHECK,
  instructorCheck: true,
  girthMinutes: DEFAULT_GIRTH_MINUTES,
  restMinutes: DEFAULT_REST_MINUTES,
  waterBetween: true,
  afterStages: [...AFTER_STAGES],
  afterMinutes: DEFAULT_AFTER_MINUTES,
  afterWithinMinutes: DEFAULT_AFTER_WITHIN_MINUTES,
  keepPersonalDays: DEFAULT_KEEP_PERSONAL_DAYS,
  darkFromHour: DEFAULT_DARK_FROM_HOUR,
  darkToHour: DEFAULT_DARK_TO_HOUR,
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
  leadMinutes: 'common practice, no source',
  minorsMayLead:
    'the more careful choice; centres let people lead from 14 (UpReach, LoveSome, From the Ground Up) or 15 (TLC Riding Academy)',
  minorsMaySideWalk:
    'centres let people side-walk from 13 (Coffee Creek), 14 (UpReach, From the Ground Up) or 15 (TLC Riding Academy)',
  secondCheck:
    'common practice, no source; that tack is checked again after tacking: RDA UK training, Checking the Tack',
  instructorCheck:
    'Maryland Therapeutic Riding, horse leader training: the instructor does the final tack and girth check',
  girthMinutes: 'from memory: a girth check takes a minute',
  restMinutes: 'common practice, no source',
  waterBetween: 'common practice, no source',
  keepPersonalDays: 'common practice, no source; local law decides',
  darkFromHour: 'common practice, no source',
  darkToHour: 'common practice, no source',
  afterStages: 'Mitey Riders, From Mount to Dismount: untack, brush and clean hooves, put away or to pasture',
  afterMinutes:
    'Mitey Riders, From Mount to Dismount: 10 min to untack and put away, 10 to brush and clean hooves; walked cool at least 10 (general manuals); together the 30 min of Clemson University’s lessons page',
  afterWithinMinutes:
    'common practice, no source; the usual times of these stages one after the other, and 10 to 15 minutes more',
};
