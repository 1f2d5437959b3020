/** Work after lessons, reckoned by hand. No source: the barn's own minutes (5, 10, 10, 5) and its own times to be done by. */
import { describe, expect, test } from 'vitest';
import { DEFAULT_RULES } from '#core/barn/rules.ts';
import { afterDue } from '#core/day/after.ts';
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import type { OpFact } from '#core/day/ops.ts';
import { aisleTiles } from '#core/day/views/aisle.ts';
import { aisleEnd } from '#core/day/views/aisleEnd.ts';
import { coordinatorView } from '#core/day/views/coordinator.ts';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import { learnedNothing } from '#core/plan/learned.ts';
import type { Forecast } from '#core/plan/model.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { entry, NOON, smallBoard } from '../../properties/day-arbitraries.ts';

const minute = (n: number): number => NOON + n * MINUTE_MS;
const since = (at: number | null | undefined): number | null =>
  at === null || at === undefined ? null : Math.round((at - NOON) / MINUTE_MS);

let seq = 500;
function after(board: Board, at: number, by: string | null, ...facts: OpFact[]): Board {
  return facts.reduce((next, fact) => {
    seq += 1;
    return evolve(next, entry(seq, fact, { by, tappedAt: minute(at), at: minute(at) }));
  }, board);
}

