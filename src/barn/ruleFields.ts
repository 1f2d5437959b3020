/**
 * Every rule of a barn as one field of a form: where it stands in `Rules`, what kind of value it takes, its unit, its
 * default and the source of that default. Names in words stand in `src/words`, under the same path.
 */
import { CARE_RULE_SOURCES, type CareUnit } from '../care/careRuleSources.ts';
import { ADVICE_LEVELS, FINDING_RULE_IDS, FINDING_RULES, type FindingRuleId } from '../care/findingRules.ts';
import { FINDING_SOURCES } from '../care/findingSources.ts';
import { BODY_PLACES } from '../care/findings.ts';
import { FEET } from '../care/feetOrder.ts';
import { TEMPERATURE_UNITS, WIND_UNITS } from '../care/weatherRules.ts';
import { DEFAULT_RULES, RULE_SOURCES } from './rules.ts';
import { valueAt } from './atPath.ts';
import { AFTER_STAGES } from './stage.ts';

export type RuleKind =
  /** `canBeNone`: null is no such rule. `times`: shown so many times as large as it is kept. */
  | { readonly kind: 'number'; readonly canBeNone?: boolean; readonly times?: number }
  | { readonly kind: 'yesNo' }
  | { readonly kind: 'choice'; readonly options: readonly string[] }
  /** Any of the options. */
  | { readonly kind: 'several'; readonly options: readonly string[] }
  /** Options in an order; `all`: none may be missing. */
  | { readonly kind: 'order'; readonly options: readonly string[]; readonly all: boolean }
  /** A limit on rider and tack, in percent of the horse or as a sixth of it. */
  | { readonly kind: 'loadLimit' };

const NUMBER = { kind: 'number' } as const;
const OR_NONE = { kind: 'number', canBeNone: true } as const;
const YES_NO = { kind: 'yesNo' } as const;

/** Kinds by group and path, in the order of the screen. */
const FIELDS = {
  prep: {
    'stageMinutes.feet': NUMBER,
    'stageMinutes.coat': NUMBER,
    'stageMinutes.tack': NUMBER,
    extrasMinutes: NUMBER,
    warmUpMinutes: NUMBER,
    mountingMinutes: NUMBER,
    tightMinutes: NUMBER,
    certainty: { kind: 'number', times: 100 },
    earliestMinutes: NUMBER,
    'care.feetOrder': { kind: 'order', options: FEET, all: true },
  },
  people: {
    leadMinutes: NUMBER,
    minorsMayLead: YES_NO,
    minorsMaySideWalk: YES_NO,
    secondCheck: { kind: 'choice', options: ['off', 'anyone', 'leader'] },
    instructorCheck: YES_NO,
    keepPersonalDays: NUMBER,
  },
  between: {
    sharedPrepGapMinutes: NUMBER,
    girthMinutes: NUMBER,
    restMinutes: NUMBER,
    waterBetween: YES_NO,
    afterStages: { kind: 'order', options: AFTER_STAGES, all: false },
    'afterMinutes.untack': NUMBER,
    'afterMinutes.cool': NUMBER,
    'afterMinutes.look': NUMBER,
    'afterMinutes.away': NUMBER,
    'afterWithinMinutes.untack': NUMBER,
    'afterWithinMinutes.cool': NUMBER,
    'afterWithinMinutes.look': NUMBER,
    'afterWithinMinutes.away': NUMBER,
  },
  load: {
    'care.load.limit': { kind: 'loadLimit' },
    'care.load.unbalancedAddPercent': NUMBER,
    'care.load.flaggedConditionPercent': OR_NONE,
    'care.load.tapeAtLowEnd': YES_NO,
    'care.load.ponyTackKg': NUMBER,
    'care.load.horseTackKg': NUMBER,
    'care.load.balancedRiderCapKg': OR_NONE,
    'care.load.unbalancedRiderCapKg': OR_NONE,
    'care.bodyWeight.inchFormula': { kind: 'choice', options: ['over-330', 'over-300-plus-50'] },
    'care.bodyWeight.tapeErrorPercent': NUMBER,
    'care.condition.thinUpTo': NUMBER,
    'care.condition.fatFrom': NUMBER,
  },
  workload: {
    'care.workload.minutesPerDay': NUMBER,
    'care.workload.minutesInARow': NUMBER,
    'care.workload.breakMinutes': NUMBER,
    'care.workload.lessonsPerDay': OR_NONE,
    'care.workload.daysInARow': NUMBER,
    'care.workload.daysPerWeek': NUMBER,
    'care.workload.arenaWaitCounts': YES_NO,
  },
  weather: {
    'care.weather.temperatureUnit': { kind: 'choice', options: TEMPERATURE_UNITS },
    'care.weather.windUnit': { kind: 'choice', options: WIND_UNITS },
    'care.weather.heatSum.reduced.at': NUMBER,
    'care.weather.heatSum.reduced.inclusive': YES_NO,
    'care.weather.heatSum.greatlyReduced.at': NUMBER,
    'care.weather.heatSum.greatlyReduced.inclusive': YES_NO,
    'care.weather.heatSum.noWork.at': NUMBER,
    'care.weather.heatSum.noWork.inclusive': YES_NO,
    'care.weather.heatSum.subtractWind': YES_NO,
    'care.weather.heatSum.humidOverPercent': NUMBER,
    'care.weather.heatIndexBands': { kind: 'choice', options: ['newer', 'older'] },
    'care.weather.unmountedOverF': OR_NONE,
    'care.weather.unmountedFeltUnderF': OR_NONE,
    'care.weather.walkOnlyUnderF': NUMBER,
    'care.weather.thunderWaitMinutes': NUMBER,
    'care.weather.oldAfterMinutes': NUMBER,
  },
  care: {
    'care.farrier.warnAtWeeks': NUMBER,
    'care.farrier.dueAtWeeks': NUMBER,
    'care.farrier.visitWorkingDays': NUMBER,
    'care.farrier.overdueIsOff': YES_NO,
    'care.helmet.years': NUMBER,
    'care.helmet.warnDays': NUMBER,
    'care.isolation.quarantineDays': NUMBER,
    'care.isolation.warnOfSharedKit': { kind: 'choice', options: ['any-two-horses', 'isolated-only'] },
  },
  vitals: {
    'care.vitals.pulse.low': NUMBER,
    'care.vitals.pulse.high': NUMBER,
    'care.vitals.pulseVetOver': NUMBER,
    'care.vitals.breathing.low': NUMBER,
    'care.vitals.breathing.high': NUMBER,
    'care.vitals.temperatureF.low': NUMBER,
    'care.vitals.temperatureF.high': NUMBER,
    'care.vitals.temperatureVetOverF': NUMBER,
    'care.vitals.refillSeconds': NUMBER,
    'care.lameness.offFromGrade': NUMBER,
    'care.lameness.vetFromGrade': NUMBER,
  },
  boards: {
    darkFromHour: OR_NONE,
    darkToHour: NUMBER,
  },
  findings: {
    'care.findings.tackPlaces': { kind: 'several', options: BODY_PLACES },
  },
} as const satisfies Readonly<Record<string, Readonly<Record<string, RuleKind>>>>;

