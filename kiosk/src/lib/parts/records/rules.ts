/** Every rule of the barn as a row: where it stands, its unit, its default and where that comes from. */
import { DEFAULT_RULES, RULE_SOURCES } from '#core/barn/rules.ts';
import { CARE_RULE_SOURCES } from '#core/care/careRuleSources.ts';

export type RuleRow = {
  /** Path in `Rules`, dots between names. */
  readonly path: string;
  readonly unit: string;
  readonly default: unknown;
  readonly source: string;
};

export function ruleRows(): RuleRow[] {
  const own = Object.entries(RULE_SOURCES).flatMap(([path, source]) => {
    const value: unknown = (DEFAULT_RULES as Record<string, unknown>)[path];
    const unit = path.endsWith('Minutes') ? 'min' : '';
    return split({ path, unit, default: value, source });
  });
  const care = CARE_RULE_SOURCES.flatMap(({ path, unit, default: value, source }) =>
    split({ path: `care.${path}`, unit, default: value, source }),
  );
  return [...own, ...care];
}

/** A rule of several figures is a row for each. */
function split(row: RuleRow): RuleRow[] {
  const { default: value } = row;
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return [row];
  return Object.entries(value).map(([name, one]) => ({ ...row, path: `${row.path}.${name}`, default: one }));
}

/** `care.load.ponyTackKg` as `load: pony tack kg`: the name a rule bears in the barn's data. */
export function ruleName(path: string): string {
  const names = path.replace(/^care\./, '').split('.');
  return names.map((name) => name.replaceAll(/([A-Z])/g, ' $1').toLowerCase()).join(': ');
}
