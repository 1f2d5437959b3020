/** Every setting of care with its unit, default and source, for a settings screen to show. */
import { DEFAULT_CARE_RULES } from './rulesOfCare.ts';
import type { Grade, Sourced } from './figures.ts';

export interface CareRuleSource extends Sourced {
  /** Path in `CareRules`, dots between names. */
  readonly path: string;
  readonly unit: CareUnit;
  readonly default: unknown;
}

export type CareUnit =
  | 'percent'
  | 'kg'
  | 'minutes'
  | 'lessons'
  | 'hour'
  | 'days'
  | 'weeks'
  | 'years'
  | '°F'
  | '°F + percent'
  | 'perMinute'
  | 'seconds'
  | 'score'
  | 'grade'
  | 'choice'
  | 'yes/no';

type Row = readonly [path: string, unit: CareUnit, grade: Grade, source: string];

const PATH_PAPER = 'PATH Intl. maximum, quoted in J Equine Vet Sci 2020 (horse use in therapeutic riding)';
const CHA = 'Certified Horsemanship Association';
const EVS = 'Equine Veterinary Service; practices differ';

const ROWS: readonly Row[] = [
  [
    'load.limit',
    'percent',
    'A',
    'Powell et al., J Equine Vet Sci 2008: 20 % with tack. RDA UK: a sixth. Some centres: 15-17 %',
  ],
  [
    'load.unbalancedAddPercent',
    'percent',
    'B',
    'RDA UK guidance: 10 %, some cases 15 %; Association of British Riding Schools: 10 %',
  ],
  [
    'load.flaggedConditionPercent',
    'percent',
    'none',
    'Equestrian Australia guide: less for a horse not in full condition; it gives no figure',
  ],
  ['load.tapeAtLowEnd', 'yes/no', 'none', 'Own choice: the caution is shown, the limit stays'],
  ['load.ponyTackKg', 'kg', 'B', 'RDA UK, maximum carrying weight: 1 st'],
  ['load.horseTackKg', 'kg', 'B', 'RDA UK, maximum carrying weight: 1.5 st'],
  [
    'load.balancedRiderCapKg',
    'kg',
    'B',
    'Centres set their own (Chariot Riders, NTRC and others: 165 to 250 lb); none by default',
  ],
  [
    'load.unbalancedRiderCapKg',
    'kg',
    'B',
    'Centres set their own (Chariot Riders, NTRC and others: 120 to 170 lb); none by default',
  ],
  ['bodyWeight.inchFormula', 'choice', 'A', 'M. Russell, Equine Extension: 330. Summit Equine: 300 plus 50'],
  ['bodyWeight.tapeErrorPercent', 'percent', 'none', 'Own choice; eye guesses are off by more than 10 %'],
  ['condition.thinUpTo', 'score', 'A', 'Henneke et al., Equine Vet J 1983: 3 is thin'],
  ['condition.fatFrom', 'score', 'A', 'Henneke et al., Equine Vet J 1983: 8 is fat'],
  ['workload.minutesPerDay', 'minutes', 'A', `${PATH_PAPER}: 6 h`],
  ['workload.minutesInARow', 'minutes', 'memory', '3 h in a row, from memory; barns set less'],
  ['workload.breakMinutes', 'minutes', 'none', 'Own choice'],
  ['workload.lessonsPerDay', 'lessons', 'none', 'No figure found; the minutes decide'],
  ['workload.daysInARow', 'days', 'A', `${PATH_PAPER}: 6 days a week`],
  ['workload.daysPerWeek', 'days', 'A', `${PATH_PAPER}: 6 days a week; ${CHA}: one full rest day`],
  [
    'workload.arenaWaitCounts',
    'yes/no',
    'B',
    `${CHA}: time between lessons counts while the horse stays in the arena`,
  ],
  [
    'weather.heatSum.reduced',
    '°F + percent',
    'A',
    'Univ. of Minnesota Equine Extension; AAEP 2021: under 130 fine',
  ],
  [
    'weather.heatSum.greatlyReduced',
    '°F + percent',
    'A',
    'Univ. of Minnesota Equine Extension; AAEP 2021: over 150',
  ],
  [
    'weather.heatSum.noWork',
    '°F + percent',
    'A',
    'Univ. of Minnesota Equine Extension; eXtension Horses 2006: over 180',
  ],
  [
    'weather.heatSum.subtractWind',
    'yes/no',
    'B',
    'University pages do not; Texas AgriLife 2009 and others do',
  ],
  [
    'weather.heatSum.humidOverPercent',
    'percent',
    'A',
    'eXtension Horses 2006: sweat works much less over 75 %',
  ],
  [
    'weather.heatIndexBands',
    'choice',
    'B',
    'Two sets of NWS bounds are in circulation; the newer begins danger earlier',
  ],
  ['weather.unmountedOverF', '°F', 'B', 'Forward Stride, a centre in Oregon: unmounted over 90 °F'],
  [
    'weather.unmountedFeltUnderF',
    '°F',
    'B',
    'ROCK, a centre in Georgetown, Texas: unmounted when it feels under 32 °F',
  ],
  ['weather.walkOnlyUnderF', '°F', 'B', 'Dr A. Yates: nothing faster than walk under 20 °F'],
  [
    'weather.thunderWaitMinutes',
    'minutes',
    'B',
    'TRRC, a centre in Maryland: 30 minutes after the last thunder',
  ],
  ['weather.oldAfterMinutes', 'minutes', 'none', 'Common practice, no source'],
  ['weather.temperatureUnit', 'choice', 'none', 'Own choice: as the barn’s thermometer shows'],
  ['weather.windUnit', 'choice', 'none', 'Own choice: as the barn’s instrument shows'],
  ['farrier.warnAtWeeks', 'weeks', 'B', 'C. Hill: 6-8 weeks; EQUUS: 4-8'],
  ['farrier.dueAtWeeks', 'weeks', 'B', 'C. Hill: 6-8 weeks; EquiMed: 6-10 on average'],
  ['farrier.visitWorkingDays', 'days', 'C', "One farrier's promise; ask yours"],
  ['farrier.overdueIsOff', 'yes/no', 'none', 'Own choice: overdue is told, and blocks nothing by itself'],
  ['helmet.years', 'years', 'B', 'EquiMed 2016: at 5 years, and after a fall that hits'],
  ['helmet.warnDays', 'days', 'none', 'Own choice'],
  ['vitals.pulse', 'perMinute', 'B', `${EVS} (26-40 up to 30-44)`],
  ['vitals.breathing', 'perMinute', 'B', `${EVS} (from 8 up to 20)`],
  ['vitals.temperatureF', '°F', 'B', `${EVS} (99 to 101.5)`],
  ['vitals.temperatureVetOverF', '°F', 'B', 'Equine Veterinary Service: vet at once over 102.5'],
  ['vitals.refillSeconds', 'seconds', 'B', `${EVS} (1-2)`],
  ['vitals.pulseVetOver', 'perMinute', 'C', '4-H vital signs page: over 50 at rest'],
  ['lameness.offFromGrade', 'grade', 'none', 'Barn rule on the AAEP scale'],
  [
    'lameness.vetFromGrade',
    'grade',
    'none',
    'Barn rule on the AAEP scale: obvious at walk, or will not bear weight',
  ],
  [
    'isolation.quarantineDays',
    'days',
    'A',
    'Michigan State Univ. CVM; HBLB Codes of Practice: 2-3 weeks, the longer taken',
  ],
  [
    'isolation.warnOfSharedKit',
    'choice',
    'B',
    'The Horse; Colorado State Univ.: own equipment for each horse',
  ],
  ['findings.levels', 'choice', 'none', 'Each row of the table of findings bears its own source'],
  ['findings.tackPlaces', 'choice', 'none', 'Where bridle, saddle, pad, girth and breastplate lie'],
  ['feetOrder', 'choice', 'B', "Healing with Horses; sources differ, the order is the barn's"],
];

/** One row a setting. Defaults are read from the schema, so they cannot drift from it. */
export const CARE_RULE_SOURCES: readonly CareRuleSource[] = ROWS.map(([path, unit, grade, source]) => ({
  path,
  unit,
  grade,
  source,
  default: valueAt(DEFAULT_CARE_RULES, path),
}));

function valueAt(record: unknown, path: string): unknown {
  return path
    .split('.')
    .reduce<unknown>((value, name) => (value as Record<string, unknown> | undefined)?.[name], record);
}
