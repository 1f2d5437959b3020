/** Rules saved one by one: two people who change different rules at once both have them. No source: the project's own rule. */
import { describe, expect, test } from 'vitest';
import { valueAt } from '#core/barn/atPath.ts';
import { ruleFields } from '#core/barn/ruleFields.ts';
import { isRuleValue } from '#core/barn/ruleValue.ts';
import { DEFAULT_RULES, Rules } from '#core/barn/rules.ts';
import { evolve } from '#core/day/evolve.ts';
import { OpFact } from '#core/day/ops.ts';
import { entry, smallBoard } from '../../properties/day-arbitraries.ts';

describe('one rule', () => {
  test('of two saved at once each stays, in either order', () => {
    const facts: OpFact[] = [
      { kind: 'ruleSet', path: 'warmUpMinutes', value: 15 },
      { kind: 'ruleSet', path: 'care.workload.breakMinutes', value: 45 },
    ];
    for (const order of [facts, facts.toReversed()]) {
      const board = order.reduce((next, fact, i) => evolve(next, entry(800 + i, fact)), smallBoard());
      const { rules } = board.barn;
      expect([rules.warmUpMinutes, rules.care.workload.breakMinutes]).toEqual([15, 45]);
      expect({ ...rules, warmUpMinutes: 10, care: DEFAULT_RULES.care }).toEqual({
        ...DEFAULT_RULES,
        care: DEFAULT_RULES.care,
      });
    }
  });

  test.each(ruleFields().map((field) => [field.path, field] as const))(
    '%s takes its default',
    (path, field) => {
      expect(isRuleValue(path, field.default)).toBe(true);
      const parsed = OpFact.safeParse({ kind: 'ruleSet', path, value: field.default });
      expect(parsed.success).toBe(true);
    },
  );

  test('of a finding without a value follows the table again', () => {
    const set = evolve(
      smallBoard(),
      entry(810, { kind: 'ruleSet', path: 'care.findings.levels.shoe-lost', value: 'call-now' }),
    );
    expect(valueAt(set.barn.rules, 'care.findings.levels.shoe-lost')).toBe('call-now');
    const back = evolve(set, entry(811, { kind: 'ruleSet', path: 'care.findings.levels.shoe-lost' }));
    expect(back.barn.rules).toEqual(smallBoard().barn.rules);
    expect(Rules.safeParse(back.barn.rules).success).toBe(true);
  });

  test.each([
    ['warmUpMinutes', 241],
    ['warmUpMinutes', '10'],
    ['warmUpMinutes', undefined],
    ['nothing', 1],
    ['care', {}],
    ['__proto__.polluted', 1],
    ['care.feetOrder', ['LF', 'LF', 'RF', 'RH']],
    ['afterStages', ['away', 'away']],
    ['care.findings.levels.shoe-lost', 'maybe'],
  ])('%s is not set to %j', (path, value) => {
    expect(OpFact.safeParse({ kind: 'ruleSet', path, value }).success).toBe(false);
  });

  test('a journal that says all rules at once still says the same', () => {
    const rules = { ...DEFAULT_RULES, warmUpMinutes: 12 };
    const parsed = OpFact.parse(JSON.parse(JSON.stringify({ kind: 'rulesChanged', rules })));
    expect(evolve(smallBoard(), entry(820, parsed)).barn.rules).toEqual(rules);
  });
});
