/** What a change of the day would bring into conflict. Times by hand; rules of rest and preparing: common practice, no source. */
import { describe, expect, test } from 'vitest';
import type { Board } from '#core/day/board.ts';
import { newConflicts } from '#core/day/newConflicts.ts';
import type { OpFact } from '#core/day/ops.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { sayConflict } from '#core/words/en/sheet.ts';
import { NOON, smallBoard } from '../../properties/day-arbitraries.ts';

const minute = (n: number): number => NOON + n * MINUTE_MS;

/** First from 60 to 90 with Fern and Moss, Second from 105 to 135 with Fern on other tack, Moss and Sorrel. */
function board(): Board {
  const small = smallBoard();
  const [first, second] = [small.day.lessons['L1'], small.day.lessons['L2']];
  if (!first || !second) throw new Error('lessons');
  const lessons = {
    L1: { ...first, arena: 'a1' },
    L2: { ...second, arena: 'a1', instructor: 'ines' },
  };
  return { ...small, day: { ...small.day, lessons } };
}

const delayed = (start: number, arena: string | null = 'a1'): OpFact => ({
  kind: 'lessonsMoved',
  moves: [{ lesson: 'L1', start: minute(start), arena }],
  why: 'running-late',
});
const codes = (facts: readonly OpFact[], of = board()): string[] =>
  newConflicts(of, facts, minute(0)).map(({ conflict }) => conflict.code);

describe('a lesson delayed by itself', () => {
  test('into the next one: horses, rider, instructor and arena are twice', () => {
    const found = newConflicts(board(), [delayed(80)], minute(0));
    const about = found.flatMap(({ conflict }) =>
      'horse' in conflict ? `${conflict.code} ${conflict.horse}` : conflict.code,
    );
    for (const one of [
      'horse-twice fern',
      'horse-twice moss',
      'rider-twice',
      'instructor-twice',
      'arena-twice',
    ])
      expect(about).toContain(one);
    expect(found[0]?.conflict.level).toBe('stop');
    expect(found.every(({ lessonName }) => lessonName === 'First' || lessonName === 'Second')).toBe(true);
    const [horse] = found.filter(({ conflict }) => conflict.code === 'horse-twice');
    expect(horse && sayConflict(horse.conflict, (id) => id)).toContain('fern is in L1 at the same time');
  });

  // 70 to 100, then 5 min to the Second. Moss: girth 1 and mounting 5, and 10 min of rest. Fern: tack 8 and mounting 5.
  test('up to it: too little between, with the rest the barn gives a horse', () => {
    const between = newConflicts(board(), [delayed(70)], minute(0)).flatMap(({ conflict }) =>
      conflict.code === 'too-little-between'
        ? [[conflict.horse, conflict.minutes, conflict.needed, conflict.level]]
        : [],
    );
    expect(between).toContainEqual(['fern', 5, 13, 'stop']);
    expect(between).toContainEqual(['moss', 5, 10, 'stop']);
  });

  test('that clashes with nothing says nothing; what clashed before is not said again', () => {
    expect(codes([delayed(60)])).toEqual([]);
    expect(
      codes([
        { kind: 'lessonsMoved', why: 'other', moves: [{ lesson: 'L2', start: minute(180), arena: 'a1' }] },
      ]),
    ).toEqual([]);
    const clashing = board();
    const [first] = [clashing.day.lessons['L1']];
    if (!first) throw new Error('L1');
    const already = {
      ...clashing,
      day: { ...clashing.day, lessons: { ...clashing.day.lessons, L1: { ...first, start: minute(80) } } },
    };
    expect(codes([delayed(82)], already)).toEqual([]);
  });

  test('what the hub would refuse has its own sentence', () => {
    expect(codes([delayed(80, 'nowhere')])).toEqual([]);
  });
});
