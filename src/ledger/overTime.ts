/** An account of several days cut into steps of time: what a month or a term looked like, day by day or week by week. */
import type { Account } from './account.ts';
import { onTime } from './lessons.ts';
import { weekOf } from './range.ts';

export type Step = {
  /** First date of it. */
  readonly from: string;
  /** Lessons that were held, and those of them that were late. */
  readonly lessons: number;
  readonly late: number;
  /** All horses' work, by the barn's rules, and all volunteers' presence; ms. */
  readonly horsesMs: number;
  readonly peopleMs: number;
};

export type OverTime = { readonly by: 'day' | 'week'; readonly steps: readonly Step[] };

/** As many days as stand side by side on a page. Own choice, no source. */
const MOST_DAYS = 31;

/** Dates without a record are no step. */
export function overTime(account: Account): OverTime {
  const by = account.dates.length > MOST_DAYS ? 'week' : 'day';
  const firstOf = (date: string): string => (by === 'day' ? date : (weekOf(date)?.from ?? date));
  const steps = new Map<string, Step>();
  const add = (date: string, more: Partial<Omit<Step, 'from'>>): void => {
    const from = firstOf(date);
    const was = steps.get(from) ?? { from, lessons: 0, late: 0, horsesMs: 0, peopleMs: 0 };
    steps.set(from, {
      from,
      lessons: was.lessons + (more.lessons ?? 0),
      late: was.late + (more.late ?? 0),
      horsesMs: was.horsesMs + (more.horsesMs ?? 0),
      peopleMs: was.peopleMs + (more.peopleMs ?? 0),
    });
  };
  for (const date of account.dates) add(date, {});
  for (const lesson of account.lessons) {
    if (lesson.state !== 'held') continue;
    add(lesson.date, { lessons: 1, late: onTime(lesson).kind === 'late' ? 1 : 0 });
  }
  for (const { days } of account.horses) for (const { date, ms } of days) add(date, { horsesMs: ms });
  for (const { date, ms } of account.stays) add(date, { peopleMs: ms });
  return { by, steps: [...steps.values()].sort((a, b) => (a.from < b.from ? -1 : 1)) };
}

/** Each horse's longest day in the arena by the barn's rules, ms; in the account's order. */
export function longestDays({ horses }: Account): readonly { readonly horse: string; readonly ms: number }[] {
  return horses.map(({ horse, days }) => ({ horse, ms: Math.max(0, ...days.map(({ ms }) => ms)) }));
}
