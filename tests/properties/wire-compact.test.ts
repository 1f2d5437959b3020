/** What is left out of a message on the wire comes back in it; that is our own claim, so there is no outside source. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Sequence } from '#core/day/sequence.ts';
import { packed, unpacked } from '#core/wire/compact.ts';
import { parseFrame } from '#core/wire/frame.ts';
import { FromHub } from '#core/wire/messages.ts';
import { NOON, opFact, ops as opsOf, smallBoard } from './day-arbitraries.ts';

const read = (text: string): FromHub | null => parseFrame(FromHub, text, unpacked);

test('entries and answers arrive as they were sent, one or many at a time', () => {
  fc.assert(
    fc.property(opsOf(opFact, 8), fc.nat({ max: 3_600_000 }), (ops, late) => {
      const sequence = new Sequence({ board: smallBoard(), seq: 0, at: NOON, seen: [] });
      const taken = ops.map((op) => ({ id: op.id, ...sequence.accept(op, 'coordinator', NOON + late) }));
      const entries = taken.flatMap(({ entry }) => entry ?? []);
      const answers = taken.map(({ id, outcome }) => ({ id, ...outcome }));
      for (const message of [{ say: 'entries', entries } as const, { say: 'answered', answers } as const]) {
        expect(read(packed(message))).toEqual(message);
      }
    }),
  );
});

test('one entry in a frame costs at most a third more than the op as the tablet sent it', () => {
  const op = { id: 'abcdefghijklmnopqrst', device: 'tsrqponmlkjihgfedcba', by: 'ada', tappedAt: NOON };
  const fact = { kind: 'stageStarted', prep: 'fern.1', stage: 'feet' } as const;
  const entry = { ...op, seq: 9999, at: NOON + 250, facts: [fact], why: null };
  const sent = JSON.stringify({ ...op, fact }).length;
  expect(packed({ say: 'entries', entries: [entry] }).length).toBeLessThan(1.3 * sent);
});

test('anything else does not make it throw', () => {
  fc.assert(
    fc.property(fc.jsonValue(), fc.constantFrom('entry', 'entries', 'welcome', 'answered'), (value, say) => {
      const bad = { say, entries: value, answers: value, at: value, ago: value, fact: value };
      expect(() => unpacked(value)).not.toThrow();
      expect(() => unpacked(bad)).not.toThrow();
    }),
  );
});
