/** One day's account. */
import type { Barn } from '../barn/barn.ts';
import type { Account, CorrectionRecord } from './account.ts';
import { alertsOf } from './alerts.ts';
import { afterOf, callsOf } from './after.ts';
import { changesOf } from './changes.ts';
import { findingsOf, holdsOf } from './holds.ts';
import { horsesOf } from './horses.ts';
import { lessonsOf } from './lessons.ts';
import { peopleOf } from './people.ts';
import { corrected, rideMinutes, wasRecorded } from './corrected.ts';
import { prepsOf } from './preps.ts';
import type { DayRecord } from './record.ts';
import { spareOf } from './spare.ts';
import { stagesTimed } from './stages.ts';
import { staysOf } from './stays.ts';

export type Around = {
  /** As it is now: where stalls are, and the rules for days that did not keep theirs. */
  readonly barn: Barn;
  /** All that put this date right, in the order it was said, from whichever day. */
  readonly corrections: readonly CorrectionRecord[];
  /** Whether a horse worked on the day before this date, the one before that, and so on. */
  readonly workedBefore: (horse: string) => readonly boolean[];
};

/**
 * What the day came to. Of a day under way: so far. Lessons count as they stood at the end: one that was moved is judged
 * by the time it was moved to.
 */
export function accountOfDay(record: DayRecord, { barn, corrections, workedBefore }: Around): Account {
  const rules = record.rules ?? barn.rules;
  const ours = corrections.filter(({ date }) => date === record.date);
  const day = corrected(record.day, ours);
  const right = { ...record, day };
  const stays = staysOf(right, ours);
  return {
    dates: [record.date],
    byTodaysRules: record.rules === null ? [record.date] : [],
    horses: horsesOf(right, rules, workedBefore, rideMinutes(ours)),
    people: peopleOf(right, day, stays),
    stays,
    lessons: lessonsOf(right, day, rules),
    findings: findingsOf(record),
    holds: holdsOf(record),
    ...stagesTimed(record, barn),
    changes: changesOf(record),
    spare: spareOf(day, rules),
    after: afterOf(record.date, day),
    preps: prepsOf(day, rules),
    calls: callsOf(record),
    alerts: [alertsOf(record, rules.care)],
    corrections: ours.map((one) => ({ ...one, was: wasRecorded(record.day, one.correction) })),
  };
}
