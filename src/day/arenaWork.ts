/** What a horse's lessons of one day are as work: in the arena from the first minute to the last, waits between them too. */
import type { Lesson } from '../barn/lesson.ts';
import type { WorkInterval } from '../care/workload.ts';
import { lessonEnd } from './preps.ts';

/** `gapMs`: lessons this close share a prep. */
export function arenaWork(lessons: readonly Lesson[], gapMs: number): WorkInterval[] {
  return lessons.map((lesson) => ({
    fromMs: lesson.start,
    toMs: lessonEnd(lesson),
    inArenaUntilMs: waitsUntil(lesson, lessons, gapMs),
    lessonId: lesson.id,
  }));
}

/**
 * Between lessons in one arena close enough to share a prep the horse is taken to wait there. Any such lesson counts,
 * not only the next: so one more lesson never makes a horse's day shorter.
 */
function waitsUntil(lesson: Lesson, lessons: readonly Lesson[], gapMs: number): number | null {
  const end = lessonEnd(lesson);
  const next = lessons.filter(
    (one) => one.arena === lesson.arena && one.start >= end && one.start - end <= gapMs,
  );
  return next.length > 0 ? Math.max(...next.map((one) => one.start)) : null;
}
