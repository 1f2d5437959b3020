/** Settings over opinions: every rule has a default that parses, and says where the default comes from. */
import { expect, test } from 'vitest';
import { DEFAULT_RULES, RULE_SOURCES, Rules } from '#core/barn/rules.ts';

test('the defaults are rules, and a barn that keeps them all keeps them over JSON', () => {
  expect(Rules.parse(JSON.parse(JSON.stringify(DEFAULT_RULES)))).toEqual(DEFAULT_RULES);
});

test('every rule outside the care of horses names its source', () => {
  const own = Object.keys(DEFAULT_RULES).filter((rule) => rule !== 'care');
  expect(Object.keys(RULE_SOURCES).toSorted()).toEqual(own.toSorted());
  for (const source of Object.values(RULE_SOURCES)) expect(source.length).toBeGreaterThan(10);
});
