/** Who is behind, and who only waits for somebody. Times in ms by hand. */
import { describe, expect, test } from 'vitest';
import { behind, type Given } from '#core/plan/behind.ts';

function piece(
  id: string,
  by: string,
  start: number,
  end: number,
  neededBy: number,
  more: Partial<Given> = {},
): Given {
  return {
    id,
    work: id,
    horse: id,
    by,
    start,
    end,
    lead: 0,
    neededBy,
    rampTime: null,
    given: true,
    before: null,
    lesson: null,
    ...more,
  };
}

describe('behind', () => {
  test('by the worst of their own pieces, because of the first that is late', () => {
    const mine = [piece('a', 'ada', 0, 10, 12), piece('b', 'ada', 10, 20, 18), piece('c', 'ada', 20, 30, 25)];
    expect(behind(mine, 0)).toEqual({ behindMs: 5, because: 'b', heldUp: null });
  });

  test('not for work that is nobody’s', () => {
    expect(behind([piece('a', 'ada', 0, 10, 5, { given: false })], 0).behindMs).toBe(0);
  });

  test('not when somebody before them on the horse is late: then that piece and person are named', () => {
    const feet = piece('x:feet', 'ben', 0, 20, 8);
    const coat = piece('x:coat', 'ada', 20, 30, 22, { before: feet });
    expect(behind([coat], 0)).toEqual({
      behindMs: 0,
      because: null,
      heldUp: { late: 'x:coat', lateMs: 8, piece: 'x:feet', by: 'ben', lesson: null },
    });
  });

  test('not when the horse is still in a lesson', () => {
    const tack = piece('x:tack', 'ada', 30, 40, 35, { lesson: { id: 'L1', until: 30 } });
    expect(behind([tack], 0)).toMatchObject({
      behindMs: 0,
      heldUp: { late: 'x:tack', piece: null, lesson: 'L1' },
    });
  });

  test('nor for the next horse, which waits only because the first did', () => {
    const feet = piece('x:feet', 'ben', 0, 20, 8);
    const mine = [piece('x:coat', 'ada', 20, 30, 31, { before: feet }), piece('y:coat', 'ada', 30, 40, 33)];
    expect(behind(mine, 0)).toEqual({
      behindMs: 0,
      because: null,
      heldUp: { late: 'y:coat', lateMs: 7, piece: 'x:feet', by: 'ben', lesson: null },
    });
  });

  test('but for what would be late even had the others kept to their times', () => {
    const feet = piece('x:feet', 'ben', 0, 12, 8);
    const coat = piece('x:coat', 'ada', 12, 30, 22, { before: feet });
    // Handed over at 8 it would end at 26, four too late; the other four are ben's.
    expect(behind([coat], 0)).toEqual({ behindMs: 4, because: 'x:coat', heldUp: null });
  });
});
