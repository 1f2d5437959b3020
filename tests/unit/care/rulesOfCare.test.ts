/** The settings of care: every one has a default, a unit and a source, and nothing hostile gets in. */
import { describe, expect, it } from 'vitest';
import { CARE_RULE_SOURCES } from '#core/care/careRuleSources.ts';
import { FINDING_SOURCES } from '#core/care/findingSources.ts';
import { CareRules, DEFAULT_CARE_RULES } from '#core/care/rulesOfCare.ts';

/** Settings as a screen shows them: one level below a subject, two for the heat sum; lists and ranges are one setting. */
function paths(): string[] {
  return Object.entries(DEFAULT_CARE_RULES).flatMap(([subject, value]) => {
    if (subject === 'feetOrder') return [subject];
    return Object.keys(value).flatMap((name) =>
      name === 'heatSum'
        ? Object.keys(DEFAULT_CARE_RULES.weather.heatSum).map((edge) => `weather.heatSum.${edge}`)
        : [`${subject}.${name}`],
    );
  });
}

describe('sources', () => {
  it('has exactly one row for each setting', () => {
    expect(CARE_RULE_SOURCES.map((row) => row.path).sort()).toEqual(paths().sort());
  });

  it('shows the default the schema gives', () => {
    for (const row of CARE_RULE_SOURCES) expect([row.path, row.default]).not.toEqual([row.path, undefined]);
    const find = (path: string) => CARE_RULE_SOURCES.find((row) => row.path === path);
    expect(find('load.limit')?.default).toEqual({ of: 'percent', percent: 20 });
    expect(find('workload.minutesPerDay')?.default).toBe(360);
    expect(find('weather.heatSum.greatlyReduced')?.default).toEqual({ at: 150, inclusive: false });
  });

  it('names somebody or some year wherever it claims a source', () => {
    const rows = [...CARE_RULE_SOURCES, ...Object.values(FINDING_SOURCES)];
    /** Two capitals in a row of words or letters, or a year. */
    const NAME_OR_YEAR = /[A-Z][^;:]*[A-Z]|\d{4}/;
    const unsourced = /^(own choice|common practice|no figure found)/i;
    for (const { source, grade } of rows) {
      if (grade === 'none') continue;
      expect(source).not.toMatch(unsourced);
      if (grade === 'A' || grade === 'B') expect(source).toMatch(NAME_OR_YEAR);
      if (grade === 'memory') expect(source).toContain('from memory');
    }
  });
});

describe('schema', () => {
  it('gives every default for an empty record, and keeps what a barn has set', () => {
    expect(CareRules.parse({})).toEqual(DEFAULT_CARE_RULES);
    const own = CareRules.parse({
      load: { limit: { of: 'sixth' } },
      findings: { levels: { 'stone-out': 'wait' } },
    });
    expect(own.load.limit).toEqual({ of: 'sixth' });
    expect(own.load.unbalancedAddPercent).toBe(DEFAULT_CARE_RULES.load.unbalancedAddPercent);
    expect(own.findings.levels).toEqual({ 'stone-out': 'wait' });
  });

  it('survives the disk', () => {
    expect(CareRules.parse(JSON.parse(JSON.stringify(DEFAULT_CARE_RULES)))).toEqual(DEFAULT_CARE_RULES);
  });

  it.each([
    [{ load: { limit: { of: 'percent', percent: 30 } } }],
    [{ load: { limit: { of: 'percent', percent: NaN } } }],
    [{ load: { unbalancedAddPercent: -5 } }],
    [{ workload: { minutesPerDay: Infinity } }],
    [{ workload: { breakMinutes: 0 } }],
    [{ feetOrder: ['LF', 'LF', 'RF', 'RH'] }],
    [{ findings: { levels: { nail: 'never mind' } } }],
    [{ findings: { levels: { diagnosis: 'wait' } } }],
    [{ weather: { heatSum: { reduced: 130 } } }],
  ])('refuses %j', (input) => {
    expect(CareRules.safeParse(input).success).toBe(false);
  });
});
