/** What a change of the day would bring into conflict that is not so already. */
import type { Board } from './board.ts';
import { conflicts, type Conflict } from './conflicts.ts';
import type { OpFact } from './ops.ts';
import { pretend } from './pretend.ts';

/** `lessonName`: of the lesson it is said of, as it would be called. */
export type NewConflict = { readonly conflict: Conflict; readonly lessonName: string };

/** The worst first. None where the hub would refuse the facts: that has a sentence of its own. `at`: barn time, ms. */
export function newConflicts(board: Board, facts: readonly OpFact[], at: number): NewConflict[] {
  const then = pretend(board, facts, at);
  if ('why' in then) return [];
  const before = new Map(conflicts(board).map((one) => [keyOf(one), one]));
  return conflicts(then.board)
    .filter((one) => {
      const was = before.get(keyOf(one));
      return !was || shortBy(one) > shortBy(was);
    })
    .sort((a, b) => Number(a.level === 'look') - Number(b.level === 'look'))
    .map((conflict) => ({ conflict, lessonName: then.board.day.lessons[conflict.lesson]?.name ?? '' }));
}

/** Two conflicts are the same when they are about the same; of two lessons, whichever comes first. */
function keyOf(conflict: Conflict): string {
  const { level, code, lesson, place } = conflict;
  switch (conflict.code) {
    case 'horse-twice':
    case 'too-little-between':
      return [level, code, conflict.horse, ...[lesson, conflict.other].sort()].join(' ');
    case 'rider-twice':
      return [code, conflict.rider, ...[lesson, conflict.other].sort()].join(' ');
    case 'arena-twice':
      return [code, conflict.arena, ...[lesson, conflict.other].sort()].join(' ');
    case 'instructor-twice':
      return [code, conflict.person, ...[lesson, conflict.other].sort()].join(' ');
    case 'open-role':
      return [level, code, lesson, place, conflict.role].join(' ');
    case 'workload':
      return [code, conflict.horse, JSON.stringify(conflict.over)].join(' ');
    case 'no-horse':
    case 'no-tack-chosen':
    case 'no-instructor':
    case 'pair':
    case 'along':
      return JSON.stringify(conflict);
  }
}

/** Minutes that are missing between two lessons. */
function shortBy(conflict: Conflict): number {
  return conflict.code === 'too-little-between' ? conflict.needed - conflict.minutes : 0;
}
