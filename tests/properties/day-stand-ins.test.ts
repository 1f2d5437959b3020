/** What was done on a horse stays with it, whatever places it is moved between. Common practice, no source. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { WorkStage } from '#core/barn/stage.ts';
import type { Board } from '#core/day/board.ts';
import { decide } from '#core/day/decide.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Op, OpFact } from '#core/day/ops.ts';
import { markOf } from '#core/day/preps.ts';
import { entry, NOON, smallBoard } from './day-arbitraries.ts';

const placeOf = fc.constantFrom(
  ['L1', 'p1'] as const,
  ['L1', 'p2'] as const,
  ['L2', 'p1'] as const,
  ['L2', 'p2'] as const,
  ['L2', 'p3'] as const,
);

const change = fc.record({
  at: placeOf,
  horse: fc.constantFrom('fern', 'moss', 'sorrel', null),
  tack: fc.constantFrom('t1', 't2'),
});

const taken: fc.Arbitrary<OpFact> = fc
  .uniqueArray(change, { minLength: 1, maxLength: 4, selector: ({ at }) => at.join() })
  .map((list) => ({
    kind: 'standInsTaken',
    changes: list.map(({ at: [lesson, place], horse, tack }) => ({ lesson, place, horse, tack })),
    work: [],
  }));

const finished: fc.Arbitrary<OpFact> = fc.record({
  kind: fc.constant('stagesFinished'),
  prep: fc.constantFrom('fern.1', 'moss.1', 'sorrel.1'),
  stages: fc.constantFrom<WorkStage[][]>(['feet'], ['feet', 'coat']),
});

function play(board: Board, facts: readonly OpFact[]): Board {
  return facts.reduce((next, fact, i) => {
    const op: Op = { id: `t${i}`, device: 'd1', by: 'ines', tappedAt: NOON, fact };
    return decide(next, op).why ? next : evolve(next, entry(i + 1, fact, { id: op.id, by: 'ines' }));
  }, board);
}

/** Whether the feet of this horse count as checked in the first of its full preparations still wanted. */
function isChecked({ day }: Board, horse: string): boolean | null {
  const full = Object.values(day.preps).find(
    (prep) => prep.horse === horse && prep.kind === 'full' && prep.places.length > 0,
  );
  return full ? markOf(full, 'feet') !== undefined : null;
}

test('a horse whose feet are checked is never unprepared only because it stands in elsewhere', () => {
  fc.assert(
    fc.property(fc.array(finished, { maxLength: 3 }), taken, (done, last) => {
      const before = play(smallBoard(), done);
      const after = play(before, [...done, last]);
      for (const horse of ['fern', 'moss', 'sorrel']) {
        const is = isChecked(after, horse);
        if (is !== null && isChecked(before, horse) !== null) expect(is).toBe(isChecked(before, horse));
      }
    }),
    { numRuns: 300 },
  );
});

test('taking stand-ins back brings every preparation back, with its marks', () => {
  fc.assert(
    fc.property(fc.array(fc.oneof(finished, taken), { maxLength: 4 }), taken, (done, last) => {
      const before = play(smallBoard(), done);
      const after = evolve(before, entry(90, last, { id: 'last', by: 'ines' }));
      if (after === before || !after.day.recent.some(({ op }) => op === 'last')) return;
      const back = evolve(after, entry(91, { kind: 'undone', op: 'last' }));
      const live = (board: Board) => Object.values(board.day.preps).filter((prep) => prep.places.length > 0);
      expect(back.day.lessons).toEqual(before.day.lessons);
      expect(live(back)).toEqual(live(before));
      expect(back.day.hands).toEqual(before.day.hands);
    }),
    { numRuns: 300 },
  );
});
