/** Lessons moved and cancelled, one or many, as one step. */
import { own, put } from '../barn/basics.ts';
import type { Lesson } from '../barn/lesson.ts';
import type { Board } from './board.ts';
import type { OpFact, Reason } from './ops.ts';
import { areUp } from './preps.ts';
import { regrouped } from './steps.ts';

type LessonsMoved = Extract<OpFact, { kind: 'lessonsMoved' }>;
type LessonsCancelled = Extract<OpFact, { kind: 'lessonsCancelled' }>;

/** The lesson at another time. It remembers when it was to start, until it is back there. */
export function movedTo(lesson: Lesson, start: number): Lesson {
  if (lesson.start === start) return lesson;
  const { plannedStart: _was, ...rest } = lesson;
  const planned = lesson.plannedStart ?? lesson.start;
  return planned === start ? { ...rest, start } : { ...rest, start, plannedStart: planned };
}

export function moveLessons(board: Board, { moves, why }: LessonsMoved): Board {
  return withLessons(board, (lessons) =>
    moves.reduce<Record<string, Lesson>>((next, { lesson: id, start, arena }) => {
      const was = own(next, id);
      if (!was || (was.start === start && was.arena === arena)) return next;
      return put<Lesson>(next, id, { ...movedTo(was, start), arena, changedFor: why });
    }, lessons),
  );
}

export function cancelLessons(board: Board, { lessons: ids, why }: LessonsCancelled): Board {
  return withLessons(board, (lessons) =>
    ids.reduce<Record<string, Lesson>>((next, id) => {
      const was = own(next, id);
      return was && !was.cancelled
        ? put<Lesson>(next, id, { ...was, cancelled: true, changedFor: why })
        : next;
    }, lessons),
  );
}

/** Fitted once, with all of them changed: in between, a horse would be in two lessons at a time. */
function withLessons(
  board: Board,
  change: (lessons: Record<string, Lesson>) => Record<string, Lesson>,
): Board {
  const lessons = change(board.day.lessons);
  return lessons === board.day.lessons ? board : regrouped({ ...board, day: { ...board.day, lessons } });
}

/** A lesson with its riders up is not moved and not cancelled: it ends when they are down. */
export function lessonsObjection({ barn, day }: Board, fact: LessonsMoved | LessonsCancelled): Reason | null {
  const ids = fact.kind === 'lessonsMoved' ? fact.moves.map((move) => move.lesson) : fact.lessons;
  for (const id of ids) {
    if (!own(day.lessons, id)) return { code: 'unknownLesson' };
    if (areUp(day, id)) return { code: 'ridersUp', lesson: id };
  }
  const arenas = fact.kind === 'lessonsMoved' ? fact.moves.flatMap(({ arena }) => arena ?? []) : [];
  return arenas.every((arena) => own(barn.arenas, arena)) ? null : { code: 'unknownRecord' };
}
