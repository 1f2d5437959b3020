/** What boards show of findings, and in which order the aisle's tiles stand. */
import { describe, expect, test } from 'vitest';
import type { Finding } from '#core/care/findings.ts';
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Fact } from '#core/day/ops.ts';
import { aisleTiles } from '#core/day/views/aisle.ts';
import { findingLines, unreadHorses } from '#core/day/views/findings.ts';
import { entry, NOON, smallBoard } from '../../properties/day-arbitraries.ts';

const after = (board: Board, ...facts: Fact[]): Board =>
  facts.reduce((b, fact, i) => evolve(b, entry(100 + i, fact, { by: 'ines', at: NOON + i * 1000 })), board);
const seen = (horse: string, finding: Finding, words = ''): Fact => ({
  kind: 'findingSeen',
  horse,
  finding,
  words,
});

const rub: Finding = { on: 'body', place: 'croup', side: 'middle', kind: 'rub' };
const nail: Finding = { on: 'foot', foot: 'LF', kind: 'nail' };
const calm: Finding = { on: 'manner', kind: 'calm' };
const pulse = (countIn15s: number): Finding => ({ on: 'vital', kind: 'pulse', countIn15s });

describe('findings nobody has read', () => {
  test('the worst horse first, its newest finding first; what asks for nothing is no news', () => {
    const board = after(
      smallBoard(),
      seen('fern', rub),
      seen('moss', rub),
      seen('moss', nail, 'left fore'),
      seen('sorrel', calm),
      seen('sorrel', pulse(9)),
    );
    const unread = unreadHorses(board);
    expect(unread.map(({ horse }) => horse)).toEqual(['moss', 'fern']);
    expect(unread[0]).toMatchObject({ advice: { level: 'call-now', whom: 'vet' } });
    expect(unread[0]?.unread.map(({ finding }) => finding.kind)).toEqual(['nail', 'rub']);
  });

  test('leave when somebody of the staff has read them, and stay in the horse’s list', () => {
    const found = after(smallBoard(), seen('fern', nail));
    const board = evolve(found, entry(200, { kind: 'findingRead', finding: 'op100' }, { by: 'ines' }));
    expect(unreadHorses(board)).toEqual([]);
    expect(findingLines(board, 'fern')).toMatchObject([{ readBy: ['Ines'], settled: false }]);
    const pulled: Fact = { kind: 'horsePulled', horse: 'fern', why: 'nail', hold: 'vet' };
    const free = after(board, pulled, { kind: 'horseReleased', horse: 'fern', word: 'sound' });
    expect(findingLines(free, 'fern')).toMatchObject([{ settled: true }]);
  });

  test('a sign far out of its range and a grade call the vet; another scale does not parse', () => {
    const fever: Finding = { on: 'vital', kind: 'temperature', fahrenheit: 102.6 };
    const grade: Finding = { on: 'lameness', kind: 'aaep', grade: 4 };
    for (const finding of [fever, grade, pulse(13)]) {
      expect(unreadHorses(after(smallBoard(), seen('fern', finding)))).toMatchObject([
        { horse: 'fern', advice: { level: 'call-now', whom: 'vet' } },
      ]);
    }
    expect(unreadHorses(after(smallBoard(), seen('fern', pulse(11))))).toMatchObject([
      { advice: { level: 'wait' } },
    ]);
  });
});

describe('the order of the tiles', () => {
  const order = (board: Board) =>
    aisleTiles(board, null, NOON, [], 'urgency').map(({ horse, standIn }) => (standIn ? `${horse}*` : horse));

  test('a new stand-in stands before all, as long as it has work; then by ramp time', () => {
    expect(order(smallBoard())).toEqual(['fern', 'moss', 'sorrel']);
    const board = after(smallBoard(), {
      kind: 'standInsTaken',
      changes: [{ lesson: 'L1', place: 'p1', horse: 'sorrel', tack: 't1' }],
      work: [],
    });
    expect(order(board)).toEqual(['sorrel*', 'moss', 'fern']);
    const done = after(board, {
      kind: 'stagesFinished',
      prep: 'sorrel.1',
      stages: ['feet', 'coat', 'tack'],
    });
    expect(order(done)[0]).toBe('moss');
  });

  test('a horse kept apart for its skin is done last; a pulled one comes after all work', () => {
    const apart = after(smallBoard(), { kind: 'horseIsolated', horse: 'fern', why: 'bald patch' });
    expect(order(apart)).toEqual(['moss', 'sorrel', 'fern']);
    const pulled = after(apart, { kind: 'horsePulled', horse: 'moss', why: 'lame', hold: 'today' });
    expect(order(pulled)).toEqual(['sorrel', 'fern', 'moss']);
  });
});
