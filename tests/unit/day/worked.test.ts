/** What horses did on the days before, from opening one day after the other. */
import { describe, expect, test } from 'vitest';
import type { Board } from '#core/day/board.ts';
import { KEPT_DAYS_WORKED } from '#core/day/kept.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Fact } from '#core/day/ops.ts';
import { redactBoard } from '#core/day/redact.ts';
import { daysBefore, workOf } from '#core/day/worked.ts';
import { entry, smallBoard } from '../../properties/day-arbitraries.ts';

const after = (board: Board, ...facts: Fact[]): Board =>
  facts.reduce((b, fact, i) => evolve(b, entry(100 + i, fact)), board);
const open = (date: string): Fact => ({ kind: 'dayOpened', date });

describe('a day that is over', () => {
  test('counts lessons and minutes of each horse; what was cancelled is no work', () => {
    expect(workOf(smallBoard().day)).toEqual({
      fern: { lessons: 2, minutes: 60 },
      moss: { lessons: 2, minutes: 60 },
      sorrel: { lessons: 1, minutes: 30 },
    });
    const less = after(
      smallBoard(),
      { kind: 'placeCancelled', lesson: 'L2', place: 'p3' },
      { kind: 'lessonCancelled', lesson: 'L1' },
    );
    expect(workOf(less.day)).toEqual({
      fern: { lessons: 1, minutes: 30 },
      moss: { lessons: 1, minutes: 30 },
    });
  });

  test('is looked back on from the next; a day nobody opened was a rest', () => {
    const next = after(smallBoard(), open('2026-05-12'));
    expect(next.worked).toEqual([{ date: '2026-05-11', horses: workOf(smallBoard().day) }]);
    expect(daysBefore(next, 'fern').slice(0, 2)).toEqual([true, false]);
    expect(daysBefore(next, 'nobody').some(Boolean)).toBe(false);
    expect(daysBefore(after(smallBoard(), open('2026-05-13')), 'fern').slice(0, 3)).toEqual([
      false,
      true,
      false,
    ]);
  });

  test('is kept for a week, and no longer', () => {
    const days = Array.from({ length: 12 }, (_, i) => open(`2026-05-${12 + i}`));
    const later = after(smallBoard(), ...days);
    expect(later.worked).toHaveLength(KEPT_DAYS_WORKED);
    expect(daysBefore(later, 'fern')).toEqual(Array<boolean>(KEPT_DAYS_WORKED).fill(false));
  });

  test('is the same on a board that knows no riders', () => {
    const fact = open('2026-05-12');
    expect(after(redactBoard(smallBoard(), 'aisle'), fact).worked).toEqual(after(smallBoard(), fact).worked);
  });
});
