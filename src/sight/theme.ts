/** Light or dark look of a tablet: dark letters on light read best by day, a dark glass dazzles less in a dark barn. */
import { wallTimeAt } from '../time/zone.ts';

export const THEME_CHOICES = ['clock', 'day', 'night'] as const;
export type ThemeChoice = (typeof THEME_CHOICES)[number];
export type Theme = 'day' | 'night';

/** By the clock it is night from 20:00 to 06:00 in the barn: common practice, no source. */
const NIGHT_FROM = '20:00';
const NIGHT_TO = '06:00';

/** The look at `now` (ms) in the barn's zone; without a zone there is no barn clock yet, and it stays as it was. */
export function themeAt(choice: ThemeChoice, now: number, zone: string | null, before: Theme): Theme {
  if (choice !== 'clock') return choice;
  if (zone === null) return before;
  const { time } = wallTimeAt(now, zone);
  return time >= NIGHT_FROM || time < NIGHT_TO ? 'night' : 'day';
}
