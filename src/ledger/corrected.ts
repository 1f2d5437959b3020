/** A day as it was put right since: every correction beside what was recorded, of several about the same thing the last. */
import { own, put } from '../barn/basics.ts';
import type { Day, Mark } from '../day/board.ts';
import type { Correction } from '../day/ops.ts';
import { lessonEnd, markOf } from '../day/preps.ts';
import { finishOnPaper } from '../day/work.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { CorrectionRecord } from './account.ts';

/** The day with what came to light on paper, stages at their real times, and lessons as they were really held. */
export function corrected(day: Day, corrections: readonly CorrectionRecord[]): Day {
  return corrections.reduce(correctedBy, day);
}

function correctedBy(day: Day, { id, at, by, correction }: CorrectionRecord): Day {
  switch (correction.about) {
    case 'stages': {
      const stamp = { id, by, at, tappedAt: at, device: 'ledger' };
      return correction.done.reduce((next, written) => {
        const prep = own(next.preps, written.prep);
        return prep
          ? { ...next, preps: put(next.preps, prep.id, finishOnPaper(day, prep, written, stamp)) }
          : next;
      }, day);
    }
    case 'stage': {
      const prep = own(day.preps, correction.prep);
      if (!prep) return day;
      // Of the tack list it had on: that was right.
      const tack = markOf(prep, correction.stage)?.tack ?? prep.tack;
      const marks: Mark[] =
        correction.at === null ? [] : [{ op: id, by: correction.by, at: correction.at, tack }];
      return {
        ...day,
        preps: put(day.preps, prep.id, { ...prep, marks: { ...prep.marks, [correction.stage]: marks } }),
      };
    }
    case 'lesson': {
      const lesson = own(day.lessons, correction.lesson);
      if (!lesson) return day;
      const minutes = (correction.end - correction.start) / MINUTE_MS;
      const held = minutes > 0 ? { ...lesson, start: correction.start, minutes } : lesson;
      return { ...day, lessons: put(day.lessons, lesson.id, { ...held, cancelled: minutes === 0 }) };
    }
    case 'ride':
    case 'stay':
    case 'note':
      return day;
  }
}

/** What a correction is about as it was recorded; null: nothing was, or it shows elsewhere. */
export function wasRecorded(day: Day, correction: Correction): CorrectionRecord['was'] {
  switch (correction.about) {
    case 'stage': {
      const prep = own(day.preps, correction.prep);
      const mark = prep && markOf(prep, correction.stage);
      return mark ? { from: mark.untimed ? null : mark.at, until: null, by: mark.by } : null;
    }
    case 'lesson':
    case 'ride': {
      const lesson = own(day.lessons, correction.lesson);
      return lesson ? { from: lesson.start, until: lessonEnd(lesson), by: null } : null;
    }
    case 'stages':
    case 'stay':
    case 'note':
      return null;
  }
}

/** Minutes a horse really went in a lesson, where that was put right. */
export function rideMinutes(
  corrections: readonly CorrectionRecord[],
): (lesson: string, horse: string) => number | null {
  return (lesson, horse) => {
    const last = corrections.findLast(
      ({ correction }) =>
        correction.about === 'ride' && correction.lesson === lesson && correction.horse === horse,
    )?.correction;
    return last?.about === 'ride' ? last.minutes : null;
  };
}
