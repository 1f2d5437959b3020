/** The same weekday in the weeks before, lived through in a moment and put by, so that weeks and terms have something to show. */
import { join } from 'node:path';
import { dateAfter } from '#core/time/dates.ts';
import { DAYS_FOLDER, keptDay, writeDay } from '../hub/storage/keptDay.ts';
import { simulateDay } from './simulate.ts';

/** As many as the book's term has before the day that is played. */
const WEEKS = 3;

/** Writes them into the hub's folder. The same date and seed give the same days. */
export async function putPastDaysBy(folder: string, date: string, seed: number): Promise<void> {
  for (let week = WEEKS; week > 0; week -= 1) {
    const past = dateAfter(date, -7 * week);
    const { board, entries } = simulateDay({ date: past, seed: seed + week });
    const closed = {
      day: { ...board.day, date: past },
      from: 1,
      to: entries.length,
      rules: board.barn.rules,
    };
    await writeDay(join(folder, DAYS_FOLDER), keptDay(closed, entries));
  }
}
