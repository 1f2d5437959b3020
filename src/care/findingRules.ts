/** The table from a sign to an advice. One row a sign; the barn may set each row's level. */

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

export interface FindingRule {
  readonly level: AdviceLevel;
  /** Who it concerns in the end, also where the level is only "wait". */
  readonly whom: Whom;
  readonly handling: readonly Handling[];
  /** The barn may not set the row milder than this. Only for the signs every source calls an emergency. */
  readonly notMilderThan: AdviceLevel;
}

const SHOE = {
  level: 'off-today',
  whom: 'farrier',
  handling: ['soft-ground'],
  notMilderThan: 'clear',
} as const;

/** Defaults; their sources stand in `findingSources.ts`. Levels are advice; the instructor, vet and farrier decide. */
export const FINDING_RULES = {
  'shoe-lost': SHOE,
  'shoe-sprung': SHOE,
  'shoe-twisted': SHOE,
  'clinches-risen': row('wait', 'farrier'),
  'stone-out': row('carry-on', 'instructor'),
  'stone-stuck': row('wait', 'instructor'),
  nail: { ...row('call-now', 'vet', ['leave-it-in', 'keep-still']), notMilderThan: 'off-today' },
  'heat-one-foot': row('wait', 'instructor', ['compare-feet']),
  'heat-both-fronts': {
    ...row('call-now', 'vet', ['keep-still', 'soft-ground']),
    notMilderThan: 'off-today',
  },
  'heat-and-sore': row('call-now', 'vet', ['keep-still']),
  'crack-blood-or-pain': row('call-now', 'vet', ['keep-still']),
  'crack-plain': row('wait', 'farrier'),
  'thrush-smell': row('carry-on', 'farrier'),
  'foot-sore': row('off-today', 'instructor'),
  'leg-swelling': row('off-today', 'instructor'),
  'leg-cut': row('off-today', 'instructor'),
  'rub-under-tack': row('wait', 'instructor', ['no-tack-over-it']),
  'rub-elsewhere': row('carry-on', 'instructor'),
  'broken-or-swollen-under-tack': row('off-today', 'instructor', ['no-tack-over-it']),
  'broken-or-swollen-elsewhere': row('wait', 'instructor'),
  'skin-patch': row('wait', 'vet', ['own-kit-only', 'wash-hands']),
  'touch-under-tack': row('wait', 'instructor', ['no-tack-over-it']),
  'touch-elsewhere': row('wait', 'instructor'),
  calm: row('clear', 'instructor'),
  unsettled: row('carry-on', 'instructor'),
  'ears-pinned': row('wait', 'instructor', ['stand-back']),
  'will-not-be-touched': row('wait', 'instructor', ['stand-back']),
  'gait-uneven': row('off-today', 'instructor'),
  'will-not-take-weight': { ...row('call-now', 'vet', ['keep-still']), notMilderThan: 'off-today' },
  'vital-within': row('clear', 'instructor'),
  'vital-outside': row('wait', 'vet'),
  'vital-far-outside': { ...row('call-now', 'vet', ['keep-still']), notMilderThan: 'wait' },
  'lameness-none': row('clear', 'instructor'),
  'lameness-off': row('off-today', 'instructor'),
  'lameness-vet': { ...row('call-now', 'vet', ['keep-still']), notMilderThan: 'off-today' },
} satisfies Readonly<Record<string, FindingRule>>;

export type FindingRuleId = keyof typeof FINDING_RULES;
/** In the table's order. */
export const FINDING_RULE_IDS = Object.keys(FINDING_RULES) as FindingRuleId[];

function row(level: AdviceLevel, whom: Whom, handling: readonly Handling[] = []): FindingRule {
  return { level, whom, handling, notMilderThan: 'clear' };
}
