/** The table from a sign to an advice. One row a sign; the barn may set each row's level. */
import type { Sourced } from './figures.ts';

/** From nothing to worst. 'call-now': vet or farrier, as the row says. */
export const ADVICE_LEVELS = ['clear', 'carry-on', 'wait', 'off-today', 'call-now'] as const;
export type AdviceLevel = (typeof ADVICE_LEVELS)[number];

/** Who is told or called. The instructor always hears of it too. */
export type Whom = 'instructor' | 'farrier' | 'vet';

/** What to do with the horse meanwhile. Codes; the words, and the centre's own rules, stand elsewhere. */
export type Handling =
  | 'leave-it-in'
  | 'keep-still'
  | 'soft-ground'
  | 'no-tack-over-it'
  | 'own-kit-only'
  | 'wash-hands'
  | 'stand-back'
  | 'compare-feet';

export const FINDING_RULE_IDS = [
  'shoe-lost',
  'shoe-sprung',
  'shoe-twisted',
  'clinches-risen',
  'stone-out',
  'stone-stuck',
  'nail',
  'heat-one-foot',
  'heat-both-fronts',
  'heat-and-sore',
  'crack-blood-or-pain',
  'crack-plain',
  'thrush-smell',
  'foot-sore',
  'leg-swelling',
  'leg-cut',
  'rub-under-tack',
  'rub-elsewhere',
  'broken-or-swollen-under-tack',
  'broken-or-swollen-elsewhere',
  'skin-patch',
  'touch-under-tack',
  'touch-elsewhere',
  'calm',
  'unsettled',
  'ears-pinned',
  'will-not-be-touched',
  'gait-uneven',
  'will-not-take-weight',
  'vital-within',
  'vital-outside',
  'vital-far-outside',
  'lameness-none',
  'lameness-off',
  'lameness-vet',
] as const;
export type FindingRuleId = (typeof FINDING_RULE_IDS)[number];

export interface FindingRule extends Sourced {
  readonly level: AdviceLevel;
  /** Who it concerns in the end, also where the level is only "wait". */
  readonly whom: Whom;
  readonly handling: readonly Handling[];
  /** The barn may not set the row milder than this. Only for the signs every source calls an emergency. */
  readonly notMilderThan: AdviceLevel;
}

const NO_SOURCE = { source: 'common practice', grade: 'none' } as const;
const SHOE = {
  level: 'off-today',
  whom: 'farrier',
  handling: ['soft-ground'],
  notMilderThan: 'clear',
  source: 'Young Rider 2005 and general web: off until the farrier has been',
  grade: 'C',
} as const;

