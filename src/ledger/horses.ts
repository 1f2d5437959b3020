/** How much each horse worked, against the barn's limits for the day and the week. */
import type { Lesson } from '../barn/lesson.ts';
import type { Rules } from '../barn/rules.ts';
import { judgeWorkload, type WorkloadVerdict } from '../care/workload.ts';
import { arenaWork } from '../day/arenaWork.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { HorseFigures } from './account.ts';
import { lessonsWorked } from './lessons.ts';
import type { DayRecord } from './record.ts';

/** `ridden`: minutes a horse really went in a lesson; null: as long as the lesson. `workedBefore`: whether a horse worked yesterday, the day before, and so on. */
export function horsesOf(
  record: DayRecord,
  rules: Rules,
  workedBefore: (horse: string) => readonly boolean[],
  ridden: (lesson: string, horse: string) => number | null = () => null,
): HorseFigures[] {
  return [...lessonsWorked(record, ridden)]
    .map(([horse, lessons]): HorseFigures => {
      const verdict = judge(rules, lessons, workedBefore(horse));
      const lessonMs = lengthOf(judge(withWait(rules, false), lessons, []));
      const figures = verdict.kind === 'cannot-say' ? null : verdict.figures;
      const over = verdict.kind === 'does-not-fit' ? verdict.over : [];
      return {
        horse,
        lessons: lessons.length,
        lessonMs,
        waitingMs: lengthOf(judge(withWait(rules, true), lessons, [])) - lessonMs,
        days: [{ date: record.date, ms: lengthOf(verdict), daysInWeek: figures?.daysInWeek ?? 0 }],
        over: over.map((one) => ({ date: record.date, ...one })),
      };
    })
    .sort((a, b) => (a.horse < b.horse ? -1 : 1));
}

function judge(rules: Rules, lessons: readonly Lesson[], before: readonly boolean[]): WorkloadVerdict {
  return judgeWorkload(rules.care.workload, {
    worked: arenaWork(lessons, rules.sharedPrepGapMinutes * MINUTE_MS),
    planned: [],
    proposed: null,
    workedOnDaysBefore: before,
  });
}

function withWait(rules: Rules, arenaWaitCounts: boolean): Rules {
  return { ...rules, care: { ...rules.care, workload: { ...rules.care.workload, arenaWaitCounts } } };
}

function lengthOf(verdict: WorkloadVerdict): number {
  return verdict.kind === 'cannot-say' ? 0 : Math.round(verdict.figures.minutesToday * MINUTE_MS);
}
