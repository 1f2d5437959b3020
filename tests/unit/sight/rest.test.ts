/** Dark hours, and the way a picture moves; the figures are the project's own. */
import { expect, test } from 'vitest';
import { isDarkHour, MOST_SHIFT_PX, shiftAt } from '#core/sight/rest.ts';

const at = (iso: string): number => Date.parse(iso);

test('dark hours go over midnight or not, by the barn’s own clock, summer and winter', () => {
  const night = { darkFromHour: 21, darkToHour: 6 };
  const denver = 'America/Denver';
  // Denver is 6 hours behind in June and 7 in January (IANA time zone database).
  for (const [instant, isDark] of [
    ['2026-06-02T02:59:00Z', false],
    ['2026-06-02T03:00:00Z', true],
    ['2026-06-02T11:59:00Z', true],
    ['2026-06-02T12:00:00Z', false],
    ['2026-01-02T03:59:00Z', false],
    ['2026-01-02T04:00:00Z', true],
  ] as const)
    expect(isDarkHour(night, at(instant), denver), instant).toBe(isDark);
  const noon = { darkFromHour: 12, darkToHour: 13 };
  expect(isDarkHour(noon, at('2026-06-02T12:59:00Z'), 'UTC')).toBe(true);
  expect(isDarkHour(noon, at('2026-06-02T13:00:00Z'), 'UTC')).toBe(false);
  for (const never of [
    { darkFromHour: null, darkToHour: 6 },
    { darkFromHour: 6, darkToHour: 6 },
  ])
    for (let hour = 0; hour < 24; hour += 1)
      expect(isDarkHour(never, at('2026-06-02T00:00:00Z') + hour * 3_600_000, 'UTC')).toBe(false);
});

test('the picture begins in its place, moves by one pixel, comes to every place and stays near', () => {
  expect(shiftAt(0)).toEqual({ x: 0, y: 0 });
  const places = new Set<string>();
  for (let step = 0; step < 200; step += 1) {
    const [now, next] = [shiftAt(step), shiftAt(step + 1)];
    expect(Math.abs(next.x - now.x) + Math.abs(next.y - now.y)).toBe(1);
    expect(Math.max(Math.abs(now.x), Math.abs(now.y))).toBeLessThanOrEqual(MOST_SHIFT_PX);
    places.add(`${now.x} ${now.y}`);
  }
  expect(places.size).toBe(25);
});
