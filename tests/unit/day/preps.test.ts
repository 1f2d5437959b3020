/** Which preparations a day asks for, and when each must be done. */
import { describe, expect, test } from 'vitest';
import { evolve } from '#core/day/evolve.ts';
import type { Board } from '#core/day/board.ts';
import type { Fact } from '#core/day/ops.ts';
import { horseFreeFrom, nextStage, openStages, prepStatus, rampTime } from '#core/day/preps.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { entry, horse, NOON, smallBoard } from '../../properties/day-arbitraries.ts';

function after(board: Board, ...facts: Fact[]): Board {
  return facts.reduce((b, fact, i) => evolve(b, entry(100 + i, fact, { by: 'ines', id: `t${i}` })), board);
}

const prep = (board: Board, id: string) => {
  const found = board.day.preps[id];
  if (!found) throw new Error(`no prep ${id}`);
  return found;
};

describe('grouping', () => {
  test('back to back on the same tack: one prep; on other tack: a change of tack of its own', () => {
    const { day } = smallBoard();
    expect(prep(smallBoard(), 'moss.1').places.map((p) => p.lesson)).toEqual(['L1', 'L2']);
    expect(Object.values(day.preps).map((p) => [p.id, p.kind, p.tack])).toEqual([
      ['fern.1', 'full', 't1'],
      ['moss.1', 'full', 't1'],
      ['fern.2', 'tackChange', 't2'],
      ['sorrel.1', 'full', 't1'],
    ]);
  });

  test('lessons further apart than the barn’s gap: the horse is prepared anew', () => {
    const later = after(smallBoard(), {
      kind: 'lessonMoved',
      lesson: 'L2',
      start: NOON + 60 * MINUTE_MS + 30 * MINUTE_MS + 31 * MINUTE_MS,
    });
    expect(prep(later, 'fern.2').kind).toBe('full');
    expect(Object.values(later.day.preps).filter((p) => p.horse === 'moss')).toHaveLength(2);
  });

  test('a rider who cancels leaves no open work; the horse keeps what was done', () => {
    const board = after(
      smallBoard(),
      { kind: 'stagesFinished', prep: 'sorrel.1', stages: ['feet', 'coat'] },
      { kind: 'placeCancelled', lesson: 'L2', place: 'p3' },
    );
    expect(openStages(board.barn, prep(board, 'sorrel.1'))).toEqual([]);
    const again = after(board, {
      kind: 'placeHorseChanged',
      lesson: 'L1',
      place: 'p1',
      horse: 'sorrel',
      tack: 't1',
    });
    expect(openStages(again.barn, prep(again, 'sorrel.1'))).toEqual(['tack']);
  });

  test('tacked for one list is not tacked for another', () => {
    const board = after(smallBoard(), {
      kind: 'stagesFinished',
      prep: 'sorrel.1',
      stages: ['feet', 'coat', 'tack'],
    });
    expect(prepStatus(prep(board, 'sorrel.1'))).toBe('tacked');
    const other = after(board, {
      kind: 'placeHorseChanged',
      lesson: 'L2',
      place: 'p3',
      horse: 'sorrel',
      tack: 't2',
    });
    expect(prepStatus(prep(other, 'sorrel.1'))).toBe('coatReady');
  });
});

describe('times', () => {
  test('ramp time: lesson start less warm-up and mounting (10 + 5 min by default)', () => {
    const { barn, day } = smallBoard();
    expect(rampTime(day, prep(smallBoard(), 'fern.1'), barn.rules)).toBe(NOON + 45 * MINUTE_MS);
    // A warm horse from the lesson before needs the mounting time alone.
    expect(rampTime(day, prep(smallBoard(), 'fern.2'), barn.rules)).toBe(NOON + 100 * MINUTE_MS);
    expect(horseFreeFrom(day, prep(smallBoard(), 'fern.2'))).toBe(NOON + 90 * MINUTE_MS);
  });
});

describe('stages', () => {
  test('the coat before the feet does not count until the feet are checked', () => {
    const coat = after(smallBoard(), { kind: 'stagesFinished', prep: 'fern.1', stages: ['coat'] });
    expect(prepStatus(prep(coat, 'fern.1'))).toBe('notStarted');
    expect(nextStage(prep(coat, 'fern.1'))).toBe('feet');
    const feet = after(coat, { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] });
    expect(prepStatus(prep(feet, 'fern.1'))).toBe('coatReady');
  });

  test('a pulled horse has no open work, and nobody stays on it', () => {
    const board = after(
      smallBoard(),
      { kind: 'stageStarted', prep: 'fern.1', stage: 'feet' },
      { kind: 'horsePulled', horse: 'fern', why: 'shoe lost', hold: 'farrier' },
    );
    expect(openStages(board.barn, prep(board, 'fern.1'))).toEqual([]);
    expect(prep(board, 'fern.1').onIt).toBeNull();
  });
});

test('saving a horse’s record leaves its holds to the named release', () => {
  const board = after(
    smallBoard(),
    { kind: 'horsePulled', horse: 'fern', why: 'heat', hold: 'vet' },
    { kind: 'recordSaved', saved: { table: 'horses', record: horse('fern', { notes: 'new note' }) } },
  );
  expect(board.barn.horses['fern']).toMatchObject({ notes: 'new note', holds: [{ kind: 'vet' }] });
});

test('a hold for a farrier carries over to the next day, one for today ends with it', () => {
  const pull = (hold: 'today' | 'farrier'): Fact => ({ kind: 'horsePulled', horse: 'fern', why: 'x', hold });
  const next: Fact = { kind: 'dayOpened', date: '2026-05-12' };
  const kept = after(smallBoard(), pull('farrier'), pull('today'), next);
  expect(kept.barn.horses['fern']?.holds.map((h) => h.kind)).toEqual(['farrier']);
  expect(kept.day.lessons).toEqual({});
  expect(horse('fern').holds).toEqual([]);
});