/** As in smallBoard, tacked at 40 for the lesson from 60 to 90; the second lesson, from 105 on, does not take place. */
function oneLesson(): Board {
  return after(
    smallBoard(),
    40,
    'ada',
    { kind: 'lessonCancelled', lesson: 'L2' },
    { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet', 'coat', 'tack'] },
    { kind: 'stagesFinished', prep: 'moss.1', stages: ['feet', 'coat', 'tack'] },
  );
}

function foresee(board: Board, now: number): Forecast {
  const learned = { ...learnedNothing(board.barn.rules), sameHorseMs: 0, otherHorseMs: 0 };
  return forecast(planInput(board, minute(now), learned));
}

const times = (found: Forecast, prep: string) =>
  found.after[prep]?.pieces.map(({ stage, by, start, end }) => [stage, by, since(start), since(end)]);

describe('two horses out of one lesson, with Ada cleared for all of it and Ben for no tack', () => {
  // Nobody but Ada may take tack off: both horses’ first, then each is walked, looked over and put away by one of them.
  test('all tack comes off first; then each has a horse in hand', () => {
    const found = foresee(oneLesson(), 92);
    expect(times(found, 'fern.1')).toEqual([
      ['untack', 'ada', 92, 97],
      ['cool', 'ben', 97, 107],
      ['look', 'ben', 107, 117],
      ['away', 'ben', 117, 122],
    ]);
    expect(times(found, 'moss.1')).toEqual([
      ['untack', 'ada', 97, 102],
      ['cool', 'ada', 102, 112],
      ['look', 'ada', 112, 122],
      ['away', 'ada', 122, 127],
    ]);
    expect(since(found.after['moss.1']?.done)).toBe(127);
  });

  test('is asked for 15, 30, 40 and 45 minutes after riders are down, whenever that is tapped', () => {
    const board = oneLesson();
    const prep = board.day.preps['fern.1'];
    if (!prep) throw new Error('fern.1');
    expect(Object.values(afterDue(board, prep, minute(92))).map(since)).toEqual([105, 120, 130, 135]);
    const down = after(
      board,
      85,
      'ines',
      { kind: 'ridersUp', lesson: 'L1' },
      { kind: 'ridersDown', lesson: 'L1' },
    );
    expect(Object.values(afterDue(down, prep, minute(92))).map(since)).toEqual([100, 115, 125, 130]);
  });

  test('in the barn’s own order no stage is asked for later than one that follows it', () => {
    const rules = { ...DEFAULT_RULES, afterStages: ['untack', 'look', 'cool', 'away'] as const };
    const board = oneLesson();
    const turned: Board = {
      ...board,
      barn: { ...board.barn, rules: { ...rules, afterStages: [...rules.afterStages] } },
    };
    const prep = turned.day.preps['fern.1'];
    if (!prep) throw new Error('fern.1');
    const due = afterDue(turned, prep, minute(92));
    expect([due.untack, due.look, due.cool, due.away].map(since)).toEqual([105, 120, 120, 135]);
  });

  test('what is given stays with whom it is given to; the rest goes to others', () => {
    const pieces = ['untack', 'cool', 'look', 'away'].map((stage) => `moss.1:${stage}`);
    const board = after(
      oneLesson(),
      91,
      null,
      { kind: 'volunteerArrived', volunteer: 'cho' },
      {
        kind: 'workMoved',
        pieces,
        to: 'ada',
        before: null,
      },
    );
    const found = foresee(board, 92);
    expect(found.after['moss.1']?.pieces.every(({ by, given }) => by === 'ada' && given)).toBe(true);
    expect(found.after['fern.1']?.pieces.map(({ by, given }) => [by, given])[0]).toEqual(['cho', false]);
    expect(since(found.hands['ada']?.doneAt)).toBe(122);
    expect(found.hands['ada']?.behindMs).toBe(0);
  });

  test('nobody cleared for the tack: it is said', () => {
    const gone = after(oneLesson(), 91, null, { kind: 'volunteerLeft', volunteer: 'ada' });
    expect(foresee(gone, 92).after['fern.1']).toMatchObject({ done: null, unplanned: 'nobodyCleared' });
  });
});

describe('a horse that goes out again', () => {
  // Fern changes tack for the second lesson; Moss keeps its own and shares its preparation.
  test('is not put away in between, and is foreseen after its last lesson', () => {
    const found = foresee(smallBoard(), 0);
    expect(Object.keys(found.after).toSorted()).toEqual(['fern.2', 'moss.1', 'sorrel.1']);
    for (const { pieces } of Object.values(found.after))
      expect(since(pieces[0]?.start) ?? Infinity).toBeGreaterThanOrEqual(135);
  });
});

describe('the boards', () => {
  test('the tile says what is next, by when and who has time; the end says when all are away', () => {
    const board = oneLesson();
    const found = foresee(board, 92);
    const tiles = aisleTiles(board, found, minute(92), [], 'stall');
    const fern = tiles.find(({ horse }) => horse === 'fern');
    expect(fern).toMatchObject({ kind: 'after', next: 'untack', couldDo: 'ada' });
    expect(fern?.stages.map(({ neededBy }) => since(neededBy))).toEqual([105, 120, 130, 135]);
    expect(since(aisleEnd(board, tiles, found).awayAt)).toBe(127);
    // Without a forecast it still says by when.
    const blind = aisleTiles(board, null, minute(92), [], 'stall').find(({ horse }) => horse === 'fern');
    expect(since(blind?.stages[0]?.neededBy)).toBe(105);
    expect(aisleEnd(board, tiles, null).awayAt).toBeNull();
  });

  test('the coordinator sees who could, gives it all out at once, and it stands in their lane', () => {
    const board = oneLesson();
    const view = coordinatorView(board, foresee(board, 92), minute(92));
    expect(view.nobodys.map(({ id, couldDo }) => [id, couldDo?.id])).toEqual([
      ['fern.1:untack', 'ada'],
      ['moss.1:untack', 'ada'],
    ]);
    expect(view.giveOut).toMatchObject([
      { volunteer: 'ada', horses: ['fern', 'moss'] },
      { volunteer: 'ben', horses: ['fern'] },
    ]);
    const given = view.giveOut.reduce(
      (next, { volunteer, pieces }) =>
        after(next, 92, null, { kind: 'workMoved', pieces: [...pieces], to: volunteer, before: null }),
      board,
    );
    const then = coordinatorView(given, foresee(given, 92), minute(92));
    expect(then.nobodys).toEqual([]);
    expect(then.giveOut).toEqual([]);
    const ada = then.lanes.find(({ volunteer }) => volunteer === 'ada');
    expect(ada?.pieces.map(({ stage, lateMs }) => [stage, lateMs]).slice(0, 2)).toEqual([
      ['untack', 0],
      ['untack', 0],
    ]);
    expect(since(ada?.doneAt)).toBe(127);
  });
});

describe('a booking taken back when the horse is already being put away', () => {
  // Moss shares one preparation for both lessons. The second is cancelled, its tack comes off at 95, then it takes place.
  const board = (): Board => {
    const tacked = after(smallBoard(), 40, 'ada', {
      kind: 'stagesFinished',
      prep: 'moss.1',
      stages: ['feet', 'coat', 'tack'],
    });
    const cancelled = after(tacked, 92, null, { kind: 'lessonCancelled', lesson: 'L2' });
    return after(cancelled, 95, 'ada', { kind: 'stagesFinished', prep: 'moss.1', stages: ['untack'] });
  };
  const cancelOp = (of: Board): string =>
    of.day.recent.find(({ restore }) => restore.some(({ what }) => what === 'lesson'))?.op ?? '';

  test('undone: it is to be tacked again, and is not shown as ready', () => {
    const untacked = board();
    const back = after(untacked, 96, null, { kind: 'undone', op: cancelOp(untacked) });
    const tile = aisleTiles(back, null, minute(97), [], 'stall').find(({ horse }) => horse === 'moss');
    expect(tile).toMatchObject({ prep: 'moss.1', kind: 'full', next: 'tack', status: 'coatReady' });
  });

  test('cancelled once more it is put away from where that stood', () => {
    const untacked = board();
    const back = after(untacked, 96, null, { kind: 'undone', op: cancelOp(untacked) });
    const again = after(back, 97, null, { kind: 'lessonCancelled', lesson: 'L2' });
    expect(again.day.preps['moss.1']?.marks).toEqual(untacked.day.preps['moss.1']?.marks);
    const tile = aisleTiles(again, null, minute(98), [], 'stall').find(({ horse }) => horse === 'moss');
    expect(tile).toMatchObject({ kind: 'after', next: 'cool' });
  });
});
