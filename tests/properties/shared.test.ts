/** Sharing what did not change, against `structuredClone` and deep equality. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { shared, sharedBy } from '#core/day/views/shared.ts';

const leaf = fc.oneof(fc.integer(), fc.string(), fc.boolean(), fc.constant(null));
const data = fc.letrec((tie) => ({
  one: fc.oneof(
    { maxDepth: 4 },
    leaf,
    fc.array(tie('one'), { maxLength: 4 }),
    fc.dictionary(fc.string({ maxLength: 3 }), tie('one'), { maxKeys: 4, noNullPrototype: true }),
    fc.array(fc.string({ maxLength: 2 })).map((texts) => new Set(texts)),
  ),
})).one;

it('says the same as what is now', () => {
  fc.assert(
    fc.property(data, data, (before, now) => {
      expect(shared(before, structuredClone(now))).toEqual(now);
    }),
  );
});

it('is what was before when nothing changed', () => {
  fc.assert(
    fc.property(data, (before) => {
      expect(shared(before, structuredClone(before))).toBe(before);
    }),
  );
});

it('keeps every part but the one that changed, also where parts change places', () => {
  const before = [
    { id: 'a', stages: [{ state: 'done' }, { state: 'next' }], ticked: new Set(['pad']) },
    { id: 'b', stages: [{ state: 'next' }], ticked: new Set<string>() },
  ];
  const now = structuredClone(before).reverse();
  now[1]!.stages[1]!.state = 'done';
  const next = sharedBy(before, now, ({ id }) => id);
  expect(next).toEqual(now);
  expect(next[0]).toBe(before[1]);
  expect(next[1]).not.toBe(before[0]);
  expect(next[1]!.stages[0]).toBe(before[0]!.stages[0]);
  expect(next[1]!.ticked).toBe(before[0]!.ticked);
});
