/** Findings and readings under way on a tablet, before anything is told. */
import './english.ts';
import { describe, expect, test } from 'vitest';
import { BODY_PLACES } from '#core/care/findings.ts';
import { DEFAULT_FEET_ORDER } from '#core/care/feetOrder.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Fact } from '#core/day/ops.ts';
import { entry, smallBoard } from '../../properties/day-arbitraries.ts';
import {
  countVital,
  leaveVital,
  NOTHING_COUNTED,
  vitalOf,
} from '../../../kiosk/src/lib/parts/care/vitalForm.ts';
import { formFrom, leftOut, readingFrom, stepped } from '../../../kiosk/src/lib/parts/care/weatherForm.ts';
import { CELLS, sideOf } from '../../../kiosk/src/lib/parts/findings/body.ts';
import {
  choicesFor,
  findingsIn,
  isAllLooked,
  restFine,
  setFine,
  withFinding,
  withoutKind,
} from '../../../kiosk/src/lib/parts/findings/feet.ts';
import { proposedPull, pullFacts, withHold } from '../../../kiosk/src/lib/parts/findings/proposed.ts';

describe('four feet', () => {
  const sprung = { on: 'foot', foot: 'RF', kind: 'shoe-sprung' } as const;

  test('a bare foot is not asked about its shoe; nail, stone and heat are asked on all', () => {
    const kinds = (care: 'shod' | 'barefoot') => choicesFor('LF', care).map(({ kind }) => kind);
    expect(kinds('shod')).toEqual(expect.arrayContaining(['shoe-lost', 'clinches-risen', 'nail', 'heat']));
    expect(kinds('barefoot').some((kind) => kind.startsWith('shoe') || kind === 'clinches-risen')).toBe(
      false,
    );
    expect(kinds('barefoot')).toEqual(expect.arrayContaining(['nail', 'stone', 'crack', 'heat']));
  });

  test('all must be looked at; "the others are fine" leaves what was seen', () => {
    const seen = withFinding({}, sprung);
    expect(isAllLooked(seen, DEFAULT_FEET_ORDER)).toBe(false);
    const all = restFine(seen, DEFAULT_FEET_ORDER);
    expect(isAllLooked(all, DEFAULT_FEET_ORDER)).toBe(true);
    expect(findingsIn(all, DEFAULT_FEET_ORDER)).toEqual([sprung]);
  });

  test('a kind stands once on a foot, and taken off leaves the foot to be looked at again', () => {
    const stone = (cameOut: boolean) => ({ on: 'foot', foot: 'LH', kind: 'stone', cameOut }) as const;
    const twice = withFinding(withFinding({}, stone(false)), stone(true));
    expect(twice.LH).toEqual([stone(true)]);
    expect(withoutKind(twice, 'LH', 'stone').LH).toBeUndefined();
    expect(setFine(twice, 'LH').LH).toEqual([]);
  });
});

test('each place of the body has one cell of its own, and the middle line has no side', () => {
  expect(CELLS.map(({ place }) => place).toSorted()).toEqual([...BODY_PLACES].toSorted());
  expect(new Set(CELLS.map(({ column, row }) => `${column} ${row}`)).size).toBe(CELLS.length);
  expect([sideOf('back', 'left'), sideOf('girth', 'left'), sideOf('girth', 'right')]).toEqual([
    'middle',
    'left',
    'right',
  ]);
});

describe('a pull', () => {
  const found = (...facts: Fact[]) =>
    facts.reduce((b, fact, i) => evolve(b, entry(100 + i, fact)), smallBoard());
  const seen = (finding: Extract<Fact, { kind: 'findingSeen' }>['finding']): Fact => ({
    kind: 'findingSeen',
    horse: 'fern',
    finding,
    words: '',
  });
  const nail = seen({ on: 'foot', foot: 'LF', kind: 'nail' });
  const lost = seen({ on: 'foot', foot: 'RF', kind: 'shoe-lost' });

  test('is proposed for the vet and the farrier together when both are called for', () => {
    expect(proposedPull(found(), 'fern')).toBeNull();
    expect(proposedPull(found(lost), 'fern')?.holds).toEqual(['farrier']);
    const both = proposedPull(found(lost, nail, seen({ on: 'vital', kind: 'pulse', countIn15s: 9 })), 'fern');
    expect(both?.holds).toEqual(['vet', 'farrier']);
    // A pulse within its range is no reason.
    expect(both?.why).not.toContain('Pulse');
    expect(pullFacts('fern', 'nail', both?.holds ?? []).map(({ hold }) => hold)).toEqual(['vet', 'farrier']);
  });

  test('a person may choose otherwise; one hold always stays', () => {
    expect(withHold(['vet', 'farrier'], 'vet')).toEqual(['farrier']);
    expect(withHold(['farrier'], 'vet')).toEqual(['vet', 'farrier']);
    expect(withHold(['vet'], 'vet')).toEqual(['vet']);
    expect(withHold(['vet', 'farrier'], 'today')).toEqual(['today']);
    expect(withHold(['today'], 'farrier')).toEqual(['farrier']);
  });
});

describe('vital signs', () => {
  test('are counted over 15 s and measured in the barn’s degrees', () => {
    const counted = countVital(countVital(NOTHING_COUNTED, 'pulse', 0, '°F'), 'pulse', 1, '°F');
    expect(vitalOf(counted, 'pulse', '°F')).toEqual({ on: 'vital', kind: 'pulse', countIn15s: 10 });
    expect(vitalOf(leaveVital(counted, 'pulse'), 'pulse', '°F')).toBeNull();
    const warm = countVital(countVital(NOTHING_COUNTED, 'temperature', 0, '°C'), 'temperature', 1, '°C');
    // 38.1 °C and a tenth more is 38.2 °C: 100.76 °F.
    expect(vitalOf(warm, 'temperature', '°C')).toMatchObject({ fahrenheit: 100.76 });
    expect(vitalOf(countVital(counted, 'pulse', -99, '°F'), 'pulse', '°F')).toMatchObject({ countIn15s: 0 });
  });
});

describe('the weather typed in', () => {
  const metric = { temperatureUnit: '°C', windUnit: 'm/s' } as const;

  test('in the barn’s units, from the last reading on', () => {
    const form = formFrom(metric, { airF: 86, humidityPercent: 55, windMph: 6.71 });
    expect(form).toEqual({ air: 30, humidity: 55, wind: 3, wbgt: null });
    // 31 °C is 87.8 °F; 3 m/s are 10.8 km/h, 6.71 mph.
    expect(readingFrom(metric, stepped(metric, form, 'air', 1))).toEqual({
      airF: 87.8,
      humidityPercent: 55,
      windMph: 6.71,
    });
  });

  test('wind and globe may be left out; no value leaves what can be believed', () => {
    const mild = formFrom(metric, null);
    expect(readingFrom(metric, leftOut(mild, 'wind')).windMph).toBeNull();
    const measured = stepped(metric, mild, 'wbgt', 0);
    expect(readingFrom(metric, measured).wbgtC).toBe(20);
    expect(stepped(metric, mild, 'humidity', 999).humidity).toBe(100);
    expect(readingFrom(metric, stepped(metric, mild, 'air', 999)).airF).toBeLessThanOrEqual(130);
    expect(stepped(metric, mild, 'wind', -99).wind).toBe(0);
  });
});
