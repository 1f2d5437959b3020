/** What each screen shows of a board. */
import { describe, expect, test } from 'vitest';
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Fact } from '#core/day/ops.ts';
import { aisleTiles, peopleHere, type AisleTile } from '#core/day/views/aisle.ts';
import { coordinatorView } from '#core/day/views/coordinator.ts';
import { doorLessons } from '#core/day/views/door.ts';
import { simpleForecast } from '#core/plan/simpleForecast.ts';
import { planInput } from '#core/plan/input.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { entry, NOON, smallBoard } from '../../properties/day-arbitraries.ts';

function after(board: Board, ...facts: Fact[]): Board {
  return facts.reduce(
    (b, fact, i) => evolve(b, entry(300 + i, fact, { by: 'ada', id: `t${i}`, at: NOON })),
    board,
  );
}

const minute = (n: number): number => NOON + n * MINUTE_MS;
const tacked = (prep: string): Fact => ({ kind: 'stagesFinished', prep, stages: ['feet', 'coat', 'tack'] });
const foresee = (board: Board, now: number) => simpleForecast(planInput(board, now));

function tiles(board: Board, now: number, order: 'stall' | 'urgency' = 'stall'): Map<string, AisleTile> {
  return new Map(aisleTiles(board, foresee(board, now), now, [], order).map((tile) => [tile.horse, tile]));
}

describe('aisle', () => {
  test('a tile goes through its stages, into the lesson, and on to the next prep', () => {
    const fern = (board: Board, now: number) => tiles(board, now).get('fern');
    const board = smallBoard();
    expect(fern(board, NOON)).toMatchObject({ status: 'notStarted', next: 'feet', given: { id: 'ada' } });
    const feet = after(board, { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] });
    expect(fern(feet, NOON)).toMatchObject({ status: 'feetChecked', next: 'coat' });
    const ready = after(board, tacked('fern.1'));
    expect(fern(ready, NOON)).toMatchObject({ status: 'tacked', next: null, word: 'ready' });
    expect(fern(ready, minute(61))).toMatchObject({ status: 'inLesson', prep: 'fern.1' });
    // Its first lesson over, the change of tack for the second comes up.
    expect(fern(ready, minute(90))).toMatchObject({ status: 'notStarted', next: 'tack', kind: 'tackChange' });
    // Both over, it is to be put away, with its tack on still.
    const late = { status: 'ridden', prep: 'fern.1', kind: 'after', next: 'untack' };
    expect(fern(ready, minute(136))).toMatchObject(late);
    const away = after(ready, {
      kind: 'stagesFinished',
      prep: 'fern.1',
      stages: ['untack', 'cool', 'look', 'away'],
    });
    expect(fern(away, minute(160))).toMatchObject({ status: 'putAway', next: null });
  });

  test('a pulled horse shows why and has nothing to finish', () => {
    const pulled = after(smallBoard(), {
      kind: 'horsePulled',
      horse: 'fern',
      why: 'shoe lost',
      hold: 'farrier',
    });
    expect(tiles(pulled, NOON).get('fern')).toMatchObject({
      status: 'pulled',
      word: 'pulled',
      next: null,
      hold: { why: 'shoe lost', kind: 'farrier' },
    });
  });

  test('by urgency: least spare first, done and pulled last', () => {
    const board = after(smallBoard(), tacked('fern.1'));
    expect([...tiles(board, NOON, 'urgency').keys()]).toEqual(['moss', 'sorrel', 'fern']);
  });

  test('badges are those who are here', () => {
    expect(peopleHere(smallBoard()).map((person) => person.id)).toEqual(['ada', 'ben']);
  });
});

describe('arena door', () => {
  const door = (board: Board, now: number) => doorLessons(board, foresee(board, now), now, null);

  test('the next lesson in front with the worst of its horses’ words, the following behind it', () => {
    const [first, second] = door(smallBoard(), NOON);
    expect(first).toMatchObject({ id: 'L1', word: 'onTime', rampTime: minute(45) });
    expect(first?.horses.map((horse) => [horse.name, horse.word])).toEqual([
      ['fern', 'onTime'],
      ['moss', 'onTime'],
    ]);
    expect(second?.id).toBe('L2');
  });

  test('late, pulled and without a horse each have their word', () => {
    expect(door(smallBoard(), minute(44))[0]).toMatchObject({ word: 'late' });
    const pulled = after(smallBoard(), { kind: 'horsePulled', horse: 'moss', why: 'heat', hold: 'vet' });
    expect(door(pulled, NOON)[0]?.horses[1]).toMatchObject({ word: 'pulled' });
    const none = after(smallBoard(), {
      kind: 'placeHorseChanged',
      lesson: 'L1',
      place: 'p1',
      horse: null,
      tack: null,
    });
    expect(door(none, NOON)[0]?.horses[0]).toMatchObject({ word: 'noHorse' });
  });

  test('stays in front past its start while a horse is missing, and makes way when all are there', () => {
    expect(door(smallBoard(), minute(62))[0]?.id).toBe('L1');
    expect(door(smallBoard(), minute(81))[0]?.id).toBe('L2');
    expect(door(after(smallBoard(), tacked('fern.1'), tacked('moss.1')), minute(61))[0]?.id).toBe('L2');
  });

  test('a cancelled lesson is gone', () => {
    expect(door(after(smallBoard(), { kind: 'lessonCancelled', lesson: 'L1' }), NOON)[0]?.id).toBe('L2');
  });
});

describe('coordinator', () => {
  test('behind first; nobody’s work listed; a queue shows what is open', () => {
    const now = minute(30);
    const view = coordinatorView(smallBoard(), foresee(smallBoard(), now), now);
    expect(view.lanes[0]).toMatchObject({
      volunteer: 'ada',
      because: 'fern.1:feet',
      behindMs: 8 * MINUTE_MS,
    });
    expect(view.nobodys.map((piece) => piece.id)).toEqual([
      'moss.1:tack',
      'fern.2:tack',
      'sorrel.1:feet',
      'sorrel.1:coat',
      'sorrel.1:tack',
    ]);
    const done = after(smallBoard(), { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] });
    expect(
      coordinatorView(done, null, NOON).lanes.find((lane) => lane.volunteer === 'ada')?.pieces,
    ).toHaveLength(2);
  });

  test('work of somebody who left counts as nobody’s', () => {
    const left = after(smallBoard(), { kind: 'volunteerLeft', volunteer: 'ada' });
    const view = coordinatorView(left, foresee(left, NOON), NOON);
    expect(view.nobodys.map((piece) => piece.id)).toContain('fern.1:feet');
  });
});
