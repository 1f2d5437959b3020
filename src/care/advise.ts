/** From the day's findings on one horse to one advice. It names nobody's disease and gives no dose. */
import type { FindingsRules } from './findingLevels.ts';
import {
  ADVICE_LEVELS,
  FINDING_RULES,
  type FindingRuleId,
  type AdviceLevel,
  type FindingRule,
  type Handling,
  type Whom,
} from './findingRules.ts';
import type {
  BodyPlace,
  BodyFinding,
  Finding,
  FootFinding,
  GaitFinding,
  LamenessFinding,
  MannerFinding,
  VitalFinding,
} from './findings.ts';
import type { Foot } from './feetOrder.ts';
import { aaepGrade, adviseLameness } from './lameness.ts';
import type { LamenessRules } from './lamenessRules.ts';
import { judgeVital } from './vitals.ts';
import type { VitalsRules } from './vitalsRules.ts';

/** Of the barn's rules of care, those that findings are held against. */
export interface AdviceRules {
  readonly findings: FindingsRules;
  readonly vitals: VitalsRules;
  readonly lameness: LamenessRules;
}

/** What keeps the horse off, and who has to lift it by name. */
export type Hold = 'until-vet' | 'until-farrier' | 'until-instructor';

export interface AdviceReason {
  readonly rule: FindingRuleId;
  readonly level: AdviceLevel;
  readonly whom: Whom;
  /** The feet or places concerned, for the drawing. */
  readonly where: readonly (Foot | BodyPlace)[];
}

export interface Advice {
  readonly level: AdviceLevel;
  /** Who is told or called first. With several at the same level, vet before farrier before instructor. */
  readonly whom: Whom;
  /** Worst first. */
  readonly why: readonly AdviceReason[];
  /** Every hold the findings call for, strictest first: a shoe put back does not lift a vet's hold. */
  readonly holds: readonly Hold[];
  readonly handling: readonly Handling[];
}

/**
 * Advice for one horse from all that was found on it today, by the barn's table. More findings never make it
 * milder. No finding, or only a calm horse, is 'clear'.
 */
export function advise(findings: readonly Finding[], rules: AdviceRules): Advice {
  const reasons = merge([
    ...findings.map((finding) => reasonFor(rules, finding)),
    ...together(findings).map(([rule, where]) => reason(rules.findings, rule, where)),
  ]).sort(worstFirst);
  const worst = reasons[0];
  return {
    level: worst?.level ?? 'clear',
    whom: worst?.whom ?? 'instructor',
    why: reasons,
    holds: HOLDS.filter((hold) => reasons.some((each) => holdFor(each) === hold)),
    handling: [...new Set(reasons.flatMap((each) => FINDING_RULES[each.rule].handling))],
  };
}

/** Whether tack lies on this place in this barn. */
function liesUnderTack(rules: FindingsRules, place: BodyPlace): boolean {
  return rules.tackPlaces.includes(place);
}

/** The level a row has in this barn: its own if set, but not below the row's floor. */
export function levelOf(rules: FindingsRules, id: FindingRuleId): AdviceLevel {
  const { level, notMilderThan } = FINDING_RULES[id];
  const set = rules.levels[id] ?? level;
  return rank(set) < rank(notMilderThan) ? notMilderThan : set;
}

const HOLDS: readonly Hold[] = ['until-vet', 'until-farrier', 'until-instructor'];
const WHOM_ORDER: readonly Whom[] = ['vet', 'farrier', 'instructor'];

function holdFor(reason: AdviceReason): Hold | null {
  switch (reason.level) {
    case 'clear':
    case 'carry-on':
      return null;
    case 'wait':
      return 'until-instructor';
    case 'off-today':
    case 'call-now':
      return `until-${reason.whom}`;
  }
}

function reason(rules: FindingsRules, rule: FindingRuleId, where: AdviceReason['where']): AdviceReason {
  const level = levelOf(rules, rule);
  const row: FindingRule = FINDING_RULES[rule];
  // "Call now" has to name somebody to call, also where the barn made a milder row stricter.
  const whom = level === 'call-now' && row.whom === 'instructor' ? 'vet' : row.whom;
  return { rule, level, whom, where };
}

