/** The scores themselves, against published examples. */
import { describe, expect, test } from 'vitest';
import { baseRateScore, brierScore, reliability, reliabilityTerm } from './verification.ts';
import { sourceOfAll } from '../source.ts';

sourceOfAll('Brier 1950, Monthly Weather Review 78 (from memory)', 'Murphy 1973 (from memory)');

describe('Brier score', () => {
  test('ten forecasts of rain: Brier 1950, table 1, P = 0.19 over both classes (from memory)', () => {
    const chances = [0.7, 0.9, 0.8, 0.4, 0.2, 0, 0, 0, 0, 0.1];
    const rain = new Set([1, 2, 3]);
    const forecasts = chances.map((chance, i) => ({ chance, came: rain.has(i) }));
    const dry = forecasts.map(({ chance, came }) => ({ chance: 1 - chance, came: !came }));
    expect(brierScore(forecasts) + brierScore(dry)).toBeCloseTo(0.19, 12);
  });

  test('single forecasts: 70 % and rain 0.09, 30 % and rain 0.49, one half 0.25 (common encyclopaedia example)', () => {
    expect(brierScore([{ chance: 0.7, came: true }])).toBeCloseTo(0.09, 12);
    expect(brierScore([{ chance: 0.3, came: true }])).toBeCloseTo(0.49, 12);
    expect(brierScore([{ chance: 0.5, came: false }])).toBeCloseTo(0.25, 12);
  });

  test('parts into reliability − resolution + uncertainty where chances within a bin are equal (Murphy 1973)', () => {
    const forecasts = [
      ...[true, true, true, false].map((came) => ({ chance: 0.85, came })),
      ...[true, false, false, false, false].map((came) => ({ chance: 0.35, came })),
    ];
    const rows = reliability(forecasts);
    const base = 4 / 9;
    const resolution = (4 * (0.75 - base) ** 2 + 5 * (0.2 - base) ** 2) / 9;
    expect(rows.map((row) => row.rate)).toEqual([0.2, 0.75]);
    expect(brierScore(forecasts)).toBeCloseTo(
      reliabilityTerm(rows) - resolution + baseRateScore(forecasts),
      12,
    );
  });
});
