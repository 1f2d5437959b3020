/** What if? And: is there time for mane and tail? */
import { describe, expect, test } from 'vitest';
import { own } from '#core/barn/basics.ts';
import type { Board } from '#core/day/board.ts';
import type { OpFact } from '#core/day/ops.ts';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import { whatIf } from '#core/plan/whatIf.ts';
import { smallBoard } from '../../properties/day-arbitraries.ts';
import { after, minute, minutes, noChance } from './forecastInputs.ts';

function asked(board: Board, ...facts: OpFact[]) {
  const answer = whatIf(board, facts, minute(0));
  if ('why' in answer) throw new Error(answer.why.code);
  return answer;
}

describe('what if', () => {
  test('a lesson moves by ten minutes: its horses’ times move with it, their chances do not fall', () => {
    const { before, after: then } = asked(smallBoard(), {
      kind: 'lessonMoved',
      lesson: 'L1',
      start: minute(70),
    });
    expect(minutes(own(then.preps, 'fern.1')?.rampTime)).toBe(
      (minutes(own(before.preps, 'fern.1')?.rampTime) ?? 0) + 10,
    );
    expect(own(then.lessons, 'L1')?.chance).toBeGreaterThanOrEqual(own(before.lessons, 'L1')?.chance ?? 1);
  });

  test('someone leaves early: what they cannot finish is somebody else’s or nobody’s', () => {
    const { before, after: then } = asked(smallBoard(), {
      kind: 'volunteerExpected',
      volunteer: 'ada',
      from: null,
      until: minute(10),
    });
    expect(own(before.preps, 'fern.1')?.unplanned).toBeNull();
    expect(own(then.preps, 'fern.1')?.unplanned).toBe('nobodyFree');
  });

  test('a rider cancels: the horse is not needed, and the others’ luck stays as it was', () => {
    const { before, after: then } = asked(smallBoard(), {
      kind: 'placeCancelled',
      lesson: 'L2',
      place: 'p3',
    });
    expect(own(then.preps, 'sorrel.1')).toBeUndefined();
    expect(own(then.preps, 'fern.1')).toEqual(own(before.preps, 'fern.1'));
  });

  test('nothing: nothing', () => {
    const { before, after: then } = asked(smallBoard());
    expect(then).toEqual(before);
  });

  test('what cannot be says why', () => {
    expect(whatIf(smallBoard(), [{ kind: 'lessonCancelled', lesson: 'L9' }], minute(0))).toEqual({
      why: { code: 'unknownLesson' },
    });
  });
});

describe('extras', () => {
  const extras = (board: Board, now: number) => {
    const f = forecast(planInput(board, minute(now), noChance(board)));
    return Object.fromEntries(Object.values(f.preps).map((prep) => [prep.prep, prep.extras]));
  };

  test('when the horse has the spare and its hands have the time: fern has 22 minutes, moss 14', () => {
    expect(extras(smallBoard(), 0)).toMatchObject({ 'fern.1': true, 'moss.1': true });
  });

  test('not once the spare is shorter than they take', () => {
    // At 13 fern would be ready at 36, nine minutes before its ramp time.
    expect(extras(smallBoard(), 13)['fern.1']).toBe(false);
  });

  test('not when the only free hands are needed elsewhere', () => {
    // At 6 fern has 16 minutes to spare, but ada must then tack moss, which has 8.
    expect(extras(after(smallBoard(), { kind: 'volunteerLeft', volunteer: 'ben' }), 6)['fern.1']).toBe(false);
  });

  test('not for a horse that is out in a lesson, tacked, or somebody else is on', () => {
    expect(extras(smallBoard(), 0)['fern.2']).toBe(false);
    const tacked = after(smallBoard(), {
      kind: 'stagesFinished',
      prep: 'fern.1',
      stages: ['feet', 'coat', 'tack'],
    });
    expect(extras(tacked, 0)['fern.1']).toBe(false);
  });
});
