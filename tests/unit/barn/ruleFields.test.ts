/** Every rule of the barn can be read and set on the screen. What must hold is the project's own rule: common practice, no source. */
import { describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { ruleFields, type RuleField } from '#core/barn/ruleFields.ts';
import { DEFAULT_RULES, Rules } from '#core/barn/rules.ts';
import { TEMPERATURE_UNITS, WIND_UNITS } from '#core/care/weatherRules.ts';
import { LANGUAGES } from '#core/words/languages.ts';
import { withValue } from '#core/barn/atPath.ts';

type Schema = {
  readonly type?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: unknown;
  readonly propertyNames?: Schema;
  readonly enum?: readonly string[];
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly items?: Schema;
  readonly prefixItems?: readonly Schema[];
};

/** Every value of the schema that is not itself a table of values, by its path. */
function leaves(schema: Schema, path: string): [string, Schema][] {
  if (schema.properties) {
    return Object.entries(schema.properties).flatMap(([name, one]) =>
      leaves(one, path === '' ? name : `${path}.${name}`),
    );
  }
  if (schema.propertyNames?.enum) return schema.propertyNames.enum.map((name) => [`${path}.${name}`, schema]);
  return [[path, schema]];
}

const SCHEMA = new Map(leaves(z.toJSONSchema(Rules, { io: 'output', unrepresentable: 'any' }) as Schema, ''));
const FIELDS = ruleFields();
const withRule = (field: RuleField, value: unknown) =>
  Rules.safeParse(withValue(DEFAULT_RULES, field.path, value));

test('each rule of the schema is a field, once, and no field is left over', () => {
  expect(SCHEMA.size).toBeGreaterThan(100);
  expect(FIELDS.map((field) => field.path).toSorted()).toEqual([...SCHEMA.keys()].toSorted());
});

describe.each(FIELDS.map((field) => ({ path: field.path, field })))('$path', ({ path, field }) => {
  const schema = SCHEMA.get(path) ?? {};

  test('has words in each language, a source and a default the schema takes', async () => {
    for (const language of LANGUAGES) {
      const say = await language.load.rules();
      const { named } = field;
      const name = 'rule' in named ? say.RULE_WORD[named.rule] : say.RULE_SIGN[named.finding];
      expect(name?.length ?? 0).toBeGreaterThan(3);
      expect(say.RULE_GROUP[field.group].length).toBeGreaterThan(3);
    }
    expect(field.source.length).toBeGreaterThan(9);
    expect(withRule(field, field.default).success).toBe(true);
  });

  test('its editor is for the kind of value the schema asks for, and offers all of it', () => {
    switch (field.kind) {
      case 'number': {
        const types = (schema.anyOf ?? [schema]).map(({ type }) => type);
        expect(types.includes('number') || types.includes('integer')).toBe(true);
        expect(types.includes('null')).toBe(field.canBeNone === true);
        expect(field.unit).not.toBeNull();
        break;
      }
      case 'yesNo':
        expect(schema.type).toBe('boolean');
        break;
      case 'choice': {
        const left = (schema.enum ?? []).filter((one) => !field.options.includes(one));
        // A finding's level has a floor that `levelOf` holds; below it there is nothing to choose.
        if ('finding' in field.named) expect(field.options).toContain('call-now');
        else expect([schema.type, left]).toEqual(['string', []]);
        for (const option of field.options) expect(withRule(field, option).success).toBe(true);
        break;
      }
      case 'several':
      case 'order': {
        expect(schema.type).toBe('array');
        const one = schema.items?.enum ?? schema.prefixItems?.[0]?.enum;
        expect([...field.options].toSorted()).toEqual([...(one ?? [])].toSorted());
        expect(withRule(field, [...field.options].toReversed()).success).toBe(true);
        expect(withRule(field, field.options.slice(1)).success).toBe(!(field.kind === 'order' && field.all));
        break;
      }
      case 'loadLimit':
        for (const limit of [{ of: 'sixth' }, { of: 'percent', percent: 15 }])
          expect(withRule(field, limit).success).toBe(true);
        break;
    }
  });
});

test('each choice is said in each language', async () => {
  for (const language of LANGUAGES) {
    const [rules, findings, common] = await Promise.all([
      language.load.rules(),
      language.load.findings(),
      language.load.common(),
    ]);
    const words = [
      rules.RULE_OPTION,
      rules.RULE_LEVEL,
      findings.FOOT_WORD,
      findings.BODY_WORD,
      common.STAGE_WORK,
    ];
    const said = new Set<string>([...TEMPERATURE_UNITS, ...WIND_UNITS, ...words.flatMap(Object.keys)]);
    const options = FIELDS.flatMap((field) => ('options' in field ? field.options : []));
    expect(options.filter((option) => !said.has(option))).toEqual([]);
  }
});
