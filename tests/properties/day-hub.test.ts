/** What only the hub does to the day: going back from a day to come, and forgetting what did not reach the disk. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Board } from '#core/day/board.ts';
import { emptyDay, isUnused } from '#core/day/emptyDay.ts';
import { decide } from '#core/day/decide.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Entry, Op } from '#core/day/ops.ts';
import type { Role } from '#core/day/places.ts';
import { redactBoard, redactEntry } from '#core/day/redact.ts';
import { Sequence } from '#core/day/sequence.ts';
import { wallTimeAt } from '#core/time/zone.ts';
import { NOON, opFact, ops, smallBoard } from './day-arbitraries.ts';

const HOUR_LATER = NOON + 3_600_000;
const TODAY = '2026-05-11';
/** 2037, well inside what an instant may be. */
const FAR = Date.UTC(2037, 0, 19);

const begin = (board = smallBoard()): Sequence => new Sequence({ board, seq: 0, at: 0, seen: [] });

const opened = (id: string, date: string, at: number, more: Partial<Op> = {}): Op => ({
  id,
  device: 'hub',
  by: null,
  tappedAt: at,
  fact: { kind: 'dayOpened', date },
  ...more,
});

/** A board on which a clock that was far ahead has opened a day. */
function ahead(): Sequence {
  const sequence = begin();
  sequence.accept(opened('far', '2037-01-18', FAR), 'coordinator', FAR);
  expect(sequence.board.day).toEqual(emptyDay('2037-01-18'));
  return sequence;
}

describe('a day that a clock ahead has opened', () => {
  test('is left for today by the hub, and time is today’s again from then on', () => {
    const sequence = ahead();
    const { entry, outcome } = sequence.accept(opened('back', TODAY, NOON), 'coordinator', NOON);
    expect(outcome.why).toBeNull();
    expect(sequence.board.day).toEqual(emptyDay(TODAY));
    expect(entry?.at).toBe(NOON);
    const came: Op = {
      ...opened('came', '', NOON),
      device: 'd1',
      fact: { kind: 'volunteerArrived', volunteer: 'ada' },
    };
    expect(sequence.accept(came, 'aisle', NOON + 5000).entry?.at).toBe(NOON + 5000);
    // And never back again while days go on as they should.
    expect(sequence.accept({ ...came, id: 'later' }, 'aisle', NOON).entry?.at).toBe(NOON + 5000);
  });

  test('is not left once it holds anything', () => {
    const sequence = ahead();
    const fact = { kind: 'volunteerArrived', volunteer: 'ada' } as const;
    sequence.accept({ ...opened('came', '', FAR), device: 'd1', fact }, 'aisle', FAR);
    const { outcome } = sequence.accept(opened('back', TODAY, NOON), 'coordinator', NOON);
    expect(outcome.why).toEqual({ code: 'dayOver' });
    expect(sequence.board.day.date).toBe('2037-01-18');
  });

  test.each([
    ['a tablet', { device: 'd1' }],
    ['a tablet of somebody', { device: 'd1', by: 'ines' }],
    ['somebody in the hub’s name', { by: 'ines' }],
  ])('is not left for %s', (_who, more) => {
    expect(decide(ahead().board, opened('back', TODAY, NOON, more)).why).toEqual({ code: 'dayOver' });
  });

  test('is left for today only, not for any other day', () => {
    for (const date of ['2026-05-10', '2026-05-12', '2037-01-18'])
      expect(decide(ahead().board, opened('back', date, NOON)).why).toEqual({ code: 'dayOver' });
  });

  test('a horse held for today stays held when a clock goes back, and is free when the next day comes', () => {
    const sequence = ahead();
    const fact = { kind: 'horsePulled', horse: 'fern', why: 'heat', hold: 'today' } as const;
    sequence.accept({ ...opened('p', '', NOON), device: 'd1', by: 'ines', fact }, 'door', FAR);
    sequence.accept(opened('back', TODAY, NOON), 'coordinator', NOON);
    expect(sequence.board.day.date).toBe(TODAY);
    expect(sequence.board.barn.horses['fern']?.holds).toHaveLength(1);
    sequence.accept(opened('next', '2026-05-12', NOON), 'coordinator', NOON);
    expect(sequence.board.barn.horses['fern']?.holds).toEqual([]);
  });

  test('whatever came before: the hub may go back exactly when the day lies ahead and holds nothing', () => {
    const now = fc.integer({ min: -3, max: 3 }).map((days) => NOON + days * 86_400_000);
    fc.assert(
      fc.property(
        ops(opFact),
        now,
        fc.boolean(),
        fc.constantFrom<Role>('aisle', 'door'),
        (taps, at, far, role) => {
          const sequence = begin();
          const entries: Entry[] = [];
          const take = (op: Op, when: number): Op => {
            const { entry } = sequence.accept(op, 'coordinator', when);
            if (entry) entries.push(entry);
            return op;
          };
          for (const op of taps) take(op, HOUR_LATER);
          if (far) take(opened('far', '2037-01-18', FAR), FAR);
          const { barn, day } = sequence.board;
          const today = wallTimeAt(at, barn.zone).date;
          const may = day.date === null || day.date < today || (day.date > today && isUnused(day));
          take(opened('today', today, at), at);
          expect(entries.at(-1)?.why).toEqual(may ? null : { code: 'dayOver' });
          if (may) expect(sequence.board.day).toEqual(emptyDay(today));
          else expect(sequence.board.day).toBe(day);
          expect(Board.safeParse(sequence.board).error?.issues ?? []).toEqual([]);
          // Who has the same entries, cut or whole, has the same board.
          expect(entries.reduce(evolve, smallBoard())).toEqual(sequence.board);
          const seen = entries
            .map((entry) => redactEntry(entry, role))
            .reduce(evolve, redactBoard(smallBoard(), role));
          expect(seen).toEqual(redactBoard(sequence.board, role));
          // A start that reads them again stands where this one stands.
          const again = begin();
          for (const entry of entries) again.replay(entry);
          expect(again.state).toEqual(sequence.state);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('what did not reach the disk', () => {
  test('is forgotten without a trace, whatever it was, and can come again', () => {
    fc.assert(
      fc.property(ops(opFact), fc.nat(), (taps, pick) => {
        const cut = pick % (taps.length + 1);
        const accept = (to: Sequence, op: Op): Entry[] => {
          const { entry } = to.accept(op, 'coordinator', HOUR_LATER);
          return entry ? [entry] : [];
        };
        const sequence = begin();
        for (const op of taps.slice(0, cut)) accept(sequence, op);
        const [mark, before] = [sequence.mark, sequence.state];
        const lost = taps.slice(cut).flatMap((op) => accept(sequence, op));
        const whole = sequence.state;
        expect(sequence.stateAt(mark)).toEqual(before);
        sequence.rewind(mark, lost);
        expect(sequence.state).toEqual(before);
        for (const op of taps.slice(cut)) accept(sequence, op);
        expect(sequence.state).toEqual(whole);
      }),
    );
  });
});
