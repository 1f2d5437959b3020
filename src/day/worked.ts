/** What horses did on the days before: the rules about days in a row, days a week and rest look back on it. */
import { own } from '../barn/basics.ts';
import { dateOfDayNumber, dayNumber } from '../care/civilDate.ts';
import type { Board, Day, DayWork } from './board.ts';
import { KEPT_DAYS_WORKED } from './kept.ts';
import type { Lesson } from '../barn/lesson.ts';
import { judgeWorkload, type WorkloadVerdict } from '../care/workload.ts';
import { MINUTE_MS } from '../time/units.ts';
import { arenaWork } from './arenaWork.ts';
import { liveBookings } from './preps.ts';

/** Lessons and minutes of each horse on this day, as its places stand. Two places of one lesson count once. */
export function workOf(day: Day): DayWork['horses'] {
  const lessons = new Map<string, Map<string, number>>();
  for (const { lesson, place } of liveBookings(day)) {
    if (place.horse === null) continue;
    const its = lessons.get(place.horse) ?? new Map<string, number>();
    lessons.set(place.horse, its.set(lesson.id, lesson.minutes));
  }
  return Object.fromEntries(
    [...lessons].map(([horse, its]) => [
      horse,
      { lessons: its.size, minutes: [...its.values()].reduce((sum, one) => sum + one, 0) },
    ]),
  );
}

/** The days known before, with this one that is now over. A date twice over counts once, as it was last. */
export function withDayWorked(worked: readonly DayWork[], day: Day): DayWork[] {
  if (day.date === null) return [...worked];
  const { date } = day;
  const others = worked.filter((one) => one.date !== date);
  return [...others, { date, horses: workOf(day) }]
    .sort((a, b) => (a.date < b.date ? -1 : 1))
    .slice(-KEPT_DAYS_WORKED);
}

/** Whether a horse worked yesterday, the day before, and so on. A day that was not opened was a day of rest. */
export function daysBefore({ worked, day }: Pick<Board, 'worked' | 'day'>, horse: string): boolean[] {
  const today = day.date === null ? null : dayNumber(day.date);
  if (today === null) return [];
  return Array.from({ length: KEPT_DAYS_WORKED }, (_, i) => {
    const date = dateOfDayNumber(today - 1 - i);
    const work = worked.find((one) => one.date === date);
    return work !== undefined && (own(work.horses, horse)?.minutes ?? 0) > 0;
  });
}

/** The barn's rules of work on a horse that is in these lessons of today, at `now` (ms), and was in those of days before. */
export function judgeHorseDay(
  board: Board,
  horse: string,
  lessons: readonly Lesson[],
  now: number,
): WorkloadVerdict {
  const { rules } = board.barn;
  const intervals = arenaWork(lessons, rules.sharedPrepGapMinutes * MINUTE_MS);
  return judgeWorkload(rules.care.workload, {
    worked: intervals.filter((one) => one.fromMs <= now),
    planned: intervals.filter((one) => one.fromMs > now),
    proposed: null,
    workedOnDaysBefore: daysBefore(board, horse),
  });
}