function reasonFor({ findings: rules, vitals, lameness }: AdviceRules, finding: Finding): AdviceReason {
  switch (finding.on) {
    case 'foot':
      return reason(rules, footRule(finding), [finding.foot]);
    case 'body':
      return reason(rules, bodyRule(finding, liesUnderTack(rules, finding.place)), [finding.place]);
    case 'manner':
      return reason(rules, mannerRule(finding), []);
    case 'gait':
      return reason(rules, gaitRule(finding), []);
    case 'vital':
      return reason(rules, vitalRule(vitals, finding), []);
    case 'lameness':
      return reason(rules, lamenessRule(lameness, finding), []);
  }
}

function footRule(finding: FootFinding): FindingRuleId {
  switch (finding.kind) {
    case 'stone':
      return finding.cameOut ? 'stone-out' : 'stone-stuck';
    case 'crack':
      return finding.blood || finding.pain ? 'crack-blood-or-pain' : 'crack-plain';
    case 'heat':
      return 'heat-one-foot';
    case 'sore':
      return 'foot-sore';
    case 'shoe-lost':
    case 'shoe-sprung':
    case 'shoe-twisted':
    case 'clinches-risen':
    case 'nail':
    case 'thrush-smell':
    case 'leg-swelling':
    case 'leg-cut':
      return finding.kind;
  }
}

function bodyRule(finding: BodyFinding, underTack: boolean): FindingRuleId {
  switch (finding.kind) {
    case 'rub':
      return underTack ? 'rub-under-tack' : 'rub-elsewhere';
    case 'sore':
    case 'swelling':
    case 'cut':
      return underTack ? 'broken-or-swollen-under-tack' : 'broken-or-swollen-elsewhere';
    case 'skin-patch':
      return 'skin-patch';
    case 'reacts-to-touch':
      return underTack ? 'touch-under-tack' : 'touch-elsewhere';
  }
}

function mannerRule(finding: MannerFinding): FindingRuleId {
  return finding.kind;
}

function gaitRule(finding: GaitFinding): FindingRuleId {
  switch (finding.kind) {
    case 'uneven':
      return 'gait-uneven';
    case 'will-not-take-weight':
      return 'will-not-take-weight';
  }
}

/** A figure nobody can judge is told, not passed over. */
function vitalRule(rules: VitalsRules, finding: VitalFinding): FindingRuleId {
  const judged = judgeVital(rules, finding);
  if (judged.kind === 'cannot-say') return 'vital-outside';
  switch (judged.call) {
    case 'nobody':
      return 'vital-within';
    case 'instructor':
      return 'vital-outside';
    case 'vet':
      return 'vital-far-outside';
  }
}

function lamenessRule(rules: LamenessRules, { grade }: LamenessFinding): FindingRuleId {
  const known = aaepGrade(grade);
  const advice = known === null ? 'off-today' : adviseLameness(rules, known);
  switch (advice) {
    case 'none-seen':
      return 'lameness-none';
    case 'off-today':
      return 'lameness-off';
    case 'call-now':
      return 'lameness-vet';
  }
}

/** Signs that mean more together than each alone. */
function together(findings: readonly Finding[]): readonly [FindingRuleId, readonly Foot[]][] {
  const hot = feetWith(findings, 'heat');
  const sore = feetWith(findings, 'sore');
  const lame = findings.some((finding) => finding.on === 'gait');
  const out: [FindingRuleId, readonly Foot[]][] = [];
  if (hot.has('LF') && hot.has('RF')) out.push(['heat-both-fronts', ['LF', 'RF']]);
  const hotAndSore = [...hot].filter((foot) => lame || sore.has(foot));
  if (hotAndSore.length > 0) out.push(['heat-and-sore', hotAndSore]);
  return out;
}

function feetWith(findings: readonly Finding[], kind: FootFinding['kind']): ReadonlySet<Foot> {
  return new Set(
    findings.flatMap((finding) => (finding.on === 'foot' && finding.kind === kind ? [finding.foot] : [])),
  );
}

/** One reason a rule, with every place it was seen. */
function merge(reasons: readonly AdviceReason[]): AdviceReason[] {
  const byRule = new Map<FindingRuleId, AdviceReason>();
  for (const each of reasons) {
    const seen = byRule.get(each.rule);
    const where = [...new Set([...(seen?.where ?? []), ...each.where])];
    byRule.set(each.rule, { ...each, where });
  }
  return [...byRule.values()];
}

function worstFirst(a: AdviceReason, b: AdviceReason): number {
  return rank(b.level) - rank(a.level) || WHOM_ORDER.indexOf(a.whom) - WHOM_ORDER.indexOf(b.whom);
}

function rank(level: AdviceLevel): number {
  return ADVICE_LEVELS.indexOf(level);
}
