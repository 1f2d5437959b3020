/** The parts a rebalance is made of: rates, queues changed and compared, sentences. Figures by hand. */
import { describe, expect, test } from 'vitest';
import { findingRate } from '#core/plan/rebalance/findingRate.ts';
import type { Alternative, Move } from '#core/plan/rebalance/model.ts';
import { applied, appliedAll, changesTo, pruned } from '#core/plan/rebalance/moves.ts';
import { sayAlternative, sayCannot, VERDICT } from '#core/words/en/plan.ts';

describe('finding rate', () => {
  // Beta(1, 49) and binomial counts: (1 + findings) / (50 + checks).
  test.each([
    [0, 0, 1 / 50],
    [3, 100, 4 / 150],
    [0, 950, 1 / 1000],
    [10, 10, 11 / 60],
  ])('%d findings in %d checks', (findings, checks, rate) => {
    expect(findingRate(findings, checks)).toBeCloseTo(rate, 12);
  });

  test.each([
    [-3, 100, 1 / 150],
    [NaN, 100, 1 / 150],
    [5, NaN, 1 / 50],
    [200, 100, 101 / 150],
    [1, Infinity, 1 / 50],
  ])('counts that cannot be, %d of %d, are taken as the nearest that can', (findings, checks, rate) => {
    expect(findingRate(findings, checks)).toBeCloseTo(rate, 12);
  });
});

describe('queues', () => {
  // Pieces 0–2 are one horse’s, 3–5 another’s.
  const workOf = Int32Array.of(0, 0, 0, 1, 1, 1);
  const queues = [[0, 1, 2, 3, 4, 5], []];

  test('a change takes its pieces from everybody and puts them in front of the one named', () => {
    expect(applied(queues, { pieces: [4, 5], to: 1, before: -1 })).toEqual([
      [0, 1, 2, 3],
      [4, 5],
    ]);
    expect(applied(queues, { pieces: [3], to: 0, before: 1 })).toEqual([[0, 3, 1, 2, 4, 5], []]);
    expect(queues).toEqual([[0, 1, 2, 3, 4, 5], []]);
  });

  test('the changes between two plans lead from one to the other, a horse at a time', () => {
    const wanted = [
      [3, 0, 1],
      [2, 4, 5],
    ];
    const changes = changesTo(queues, wanted, workOf);
    expect(appliedAll(queues, changes)).toEqual(wanted);
    // One of 3 to the front, 2 to the other, 4 and 5 together to the other.
    expect(changes.map(({ pieces }) => pieces)).toEqual([[3], [4, 5], [2]]);
  });

  test('the same plan needs no change; pieces not named stay', () => {
    expect(changesTo(queues, queues, workOf)).toEqual([]);
    expect(changesTo(queues, [[0, 5], []], workOf)).toEqual([]);
  });

  test('paring down leaves the one change that matters', () => {
    const changes = [0, 1, 2, 3, 4].map((p) => ({ pieces: [p], to: 1, before: -1 }));
    const paring = pruned(changes, (some) => some.some(({ pieces }) => pieces[0] === 3), 1);
    let step = paring.next();
    while (step.done !== true) step = paring.next();
    expect(step.value).toEqual([{ pieces: [3], to: 1, before: -1 }]);
  });
});

describe('sentences', () => {
  const names = {
    name: (id: string) => id.charAt(0).toUpperCase() + id.slice(1),
    lesson: (id: string) => `the ${id} lesson`,
  };
  const move: Move = {
    pieces: ['bracken.1:coat', 'bracken.1:tack'],
    prep: 'bracken.1',
    horse: 'bracken',
    stages: ['coat', 'tack'],
    from: 'ada',
    to: 'ines',
    before: null,
    beforeHorse: null,
  };
  const told = (moves: Move[], why: Alternative['why']): string => sayAlternative({ moves, why }, names);
  const earlier = { code: 'lessonEarlier', lesson: '15:00', minutes: 6 } as const;

  test('one move, and what it is good for', () => {
    expect(told([move], { gain: earlier, later: null })).toBe(
      'Give Bracken’s coat and tack to Ines: the 15:00 lesson is ready 6 minutes earlier, nobody gets late.',
    );
  });

  test('two moves, one of them a turn, and who pays', () => {
    const turn: Move = {
      ...move,
      pieces: ['fern.1:feet'],
      horse: 'fern',
      stages: ['feet'],
      to: 'ada',
      before: 'moss.1:coat',
      beforeHorse: 'moss',
    };
    expect(told([move, turn], { gain: earlier, later: { lesson: '16:00', minutes: 1 } })).toBe(
      'Give Bracken’s coat and tack to Ines and let Ada do Fern’s feet before Moss: the 15:00 lesson is ready 6 minutes earlier, but the 16:00 lesson gets 1 minute later.',
    );
  });

  test('many moves are counted', () => {
    expect(told([move, move, move, move], { gain: { code: 'lessLate', minutes: 12 }, later: null })).toBe(
      'Make 4 changes: 12 minutes less lateness over all horses, nobody gets late.',
    );
  });

  test('that nothing is better is said of what is proven only', () => {
    expect(VERDICT.provenBest).toContain('No plan is better');
    expect(VERDICT.noBetterFound).toContain('may still be one');
  });

  test('what cannot be planned', () => {
    expect(
      sayCannot(
        { prep: 'moss.1', horse: 'moss', piece: 'moss.1:tack', stage: 'tack', why: 'nobodyCleared' },
        names,
      ),
    ).toBe('Moss, tack: Nobody here is cleared for it');
  });
});
