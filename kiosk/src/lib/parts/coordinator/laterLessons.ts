/** Which lessons a change takes along. */
import type { Lesson } from '#core/barn/lesson.ts';
import type { Board } from '#core/day/board.ts';
import { areUp, outAt } from '#core/day/preps.ts';

/** Only this one; with the later ones in its arena; with all later ones; or the others it could change places with. */
export type Scope = 'this' | 'here' | 'all' | 'others';

/** Of today's lessons still to come at `now` (ms) and without riders up, by start. */
export function laterLessons({ day }: Board, lesson: Lesson, scope: Scope, now: number): Lesson[] {
  const isMeant = (one: Lesson): boolean => {
    switch (scope) {
      case 'this':
        return one.id === lesson.id;
      case 'here':
        return one.start >= lesson.start && one.arena === lesson.arena;
      case 'all':
        return one.start >= lesson.start;
      case 'others':
        return one.id !== lesson.id && one.start > now;
    }
  };
  return Object.values(day.lessons)
    .filter(
      (one) => one.id === lesson.id || (!one.cancelled && outAt(day, one, now) > now && !areUp(day, one.id)),
    )
    .filter(isMeant)
    .sort((a, b) => a.start - b.start || (a.id < b.id ? -1 : 1));
}
