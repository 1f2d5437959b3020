/** A rule of the barn as the screen shows it: its name, its choices in words, and a change held against the schema. */
import type { RuleField } from '#core/barn/ruleFields.ts';
import { valueAt, withValue } from '#core/barn/atPath.ts';
import { DEFAULT_RULES, Rules } from '#core/barn/rules.ts';
import type { OpFact } from '#core/day/ops.ts';
import { say } from '../../words.ts';
import { faultOf, type Fault } from './draft.ts';

export function ruleName({ named, unit }: RuleField): string {
  const name = 'rule' in named ? say.RULE_WORD[named.rule] : say.RULE_SIGN[named.finding];
  return unit === null ? name : `${name} (${say.RULE_UNIT[unit]})`;
}

/** One choice of a rule in words. */
export function optionWord({ named }: RuleField, option: string): string {
  const words: Readonly<Record<string, string>> =
    'finding' in named ? say.RULE_LEVEL : (OPTIONS_SAID_ELSEWHERE()[named.rule] ?? say.RULE_OPTION);
  return words[option] ?? option;
}

const OPTIONS_SAID_ELSEWHERE = (): Readonly<Record<string, Readonly<Record<string, string>>>> => ({
  'care.feetOrder': say.FOOT_WORD,
  'care.findings.tackPlaces': say.BODY_WORD,
  afterStages: say.STAGE_WORK,
});

/** What the barn has set, or the default it goes by. */
export function ruleValue(rules: Rules, field: RuleField): unknown {
  return valueAt(rules, field.path) ?? ('finding' in field.named ? field.default : null);
}

export function isDefault(rules: Rules, field: RuleField): boolean {
  return JSON.stringify(ruleValue(rules, field)) === JSON.stringify(field.default);
}

/** What a rule is set to; undefined: it follows the table of findings. */
export type RuleValue = Extract<OpFact, { kind: 'ruleSet' }>['value'];

/** `value` as it is saved, or what is wrong with it. */
export function changedRule(
  field: RuleField,
  value: unknown,
): { readonly value: RuleValue; readonly fault: null } | { readonly fault: Fault } {
  // A level as in the table is not stored: it follows the table.
  const kept = 'finding' in field.named && value === field.default ? undefined : value;
  const parsed = Rules.safeParse(withValue(DEFAULT_RULES, field.path, kept));
  if (parsed.success) return { value: valueAt(parsed.data, field.path) as RuleValue, fault: null };
  const [issue] = parsed.error.issues;
  return { fault: issue ? faultOf(issue, value) : { code: 'notSo', limit: null } };
}
