/** How long stages took, of those that were measured: tapped at their start and at their end, by one person. */
import type { Barn } from '../barn/barn.ts';
import { dayHistory } from '../plan/history.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { Account, StageFigures } from './account.ts';
import type { DayRecord } from './record.ts';

/** What can be measured is decided where stage times are learned, in `src/plan/durations/observation.ts`. */
export function stagesTimed(record: DayRecord, barn: Barn): Pick<Account, 'stages' | 'notMeasured'> {
  const { history, leftOut } = dayHistory({ barn, day: record.day }, record.entries);
  const stages = history.observations.map(({ stage, horse, person, minutes }): StageFigures => {
    const ms = Math.round(minutes * MINUTE_MS);
    return { stage, horse, person, count: 1, totalMs: ms, shortestMs: ms, longestMs: ms };
  });
  // Undone or not finished is no stage that was done.
  const done = leftOut.filter(({ because }) => because !== 'undone' && because !== 'unfinished');
  return {
    stages: summed(stages, (one) => `${one.stage}/${one.horse}/${one.person}`, addStages),
    notMeasured: summed(
      done.map(({ because }) => ({ because: because as string, count: 1 })),
      (one) => one.because,
      (a, b) => ({ ...a, count: a.count + b.count }),
    ),
  };
}

export function addStages(a: StageFigures, b: StageFigures): StageFigures {
  return {
    ...a,
    count: a.count + b.count,
    totalMs: a.totalMs + b.totalMs,
    shortestMs: Math.min(a.shortestMs, b.shortestMs),
    longestMs: Math.max(a.longestMs, b.longestMs),
  };
}

/** Those alike in `key` added up, in the order of their keys. */
export function summed<T>(all: readonly T[], key: (one: T) => string, add: (a: T, b: T) => T): T[] {
  const sums = new Map<string, T>();
  for (const one of all) {
    const sum = sums.get(key(one));
    sums.set(key(one), sum === undefined ? one : add(sum, one));
  }
  return [...sums].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, one]) => one);
}

/** Measured stages by one of stage, horse and person. */
export function stagesBy(
  stages: readonly StageFigures[],
  what: 'stage' | 'horse' | 'person',
): (Omit<StageFigures, 'stage' | 'horse' | 'person'> & { key: string })[] {
  return summed(stages, (one) => one[what], addStages).map((one) => ({ ...one, key: one[what] }));
}