export type RuleGroup = keyof typeof FIELDS;
type PathsOf<Group> = Group extends unknown ? keyof Group & string : never;
/** All paths but the levels of findings, which are named by `FindingRuleId`. */
export type RulePath = PathsOf<(typeof FIELDS)[RuleGroup]>;

export type RuleField = RuleKind & {
  readonly group: RuleGroup;
  /** Path in `Rules`, dots between names. */
  readonly path: string;
  /** What names it: a rule of its own, or the sign whose level it is. */
  readonly named: { readonly rule: RulePath } | { readonly finding: FindingRuleId };
  readonly unit: CareUnit | null;
  readonly default: unknown;
  readonly source: string;
};

/** Every rule there is, grouped and in order. */
export function ruleFields(): RuleField[] {
  const own = Object.entries(FIELDS).flatMap(([group, fields]) =>
    Object.entries(fields).map(([path, kind]: [string, RuleKind]): RuleField => {
      const sourced = sourceOf(path);
      const value = valueAt(DEFAULT_RULES, path);
      return {
        ...kind,
        ...sourced,
        group: group as RuleGroup,
        path,
        named: { rule: path as RulePath },
        default: value,
      };
    }),
  );
  return [...own, ...FINDING_RULE_IDS.map(levelField)];
}

function levelField(id: FindingRuleId): RuleField {
  const { level, notMilderThan } = FINDING_RULES[id];
  const { source } = FINDING_SOURCES[id];
  const options = ADVICE_LEVELS.slice(ADVICE_LEVELS.indexOf(notMilderThan));
  const path = `care.findings.levels.${id}`;
  return {
    kind: 'choice',
    options,
    group: 'findings',
    path,
    named: { finding: id },
    unit: null,
    default: level,
    source,
  };
}

/** By how the rule's name ends. */
const UNITS: readonly (readonly [string, CareUnit])[] = [
  ['certainty', 'percent'],
  ['Minutes', 'minutes'],
  ['Days', 'days'],
  ['Hour', 'hour'],
];

/** Source and unit of the rule at `path`; a figure of several is sourced as a whole. */
function sourceOf(path: string): { readonly source: string; readonly unit: CareUnit | null } {
  const row = CARE_RULE_SOURCES.find((one) => `${path}.`.startsWith(`care.${one.path}.`));
  if (row) return { source: row.source, unit: isFigure(row.unit) ? row.unit : null };
  const [name = ''] = path.split('.');
  const source = (RULE_SOURCES as Readonly<Record<string, string>>)[name] ?? '';
  return { source, unit: UNITS.find(([end]) => name.endsWith(end))?.[1] ?? null };
}

function isFigure(unit: CareUnit): boolean {
  return unit !== 'choice' && unit !== 'yes/no';
}
