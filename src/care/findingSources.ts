/** Where the rows of the table from a sign to an advice come from. Apart from the rows: boards reckon with those alone. */
import type { Sourced } from './figures.ts';
import type { FindingRuleId } from './findingRules.ts';

const NO_SOURCE = { source: 'common practice', grade: 'none' } as const;
const SHOE = {
  source: 'Young Rider 2005 and general web: off until the farrier has been',
  grade: 'C',
} as const;

export const FINDING_SOURCES: Readonly<Record<FindingRuleId, Sourced>> = {
  'shoe-lost': SHOE,
  'shoe-sprung': SHOE,
  'shoe-twisted': SHOE,
  'clinches-risen': {
    source: 'C. Hill 1998; EQUUS March 2016: raised clinches mean the shoe is likely loose',
    grade: 'B',
  },
  'stone-out': NO_SOURCE,
  'stone-stuck': NO_SOURCE,
  nail: { source: 'Cherry Creek Equine; Horse Illustrated: an emergency, not to be pulled', grade: 'B' },
  'heat-one-foot': { source: 'Horse Side Vet Guide: compare the feet, sun and work confuse', grade: 'B' },
  'heat-both-fronts': {
    source: 'Veterinary Evidence (PICO): warm fore hooves come before founder',
    grade: 'A',
  },
  'heat-and-sore': {
    source: 'Northwest Equine Vets; Horse Side Vet Guide: heat together with pain or lameness',
    grade: 'B',
  },
  'crack-blood-or-pain': {
    source: 'P. Reilly, New Bolton Center, in The Horse: blood and pain decide',
    grade: 'B',
  },
  'crack-plain': {
    source: 'P. Reilly, New Bolton Center, in The Horse: neither, so the farrier, no emergency',
    grade: 'B',
  },
  'thrush-smell': {
    source: 'C. Hill 1998; EQUUS March 2016: a daily look; the level is common practice',
    grade: 'B',
  },
  'foot-sore': {
    source: 'Equine welfare standard, PATH Intl. (read in a secondary copy): sore feet before lessons',
    grade: 'B',
  },
  'leg-swelling': NO_SOURCE,
  'leg-cut': NO_SOURCE,
  'rub-under-tack': NO_SOURCE,
  'rub-elsewhere': NO_SOURCE,
  'broken-or-swollen-under-tack': {
    source: 'Equine welfare standard, PATH Intl. (read in a secondary copy): sore back before lessons',
    grade: 'B',
  },
  'broken-or-swollen-elsewhere': NO_SOURCE,
  'skin-patch': { source: 'Equine Disease Communication Center; level is common practice', grade: 'A' },
  'touch-under-tack': {
    source: 'Equine welfare standard, PATH Intl. (read in a secondary copy): a sore back changes temper',
    grade: 'B',
  },
  'touch-elsewhere': NO_SOURCE,
  calm: NO_SOURCE,
  unsettled: {
    source: 'Equine welfare standard, PATH Intl. (read in a secondary copy): behaviour before lessons',
    grade: 'B',
  },
  'ears-pinned': { source: 'General safety leaflets: may bite or kick', grade: 'C' },
  'will-not-be-touched': {
    source: 'Equine welfare standard, PATH Intl. (read in a secondary copy): behaviour before lessons',
    grade: 'B',
  },
  'gait-uneven': {
    source: 'AAEP lameness scale: any grade from 1 is off lessons; a qualified person grades',
    grade: 'A',
  },
  'will-not-take-weight': { source: 'AAEP lameness scale, grade 5', grade: 'A' },
  'vital-within': NO_SOURCE,
  'vital-outside': {
    source: 'Equine Veterinary Service: ranges at rest; the level is common practice',
    grade: 'B',
  },
  'vital-far-outside': {
    source: 'Equine Veterinary Service: vet at once over 102.5 °F; pulse over 50 at rest: 4-H',
    grade: 'B',
  },
  'lameness-none': NO_SOURCE,
  'lameness-off': { source: 'Barn rule on the AAEP scale (BMC Vet Res 2016, table 1)', grade: 'A' },
  'lameness-vet': { source: 'Barn rule on the AAEP scale (BMC Vet Res 2016, table 1)', grade: 'A' },
};
