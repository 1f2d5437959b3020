/** The matching behind proposals against linear-sum-assignment and an exact integer program (HiGHS). */
import fc from 'fast-check';
import loadHighs from 'highs';
import { linearSumAssignment } from 'linear-sum-assignment';
import { expect, test } from 'vitest';
import { match } from '#core/plan/propose/match.ts';
import { sourceOfAll } from '../source.ts';

sourceOfAll('linear-sum-assignment', 'HiGHS, an exact integer program');

// Its types describe the CommonJS build, in which the loader is the module's `default`.
const highs = await (loadHighs as unknown as typeof loadHighs.default)();

const cell = fc.oneof({ weight: 2, arbitrary: fc.nat(900) }, { weight: 2, arbitrary: fc.constant(Infinity) });
const table = (most: number): fc.Arbitrary<number[][]> =>
  fc.tuple(fc.integer({ min: 1, max: most }), fc.integer({ min: 1, max: most })).chain(([rows, columns]) =>
    fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), {
      minLength: rows,
      maxLength: rows,
    }),
  );

type Answer = { readonly filled: number; readonly cost: number };

function ours(costs: readonly (readonly number[])[]): Answer {
  const columns = match(costs);
  const given = columns.filter((column) => column !== null);
  expect(new Set(given).size).toBe(given.length);
  const each = columns.flatMap((column, row) => (column === null ? [] : (costs[row]?.[column] ?? NaN)));
  expect(each.every((cost) => cost < Infinity)).toBe(true);
  return { filled: given.length, cost: each.reduce((sum, cost) => sum + cost, 0) };
}

test('500 tables, more rows than columns and fewer: as linear-sum-assignment', () => {
  /** More than any sum of allowed cells. */
  const FORBIDDEN = 1e6;
  fc.assert(
    fc.property(table(12), (costs) => {
      const width = costs[0]?.length ?? 0;
      const square = costs.map((row) => [
        ...row.map((cost) => (cost === Infinity ? FORBIDDEN : cost)),
        ...costs.map(() => FORBIDDEN),
      ]);
      const { rowAssignments } = linearSumAssignment(square, { maximaze: false });
      const each = costs.flatMap((row, i) => {
        const column = rowAssignments[i] ?? width;
        const cost = column < width ? (row[column] ?? Infinity) : Infinity;
        return cost === Infinity ? [] : cost;
      });
      const theirs = { filled: each.length, cost: each.reduce((sum, cost) => sum + cost, 0) };
      expect(ours(costs)).toEqual(theirs);
    }),
    { numRuns: 500 },
  );
});

test('60 tables: as an integer program', () => {
  fc.assert(
    fc.property(table(6), (costs) => {
      const cells = costs.flatMap((row, i) =>
        row.flatMap((cost, j) => (cost === Infinity ? [] : { name: `x${i}_${j}`, i, j, cost })),
      );
      if (cells.length === 0) {
        expect(ours(costs)).toEqual({ filled: 0, cost: 0 });
        return;
      }
      const sum = (some: readonly { name: string }[]): string => some.map(({ name }) => name).join(' + ');
      const limit = (some: readonly { name: string }[], name: string): string =>
        some.length > 0 ? ` ${name}: ${sum(some)} <= 1\n` : '';
      const columns = costs[0]?.map((_, j) => j) ?? [];
      // A filled row is worth more than all costs together.
      const worth = 10_000;
      const solved = highs.solve(
        `Maximize\n obj: ${cells.map(({ name, cost }) => `${worth - cost} ${name}`).join(' + ')}\nSubject To\n` +
          costs
            .map((_, i) =>
              limit(
                cells.filter((one) => one.i === i),
                `r${i}`,
              ),
            )
            .join('') +
          columns
            .map((j) =>
              limit(
                cells.filter((one) => one.j === j),
                `c${j}`,
              ),
            )
            .join('') +
          `Binary\n ${cells.map(({ name }) => name).join(' ')}\nEnd`,
      );
      const { filled, cost } = ours(costs);
      expect(filled * worth - cost).toBeCloseTo(solved.ObjectiveValue, 3);
    }),
    { numRuns: 60 },
  );
});
