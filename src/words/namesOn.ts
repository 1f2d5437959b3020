/** The names a sentence about the plan uses, from the board. */
import { own } from '../barn/basics.ts';
import type { Board } from '../day/board.ts';
import { personName } from '../day/views/aisle.ts';
import type { Names } from './names.ts';
import type { Subjects } from './subjects.ts';

/** A lesson goes by when it starts, as `clock` words an instant; where several start at once, by its name too. */
export function namesOn(
  board: Board,
  clock: (instant: number) => string,
  { sayLesson }: Pick<Subjects['plan'], 'sayLesson'>,
): Names {
  const { barn, day } = board;
  return {
    name: (id) => own(barn.horses, id)?.name ?? personName(board, id),
    lesson: (id) => {
      const lesson = own(day.lessons, id);
      if (!lesson) return sayLesson(null);
      const atOnce = Object.values(day.lessons).filter(
        ({ start, cancelled }) => start === lesson.start && !cancelled,
      );
      return sayLesson({ time: clock(lesson.start), name: atOnce.length > 1 ? lesson.name : null });
    },
  };
}
