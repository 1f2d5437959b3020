/** One rule of the barn by itself, so that two people who change different rules at once both have them changed. */
import { valueAt, withValue } from './atPath.ts';
import { ruleFields } from './ruleFields.ts';
import { DEFAULT_RULES, Rules } from './rules.ts';

/**
 * Whether the rule at `path` may be set to `value`; undefined is no value of its own. No rule asks anything of another, so
 * the defaults stand in for what the barn has set beside it.
 */
export function isRuleValue(path: string, value: unknown): boolean {
  const field = ruleFields().find((one) => one.path === path);
  if (!field || (value === undefined && !('finding' in field.named))) return false;
  const parsed = Rules.safeParse(withValue(DEFAULT_RULES, path, value));
  return parsed.success && JSON.stringify(valueAt(parsed.data, path)) === JSON.stringify(value);
}
