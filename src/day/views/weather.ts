/** What boards show of the weather: the newest reading, what the barn's bands make of it, and how old it is. */
import { LESSON_LEVELS, adviseWeather, type WeatherAdvice, type WeatherReason } from '../../care/weather.ts';
import { MINUTE_MS } from '../../time/units.ts';
import type { Board, WeatherNote } from '../board.ts';
import { personName } from './aisle.ts';

export type WeatherShown = Pick<WeatherNote, 'reading' | 'at'> & {
  /** Who read it; null: nobody gave a name. */
  readonly by: string | null;
  readonly ageMs: number;
  /** Older than the barn's rule: the figures still stand there, and that somebody should read again. */
  readonly isOld: boolean;
  readonly advice: WeatherAdvice;
  /** What asks for the strictest level; null: nothing asks for anything. */
  readonly worst: WeatherReason | null;
};

/** At barn time `now` in ms; null: nobody has read the weather today. */
export function weatherNow(board: Board, now: number): WeatherShown | null {
  const note = board.day.weather.at(-1);
  if (!note) return null;
  const rules = board.barn.rules.care.weather;
  const advice = adviseWeather(rules, note.reading);
  if (advice.kind === 'cannot-say') return null;
  const rank = ({ level }: WeatherReason): number => LESSON_LEVELS.indexOf(level);
  const asking = advice.why.filter((reason) => rank(reason) > 0);
  return {
    reading: note.reading,
    at: note.at,
    by: note.by === null ? null : personName(board, note.by),
    ageMs: Math.max(0, now - note.at),
    isOld: now - note.at > rules.oldAfterMinutes * MINUTE_MS,
    advice,
    worst: asking.toSorted((a, b) => rank(b) - rank(a))[0] ?? null,
  };
}
