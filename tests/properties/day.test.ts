/** The rules that hold `src/day` together, on any sequence of ops. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { WORK_STAGES } from '#core/barn/stage.ts';
import { Board } from '#core/day/board.ts';
import { decide } from '#core/day/decide.ts';
import { evolve } from '#core/day/evolve.ts';
import { LATE } from '#core/day/late.ts';
import { Entry, OpFact, type Op } from '#core/day/ops.ts';
import type { Role } from '#core/day/places.ts';
import { prepOf } from '#core/day/preps.ts';
import { redactBoard, redactEntry } from '#core/day/redact.ts';
import { Sequence } from '#core/day/sequence.ts';
import { entry, findingTap, NOON, opFact, ops, rideTap, smallBoard, stageTap } from './day-arbitraries.ts';

const HOUR_LATER = NOON + 3_600_000;

function sequence(): Sequence {
  return new Sequence({ board: smallBoard(), seq: 0, at: 0, seen: [] });
}

function play(taps: readonly Op[], role: Role = 'coordinator'): { sequence: Sequence; entries: Entry[] } {
  const s = sequence();
  const entries = taps.flatMap((op) => s.accept(op, role, HOUR_LATER).entry ?? []);
  return { sequence: s, entries };
}

describe('any sequence of ops', () => {
  test('decide answers every op, evolve never throws, and the board stays a valid board', () => {
    fc.assert(
      fc.property(ops(opFact), (taps) => {
        const { sequence: s, entries } = play(taps);
        expect(entries).toHaveLength(taps.length);
        for (const e of entries) expect(e.facts.length > 0 || e.why !== null).toBe(true);
        expect(Board.safeParse(s.board).error?.issues ?? []).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });

  test('the same op again is answered as before and changes nothing', () => {
    fc.assert(
      fc.property(ops(opFact), fc.nat(), (taps, pick) => {
        const { sequence: s } = play(taps);
        const again = taps[pick % Math.max(1, taps.length)];
        if (!again) return;
        const before = s.board;
        const outcome = s.accept(again, 'coordinator', HOUR_LATER + 60_000);
        expect(outcome.entry).toBeNull();
        expect(s.board).toBe(before);
      }),
    );
  });

  test('who has the same entries has the same board, also by way of JSON', () => {
    fc.assert(
      fc.property(ops(opFact), (taps) => {
        const { sequence: s, entries } = play(taps);
        const sent = entries.map((e) => Entry.parse(JSON.parse(JSON.stringify(e))));
        expect(sent.reduce(evolve, smallBoard())).toEqual(s.board);
      }),
    );
  });

  test('an entry without facts leaves the very same board', () => {
    fc.assert(
      fc.property(ops(opFact), (taps) => {
        const { sequence: s } = play(taps);
        expect(evolve(s.board, { ...entry(99, { kind: 'undone', op: 'x' }), facts: [] })).toBe(s.board);
      }),
      { numRuns: 20 },
    );
  });

  test('a board knows only what its place may: cutting before and after an entry come to the same', () => {
    fc.assert(
      fc.property(ops(opFact), fc.constantFrom<Role>('aisle', 'door', 'coordinator'), (taps, role) => {
        const { sequence: s, entries } = play(taps);
        const seen = entries.map((e) => redactEntry(e, role)).reduce(evolve, redactBoard(smallBoard(), role));
        expect(seen).toEqual(redactBoard(s.board, role));
        if (role !== 'coordinator') {
          expect(JSON.stringify([seen, entries.map((e) => redactEntry(e, role))])).not.toMatch(
            /Robin|Example|48\.5|512\.25|left side weak|Quill|"pace"|"minor"|tooYoung/,
          );
        }
      }),
    );
  });
});

describe('stage taps and findings', () => {
  test('come to the same board in whatever order they arrive', () => {
    fc.assert(
      fc.property(
        ops(fc.oneof(stageTap, findingTap, rideTap), 8).chain((taps) =>
          fc.tuple(fc.constant(taps), fc.shuffledSubarray(taps, { minLength: taps.length })),
        ),
        ([taps, shuffled]) => {
          const [a, b] = [play(taps).sequence.board, play(shuffled).sequence.board];
          expect(b.day.preps).toEqual(a.day.preps);
          expect(b.findings).toEqual(a.findings);
          expect(new Set(ridesOf(b))).toEqual(new Set(ridesOf(a)));
        },
      ),
    );
  });
});

/**
 * What was tapped of rides. Left out: a girth check by somebody who tacked the horse, too. It is none, and whether it was
 * declined or kept without counting is all that the order of arrival decides.
 */
function ridesOf({ day }: Board): readonly unknown[] {
  return Object.entries(day.rides).flatMap(([lesson, { mounted, down, checks }]) => {
    const second = Object.entries(checks).map(([place, { girth, instructor }]) => {
      const tacked = prepOf(day, lesson, place)?.marks.tack.map(({ by }) => by) ?? [];
      return [place, girth.filter(({ by }) => !tacked.includes(by)), instructor] as const;
    });
    const kept = second.filter(([, girth, instructor]) => girth.length + instructor.length > 0);
    return mounted.length + down.length + kept.length > 0
      ? [[lesson, mounted, down, kept.toSorted(([a], [b]) => (a < b ? -1 : 1))]]
      : [];
  });
}

describe('undo', () => {
  test('right after an op puts everything back as it was', () => {
    fc.assert(
      fc.property(ops(opFact, 8), opFact, (taps, last) => {
        const { sequence: s } = play(taps.filter((op) => op.fact.kind !== 'dayOpened'));
        const before = s.board;
        const op: Op = { id: 'last', device: 'd1', by: 'ada', tappedAt: HOUR_LATER, fact: last };
        const done = decide(before, op);
        s.accept(op, 'coordinator', HOUR_LATER);
        const canUndo = s.board.day.recent.some((recent) => recent.op === 'last');
        if (!canUndo) return;
        expect(done.facts.length).toBeGreaterThan(0);
        const undo: Op = { ...op, id: 'undo', fact: { kind: 'undone', op: 'last' } };
        expect(s.accept(undo, 'coordinator', HOUR_LATER).outcome.why).toBeNull();
        // An op may have added somebody to today's list with an empty queue; that is no work and no presence.
        expect(settled(s.board)).toEqual(settled(before));
      }),
      { numRuns: 500 },
    );
  });
});

/** The board without the notes for undo, and without preps that serve nothing and carry no mark. */
function settled(board: Board): unknown {
  const preps = Object.values(board.day.preps).filter(
    (prep) =>
      prep.places.length > 0 ||
      prep.ticks.length > 0 ||
      WORK_STAGES.some((stage) => prep.marks[stage].length > 0),
  );
  return { ...board, day: { ...board.day, recent: [], preps } };
}

test('the table of late ops speaks of every kind of op', () => {
  const kinds = OpFact.def.options.flatMap((option): string[] => option.shape.kind.def.values);
  expect(Object.keys(LATE).toSorted()).toEqual(kinds.toSorted());
});