/** Defaults with their sources. Levels are advice; the instructor, vet and farrier decide. */
export const FINDING_RULES: Readonly<Record<FindingRuleId, FindingRule>> = {
  'shoe-lost': SHOE,
  'shoe-sprung': SHOE,
  'shoe-twisted': SHOE,
  'clinches-risen': {
    ...row('wait', 'farrier'),
    source: 'C. Hill 1998; EQUUS March 2016: raised clinches mean the shoe is likely loose',
    grade: 'B',
  },
  'stone-out': { ...row('carry-on', 'instructor'), ...NO_SOURCE },
  'stone-stuck': { ...row('wait', 'instructor'), ...NO_SOURCE },
  nail: {
    ...row('call-now', 'vet', ['leave-it-in', 'keep-still']),
    notMilderThan: 'off-today',
    source: 'Cherry Creek Equine; Horse Illustrated: an emergency, not to be pulled',
    grade: 'B',
  },
  'heat-one-foot': {
    ...row('wait', 'instructor', ['compare-feet']),
    source: 'Horse Side Vet Guide: compare the feet, sun and work confuse',
    grade: 'B',
  },
  'heat-both-fronts': {
    ...row('call-now', 'vet', ['keep-still', 'soft-ground']),
    notMilderThan: 'off-today',
    source: 'Veterinary Evidence (PICO): warm fore hooves come before founder',
    grade: 'A',
  },
  'heat-and-sore': {
    ...row('call-now', 'vet', ['keep-still']),
    source: 'Northwest Equine Vets; Horse Side Vet Guide: heat together with pain or lameness',
    grade: 'B',
  },
  'crack-blood-or-pain': {
    ...row('call-now', 'vet', ['keep-still']),
    source: 'P. Reilly, New Bolton Center, in The Horse: blood and pain decide',
    grade: 'B',
  },
  'crack-plain': {
    ...row('wait', 'farrier'),
    source: 'P. Reilly, New Bolton Center, in The Horse: neither, so the farrier, no emergency',
    grade: 'B',
  },
  'thrush-smell': {
    ...row('carry-on', 'farrier'),
    source: 'C. Hill 1998; EQUUS March 2016: a daily look; the level is common practice',
    grade: 'B',
  },
  'foot-sore': {
    ...row('off-today', 'instructor'),
    source: 'Equine welfare standard, PATH Intl. (read in a secondary copy): sore feet before lessons',
    grade: 'B',
  },
  'leg-swelling': { ...row('off-today', 'instructor'), ...NO_SOURCE },
  'leg-cut': { ...row('off-today', 'instructor'), ...NO_SOURCE },
  'rub-under-tack': { ...row('wait', 'instructor', ['no-tack-over-it']), ...NO_SOURCE },
  'rub-elsewhere': { ...row('carry-on', 'instructor'), ...NO_SOURCE },
  'broken-or-swollen-under-tack': {
    ...row('off-today', 'instructor', ['no-tack-over-it']),
    source: 'Equine welfare standard, PATH Intl. (read in a secondary copy): sore back before lessons',
    grade: 'B',
  },
  'broken-or-swollen-elsewhere': { ...row('wait', 'instructor'), ...NO_SOURCE },
  'skin-patch': {
    ...row('wait', 'vet', ['own-kit-only', 'wash-hands']),
    source: 'Equine Disease Communication Center; level is common practice',
    grade: 'A',
  },
  'touch-under-tack': {
    ...row('wait', 'instructor', ['no-tack-over-it']),
    source: 'Equine welfare standard, PATH Intl. (read in a secondary copy): a sore back changes temper',
    grade: 'B',
  },
  'touch-elsewhere': { ...row('wait', 'instructor'), ...NO_SOURCE },
  calm: { ...row('clear', 'instructor'), ...NO_SOURCE },
  unsettled: {
    ...row('carry-on', 'instructor'),
    source: 'Equine welfare standard, PATH Intl. (read in a secondary copy): behaviour before lessons',
    grade: 'B',
  },
  'ears-pinned': {
    ...row('wait', 'instructor', ['stand-back']),
    source: 'General safety leaflets: may bite or kick',
    grade: 'C',
  },
  'will-not-be-touched': {
    ...row('wait', 'instructor', ['stand-back']),
    source: 'Equine welfare standard, PATH Intl. (read in a secondary copy): behaviour before lessons',
    grade: 'B',
  },
  'gait-uneven': {
    ...row('off-today', 'instructor'),
    source: 'AAEP lameness scale: any grade from 1 is off lessons; a qualified person grades',
    grade: 'A',
  },
  'will-not-take-weight': {
    ...row('call-now', 'vet', ['keep-still']),
    notMilderThan: 'off-today',
    source: 'AAEP lameness scale, grade 5',
    grade: 'A',
  },
  'vital-within': { ...row('clear', 'instructor'), ...NO_SOURCE },
  'vital-outside': {
    ...row('wait', 'vet'),
    source: 'Equine Veterinary Service: ranges at rest; the level is common practice',
    grade: 'B',
  },
  'vital-far-outside': {
    ...row('call-now', 'vet', ['keep-still']),
    notMilderThan: 'wait',
    source: 'Equine Veterinary Service: vet at once over 102.5 °F; pulse over 50 at rest: 4-H',
    grade: 'B',
  },
  'lameness-none': { ...row('clear', 'instructor'), ...NO_SOURCE },
  'lameness-off': {
    ...row('off-today', 'instructor'),
    source: 'Barn rule on the AAEP scale (BMC Vet Res 2016, table 1)',
    grade: 'A',
  },
  'lameness-vet': {
    ...row('call-now', 'vet', ['keep-still']),
    notMilderThan: 'off-today',
    source: 'Barn rule on the AAEP scale (BMC Vet Res 2016, table 1)',
    grade: 'A',
  },
};

function row(
  level: AdviceLevel,
  whom: Whom,
  handling: readonly Handling[] = [],
): Omit<FindingRule, keyof Sourced> {
  return { level, whom, handling, notMilderThan: 'clear' };
}
