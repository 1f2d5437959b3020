/** A rule of the barn as the screen shows it: its name, its choices in words, and a change held against the schema. */
import type { RuleField } from '#core/barn/ruleFields.ts';
import { Rules } from '#core/barn/rules.ts';
import { say } from '../../words.ts';
import { faultOf, valueAt, withValue, type Fault } from './draft.ts';

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

/** The rules with one of them changed, or what is wrong with it. */
export function changedRule(
  rules: Rules,
  field: RuleField,
  value: unknown,
): { readonly rules: Rules; readonly fault: null } | { readonly rules: null; readonly fault: Fault } {
  // A level as in the table is not stored: it follows the table.
  const kept = 'finding' in field.named && value === field.default ? undefined : value;
  const parsed = Rules.safeParse(withValue(rules, field.path, kept));
  if (parsed.success) return { rules: parsed.data, fault: null };
  const [issue] = parsed.error.issues;
  return { rules: null, fault: issue ? faultOf(issue, value) : { code: 'notSo', limit: null } };
}
