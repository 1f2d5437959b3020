/** Boards as they come about by tapping, at some moment of the day. */
import fc from 'fast-check';
import { Sequence } from '#core/day/sequence.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { NOON, opFact, ops, smallBoard } from './day-arbitraries.ts';

/** A board after some ops, the entries that led there, and a moment about then. */
export const moment = fc
  .record({ taps: ops(opFact), now: fc.integer({ min: -60, max: 5 * 60 }) })
  .map(({ taps, now }) => {
    const sequence = new Sequence({ board: smallBoard(), seq: 0, at: 0, seen: [] });
    const at = NOON + now * MINUTE_MS;
    const entries = taps.flatMap((op) => sequence.accept(op, 'coordinator', at).entry ?? []);
    return { board: sequence.board, entries, now: at };
  });
