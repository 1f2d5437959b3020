/** How findings add up, and how a barn changes a row. */
import { describe, expect, it } from 'vitest';
import { advise, levelOf } from '#core/care/advise.ts';
import { FindingsRules } from '#core/care/findingLevels.ts';
import { CareRules } from '#core/care/rulesOfCare.ts';
import { Finding } from '#core/care/findings.ts';
import { release } from '#core/care/release.ts';

const plain = CareRules.parse({});
const shoe = { on: 'foot', foot: 'LF', kind: 'shoe-lost' } satisfies Finding;
const nail = { on: 'foot', foot: 'RH', kind: 'nail' } satisfies Finding;

describe('advise', () => {
  it('is clear with nothing found, and with a calm horse', () => {
    const clear = { level: 'clear', whom: 'instructor', holds: [], handling: [] };
    expect(advise([], plain)).toMatchObject(clear);
    expect(advise([{ on: 'manner', kind: 'calm' }], plain)).toMatchObject(clear);
  });

  it('keeps both holds when vet and farrier are called for', () => {
    const advice = advise([shoe, nail], plain);
    expect(advice).toMatchObject({ level: 'call-now', whom: 'vet', holds: ['until-vet', 'until-farrier'] });
    expect(advice.why.map((why) => why.rule)).toEqual(['nail', 'shoe-lost']);
  });

  it('gathers the feet of one reason', () => {
    const advice = advise([shoe, { ...shoe, foot: 'RF' }, shoe], plain);
    expect(advice.why).toEqual([
      { rule: 'shoe-lost', level: 'off-today', whom: 'farrier', where: ['LF', 'RF'] },
    ]);
  });

  it('takes the barn’s places for tack', () => {
    const bareback = CareRules.parse({ findings: { tackPlaces: ['back'] } });
    const sore = { on: 'body', place: 'girth', side: 'left', kind: 'sore' } satisfies Finding;
    expect(advise([sore], plain).level).toBe('off-today');
    expect(advise([sore], bareback).level).toBe('wait');
  });
});

describe('a row set by the barn', () => {
  it('becomes stricter or milder', () => {
    const own = CareRules.parse({ findings: { levels: { 'stone-out': 'off-today', 'shoe-lost': 'wait' } } });
    expect(advise([{ on: 'foot', foot: 'LF', kind: 'stone', cameOut: true }], own)).toMatchObject({
      level: 'off-today',
      holds: ['until-instructor'],
    });
    expect(advise([shoe], own)).toMatchObject({
      level: 'wait',
      whom: 'farrier',
      holds: ['until-instructor'],
    });
  });

  it('names the vet when "call now" would have nobody to call', () => {
    const own = CareRules.parse({ findings: { levels: { unsettled: 'call-now' } } });
    expect(advise([{ on: 'manner', kind: 'unsettled' }], own)).toMatchObject({
      whom: 'vet',
      holds: ['until-vet'],
    });
  });

  it('stops at the floor of an emergency', () => {
    expect(levelOf(FindingsRules.parse({ levels: { nail: 'carry-on' } }), 'nail')).toBe('off-today');
    expect(levelOf(FindingsRules.parse({ levels: { 'shoe-lost': 'carry-on' } }), 'shoe-lost')).toBe(
      'carry-on',
    );
  });
});

describe('records', () => {
  it.each([
    [{ on: 'foot', foot: 'LB', kind: 'heat' }],
    [{ on: 'foot', foot: 'LF', kind: 'crack' }],
    [{ on: 'foot', foot: 'LF', kind: 'stone' }],
    [{ on: 'foot', foot: 'LF', kind: 'heat', dose: '10 ml' }],
    [{ on: 'body', place: 'leg', side: 'left', kind: 'rub' }],
    [{ on: 'gait', kind: 3 }],
    ['nail'],
    [null],
  ])('refuses %j', (input) => {
    expect(Finding.safeParse(input).success).toBe(false);
  });
});

describe('release', () => {
  const vetWord = { enteredBy: 'coordinator', wordOf: 'vet', name: 'Dr Ode' } as const;
  it('lifts a vet’s hold by the vet’s word alone', () => {
    expect(release(['until-vet', 'until-farrier'], vetWord)).toEqual({
      kind: 'released',
      holds: ['until-vet'],
    });
    expect(release(['until-vet'], { ...vetWord, wordOf: 'instructor' })).toEqual({
      kind: 'refused',
      because: 'no-such-hold',
    });
    expect(release(['until-vet'], { ...vetWord, wordOf: 'farrier' }).kind).toBe('refused');
  });
  it('lifts an instructor’s hold by instructor or coordinator', () => {
    for (const wordOf of ['instructor', 'coordinator'] as const) {
      expect(release(['until-instructor'], { ...vetWord, wordOf }).kind).toBe('released');
    }
  });
  it('wants a name, and not a volunteer’s hand', () => {
    expect(release(['until-vet'], { ...vetWord, name: '  ' })).toEqual({
      kind: 'refused',
      because: 'needs-a-name',
    });
    expect(release(['until-vet'], { ...vetWord, enteredBy: 'volunteer' })).toEqual({
      kind: 'refused',
      because: 'not-yours-to-enter',
    });
  });
});
