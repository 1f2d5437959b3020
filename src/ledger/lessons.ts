/** Was each horse at the ramp in time? From the taps that finished its stages. */
import type { Lesson, Place } from '../barn/lesson.ts';
import type { Rules } from '../barn/rules.ts';
import type { Day, Prep } from '../day/board.ts';
import { stagesOf } from '../day/pieces.ts';
import { markOf, placeRamp, prepOf } from '../day/preps.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { HorseReady, LessonRecord } from './account.ts';
import { holdsOf, wasPulled } from './holds.ts';
import type { DayRecord } from './record.ts';

/** By start. `day` is the record's, with its corrections. */
export function lessonsOf(record: DayRecord, day: Day, rules: Rules): LessonRecord[] {
  const holds = holdsOf(record);
  return Object.values(day.lessons)
    .map((lesson): LessonRecord => {
      const isToCome = record.now !== null && lesson.start > record.now;
      return {
        date: record.date,
        lesson: lesson.id,
        name: lesson.name,
        start: lesson.start,
        minutes: lesson.minutes,
        state: lesson.cancelled ? 'cancelled' : isToCome ? 'toCome' : 'held',
        horses: lesson.cancelled
          ? []
          : lesson.places.flatMap((place) =>
              readiness(day, rules, lesson, place, wasPulled(holds, place.horse, lesson.start)),
            ),
      };
    })
    .sort((a, b) => a.start - b.start || (a.lesson < b.lesson ? -1 : 1));
}

function readiness(day: Day, rules: Rules, lesson: Lesson, place: Place, pulled: boolean): HorseReady[] {
  const { id, horse } = place;
  if (place.cancelled || horse === null) return [];
  const known = { place: id, horse, ramp: placeRamp(day, lesson, place, rules) };
  if (pulled) return [{ ...known, readyAt: null, unknown: 'pulled' }];
  const prep = prepOf(day, lesson.id, id);
  const marks = prep ? stagesOf(prep).map((stage) => markOf(asItWas(prep, lesson.start), stage)) : [];
  if (marks.length === 0 || marks.some((mark) => !mark)) {
    return [{ ...known, readyAt: null, unknown: 'notTapped' }];
  }
  if (marks.some((mark) => mark?.untimed)) return [{ ...known, readyAt: null, unknown: 'noTime' }];
  return [{ ...known, readyAt: Math.max(...marks.map((mark) => mark?.at ?? 0)), unknown: null }];
}

/** Untacked later, a horse was tacked all the same for the lesson that began at `start` (ms). */
function asItWas(prep: Prep, start: number): Prep {
  return { ...prep, marks: { ...prep.marks, untack: prep.marks.untack.filter(({ at }) => at <= start) } };
}

/** Whether a lesson's horses were ready in time. `lateMs`: of the last of them. */
export type OnTime =
  | { readonly kind: 'onTime' | 'cancelled' | 'toCome' | 'noHorses' }
  | { readonly kind: 'late'; readonly lateMs: number }
  | { readonly kind: 'unknown'; readonly horses: number };

/** One horse known to be late makes the lesson late; else one not known makes it unknown. A pulled horse is not waited for. */
export function onTime({ state, horses }: Pick<LessonRecord, 'state' | 'horses'>): OnTime {
  if (state !== 'held') return { kind: state };
  const waited = horses.filter((one) => one.unknown !== 'pulled');
  if (waited.length === 0) return { kind: 'noHorses' };
  const lateMs = Math.max(...waited.map(({ ramp, readyAt }) => (readyAt === null ? 0 : readyAt - ramp)));
  if (lateMs > 0) return { kind: 'late', lateMs };
  const unknown = waited.filter((one) => one.readyAt === null).length;
  return unknown > 0 ? { kind: 'unknown', horses: unknown } : { kind: 'onTime' };
}

/**
 * Lessons a horse worked in: held, not cancelled for it, and it was not off work when they began; as long as `ridden` says, or
 * else the whole lesson. By start.
 */
export function lessonsWorked(
  record: DayRecord,
  ridden: (lesson: string, horse: string) => number | null = () => null,
): ReadonlyMap<string, Lesson[]> {
  const holds = holdsOf(record);
  const worked = new Map<string, Lesson[]>();
  const lessons = Object.values(record.day.lessons).toSorted((a, b) => a.start - b.start);
  for (const lesson of lessons) {
    const soFar = lengthSoFar(lesson, record.now);
    if (lesson.cancelled || soFar === null) continue;
    for (const { horse, cancelled } of lesson.places) {
      if (horse === null || cancelled || wasPulled(holds, horse, lesson.start)) continue;
      const minutes = ridden(lesson.id, horse) ?? soFar;
      if (minutes > 0) worked.set(horse, [...(worked.get(horse) ?? []), { ...lesson, minutes }]);
    }
  }
  return worked;
}

/** Of an open day's lesson only the minutes so far; null: it has not begun. */
export function lengthSoFar({ start, minutes }: Lesson, now: number | null): number | null {
  if (now === null) return minutes;
  return start >= now ? null : Math.min(minutes, (now - start) / MINUTE_MS);
}
