/** Which suggestions still stand, which is said first, and chances in words. Worked by hand; common practice, no source. */
import { describe, expect, it } from 'vitest';
import { evolve } from '#core/day/evolve.ts';
import type { Board } from '#core/day/board.ts';
import type { Fact } from '#core/day/ops.ts';
import { chanceWord } from '#core/day/views/chance.ts';
import { doorLessons } from '#core/day/views/door.ts';
import { firstToSay, isWanting, standing } from '#core/day/views/suggestions.ts';
import { keyOf } from '#core/day/views/suggestionKey.ts';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import type { Move } from '#core/plan/rebalance/model.ts';
import type { Alternative } from '#core/wire/suggested.ts';
import { entry, NOON, smallBoard } from '../../properties/day-arbitraries.ts';

const after = (board: Board, ...facts: Fact[]): Board =>
  facts.reduce((b, fact, i) => evolve(b, entry(60 + i, fact)), board);

const move = (pieces: string[], from: string | null, to: string): Move => ({
  pieces,
  prep: 'fern.1',
  horse: 'fern',
  stages: ['coat'],
  from,
  to,
  before: null,
  beforeHorse: null,
});
const option = (moves: Move[], onlyGivesOut = false): Alternative => ({
  moves,
  why: { gain: { code: 'lessLate', minutes: 1 }, later: null },
  lessons: [],
  people: [],
  proven: false,
  onlyGivesOut,
});

describe('standing', () => {
  const one = option([move(['fern.1:coat'], 'ada', 'cho')]);

  it('keeps what can still be moved as it was meant', () =>
    expect(standing(smallBoard(), [one])).toEqual([one]));

  it('drops what was moved, finished, pulled or cancelled since', () => {
    const since: Fact[][] = [
      [{ kind: 'workMoved', pieces: ['fern.1:coat'], to: 'cho', before: null }],
      [{ kind: 'stagesFinished', prep: 'fern.1', stages: ['feet', 'coat'] }],
      [{ kind: 'horsePulled', horse: 'fern', why: 'loose shoe', hold: 'farrier' }],
      [
        { kind: 'lessonCancelled', lesson: 'L1' },
        { kind: 'lessonCancelled', lesson: 'L2' },
      ],
    ];
    for (const facts of since) expect(standing(after(smallBoard(), ...facts), [one])).toEqual([]);
  });

  it('takes nobody’s work as nobody’s, also while it stands with somebody who has left', () => {
    const nobodys = option([move(['moss.1:feet'], null, 'ada')]);
    expect(standing(smallBoard(), [nobodys])).toEqual([]);
    const left = after(smallBoard(), { kind: 'volunteerLeft', volunteer: 'ben' });
    expect(standing(left, [nobodys])).toEqual([nobodys]);
  });

  it('lets a later move of an alternative take up what an earlier one moved', () => {
    const twice = option([move(['fern.1:coat'], 'ada', 'cho'), move(['fern.1:coat'], 'cho', 'ben')]);
    expect(standing(smallBoard(), [twice])).toEqual([twice]);
  });
});

describe('firstToSay', () => {
  const few = option([move(['a'], null, 'x')]);
  const three = option([move(['a'], null, 'x'), move(['b'], null, 'x'), move(['c'], null, 'x')]);
  const many = option([...three.moves, move(['d'], null, 'x')]);
  const out = option([move(['e'], null, 'x')], true);

  it('is the most that helps with three moves at most; what only gives out comes last', () => {
    expect(firstToSay([few, three, many, out])).toBe(three);
    expect(firstToSay([many, out])).toBe(many);
    expect(firstToSay([out])).toBe(out);
    expect(firstToSay([])).toBeNull();
  });

  it('tells alternatives apart by who gets what', () => {
    expect(keyOf(few)).not.toBe(keyOf(three));
    expect(keyOf(few)).toBe(keyOf(option([move(['a'], 'somebody', 'x')])));
  });
});

it('asks for moves only when a horse is late or does not get ready', () => {
  const now = { asOf: NOON, verdict: 'noBetterFound' as const, alternatives: [] };
  expect(isWanting({ ...now, lateMs: -60_000, undone: 0 })).toBe(false);
  expect(isWanting({ ...now, lateMs: 1, undone: 0 })).toBe(true);
  expect(isWanting({ ...now, lateMs: -60_000, undone: 1 })).toBe(true);
  expect(isWanting({ ...now, lateMs: null, undone: 0 })).toBe(true);
});

describe('a lesson’s chance', () => {
  it('is sure from 0.95, likely from 0.75, doubtful below', () => {
    expect([1, 0.95, 0.949, 0.75, 0.749, 0].map(chanceWord)).toEqual([
      'sure',
      'sure',
      'likely',
      'likely',
      'doubtful',
      'doubtful',
    ]);
  });

  it('stands on the door with when the last horse is ready, and no more once all are', () => {
    const board = smallBoard();
    const known = forecast(planInput(board, NOON));
    const [first] = doorLessons(board, known, NOON, null);
    const lesson = known.lessons['L1'];
    expect(first).toMatchObject({ chance: chanceWord(lesson?.chance ?? -1), ready: lesson?.ready });
    const tacked = after(
      board,
      { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet', 'coat', 'tack'] },
      { kind: 'stagesFinished', prep: 'moss.1', stages: ['feet', 'coat', 'tack'] },
    );
    const [ready] = doorLessons(tacked, forecast(planInput(tacked, NOON)), NOON, null);
    expect(ready).toMatchObject({ word: 'ready', chance: null, ready: null });
  });

  it('makes a lesson tight whose horses are each on time but all together are not that sure', () => {
    const board = smallBoard();
    const known = forecast(planInput(board, NOON));
    const lesson = known.lessons['L1'];
    if (!lesson) throw new Error('no forecast for the lesson');
    const unsure = {
      ...known,
      lessons: { ...known.lessons, L1: { ...lesson, chance: 0.6, word: 'tight' as const } },
    };
    const [first] = doorLessons(board, unsure, NOON, null);
    expect(first?.horses.map(({ word }) => word)).toEqual(['onTime', 'onTime']);
    expect(first).toMatchObject({ word: 'tight', chance: 'doubtful' });
  });
});
