/** When a tablet is dark. The hours are the project's own. */
import { expect, it } from 'vitest';
import { themeAt } from '#core/sight/theme.ts';
import { instantAt } from '#core/time/zone.ts';

const ZONE = 'America/Denver';
const at = (time: string): number => instantAt({ date: '2026-06-13', time }, ZONE);

it('follows the barn’s clock, in the barn’s zone', () => {
  const looks = ['00:00', '05:59', '06:00', '13:00', '19:59', '20:00'].map((time) =>
    themeAt('clock', at(time), ZONE, 'day'),
  );
  expect(looks).toEqual(['night', 'night', 'day', 'day', 'day', 'night']);
});

it('stays as somebody has set it, at any hour', () => {
  for (const time of ['00:00', '13:00']) {
    expect(themeAt('day', at(time), ZONE, 'day')).toBe('day');
    expect(themeAt('night', at(time), ZONE, 'day')).toBe('night');
  }
});

it('stays as it was until a barn is known', () => {
  expect(themeAt('clock', at('00:00'), null, 'day')).toBe('day');
  expect(themeAt('clock', at('12:00'), null, 'night')).toBe('night');
});
