/** What was done after the lessons, and who was called for help in the day. */
import type { AfterStage } from '../barn/stage.ts';
import type { Day, Prep } from '../day/board.ts';
import { markOf } from '../day/preps.ts';
import type { AfterRecord, CallRecord } from './account.ts';
import { ofKind, standing, type DayRecord } from './record.ts';

/** By horse, of every prep that was tacked: each is untacked and put away, or the horse goes on to other tack. */
export function afterOf(date: string, day: Day): AfterRecord[] {
  return Object.values(day.preps)
    .filter((prep) => prep.marks.tack.length > 0)
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .map((prep) => ({
      date,
      horse: prep.horse,
      untack: done(prep, 'untack'),
      cool: done(prep, 'cool'),
      look: done(prep, 'look'),
      away: done(prep, 'away'),
    }));
}

function done(prep: Prep, stage: AfterStage): AfterRecord['away'] {
  const mark = markOf(prep, stage);
  return mark ? { at: mark.untimed ? null : mark.at, by: mark.by } : null;
}

export function callsOf({ date, entries }: DayRecord): CallRecord[] {
  const all = standing(entries);
  const answers = ofKind(all, 'helpAnswered');
  return ofKind(all, 'helpAsked').map(({ id, by, at, fact }) => ({
    date,
    at,
    horse: fact.horse,
    kind: fact.call,
    by,
    answeredAt: answers.find((one) => one.fact.help === id)?.at ?? null,
  }));
}
