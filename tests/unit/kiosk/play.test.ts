/** What a tablet shows before the hub has answered, against what the hub's own sequence makes of the same taps. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Op, OpFact } from '#core/day/ops.ts';
import { Sequence } from '#core/day/sequence.ts';
import { demoBoard } from '../../../demo/day.ts';
import { pendingSubjects } from '../../../kiosk/src/lib/state/pending.ts';
import { pretend } from '../../../kiosk/src/lib/state/play.ts';

const BOARD = demoBoard('2026-05-12');
const AT = 1_778_600_000_000;
const preps = Object.values(BOARD.day.preps);
const people = Object.keys(BOARD.barn.volunteers);
const horses = Object.keys(BOARD.barn.horses);

const fact: fc.Arbitrary<OpFact> = fc.oneof(
  fc.record({
    kind: fc.constant('stagesFinished' as const),
    prep: fc.constantFrom(...preps.map(({ id }) => id), 'nowhere.1'),
    stages: fc.subarray(['feet', 'coat', 'tack'] as const, { minLength: 1 }).map((stages) => [...stages]),
  }),
  fc.record({
    kind: fc.constant('stageStarted' as const),
    prep: fc.constantFrom(...preps.map(({ id }) => id)),
    stage: fc.constantFrom('feet' as const, 'coat' as const, 'tack' as const),
  }),
  fc.record({ kind: fc.constant('volunteerArrived' as const), volunteer: fc.constantFrom(...people) }),
  fc.record({
    kind: fc.constant('horsePulled' as const),
    horse: fc.constantFrom(...horses),
    why: fc.constant('loose shoe'),
    hold: fc.constant('today' as const),
  }),
);
const role = fc.constantFrom('aisle' as const, 'door' as const, 'coordinator' as const);
const taps = fc
  .array(fc.tuple(fact, fc.option(fc.constantFrom(...people))), { maxLength: 12 })
  .map((list) =>
    list.map(([one, by], i): Op => ({ id: `op${i}`, device: 'tablet', by, tappedAt: AT + i, fact: one })),
  );

describe('pretend', () => {
  it('shows what the hub will make of the taps', () => {
    fc.assert(
      fc.property(taps, role, (ops, from) => {
        const hub = new Sequence({ board: BOARD, seq: 7, at: 0, seen: [] });
        for (const op of ops) hub.accept(op, from, op.tappedAt);
        expect(pretend(BOARD, 7, ops, from)).toEqual(hub.board);
      }),
      { numRuns: 60 },
    );
  });

  it('is the board itself without taps', () => {
    expect(pretend(BOARD, 7, [], 'aisle')).toBe(BOARD);
  });

  it('marks what the taps are about', () => {
    const op: Op = {
      id: 'a',
      device: 'tablet',
      by: null,
      tappedAt: AT,
      fact: { kind: 'stagesFinished', prep: 'gus.1', stages: ['feet'] },
    };
    expect([...pendingSubjects([op])]).toEqual(['gus.1']);
  });
});
