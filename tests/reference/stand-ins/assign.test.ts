/** The assignment solver against published examples, all permutations and another solver. */
import fc from 'fast-check';
import { linearSumAssignment } from 'linear-sum-assignment';
import { describe, expect, test } from 'vitest';
import { assign } from '#core/plan/standIns/assign.ts';
import { source, sourceOfAll } from '../source.ts';

sourceOfAll('linear-sum-assignment, and all permutations');

describe(
  'textbook examples',
  source('Inputs from memory', 'minima checked by trying all orders, and the 4 × 4 by munkres-js too'),
  () => {
    test.each([
      [
        [
          [4, 1, 3],
          [2, 0, 5],
          [3, 2, 2],
        ],
        5,
        [1, 0, 2],
      ],
      [
        [
          [82, 83, 69, 92],
          [77, 37, 49, 92],
          [11, 69, 5, 86],
          [8, 9, 98, 23],
        ],
        140,
        [2, 1, 0, 3],
      ],
      [
        [
          [250, 400, 350],
          [400, 600, 350],
          [200, 400, 250],
        ],
        950,
        [1, 2, 0],
      ],
    ])('%j: %i', (matrix, cost, columns) => {
      expect(assign(matrix)).toEqual({ cost, columns });
      expect(bruteForce(matrix)).toBe(cost);
    });

    test('the most instead of the least: 11 and 344', () => {
      const most = (matrix: number[][]) => assign(matrix.map((row) => row.map((cost) => -cost)))?.cost;
      expect(
        most([
          [4, 1, 3],
          [2, 0, 5],
          [3, 2, 2],
        ]),
      ).toBe(-11);
      expect(
        most([
          [82, 83, 69, 92],
          [77, 37, 49, 92],
          [11, 69, 5, 86],
          [8, 9, 98, 23],
        ]),
      ).toBe(-344);
    });
  },
);

const allowed = fc.integer({ min: -1000, max: 1000 });
const sizes = (most: number) =>
  fc
    .integer({ min: 1, max: most })
    .chain((rows) => fc.tuple(fc.constant(rows), fc.integer({ min: rows, max: most + 2 })));

function matrix(most: number, cell: fc.Arbitrary<number>): fc.Arbitrary<number[][]> {
  return sizes(most).chain(([rows, columns]) =>
    fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), {
      minLength: rows,
      maxLength: rows,
    }),
  );
}

test('all permutations of small tables, with forbidden cells', () => {
  const cell = fc.oneof({ weight: 2, arbitrary: allowed }, { weight: 1, arbitrary: fc.constant(Infinity) });
  fc.assert(
    fc.property(matrix(5, cell), (costs) => {
      const found = assign(costs);
      expect(found?.cost ?? Infinity).toBe(bruteForce(costs));
      if (found)
        expect(found.columns.reduce((sum, column, row) => sum + (costs[row]?.[column] ?? NaN), 0)).toBe(
          found.cost,
        );
    }),
    { numRuns: 500 },
  );
});

test('1000 random tables, square and not, with forbidden cells: as linear-sum-assignment', () => {
  /** Stands for a forbidden cell there: more than any sum of allowed ones. */
  const FORBIDDEN = 1e7;
  const cell = fc.oneof({ weight: 3, arbitrary: allowed }, { weight: 1, arbitrary: fc.constant(Infinity) });
  let feasible = 0;
  fc.assert(
    fc.property(matrix(14, cell), (costs) => {
      const found = assign(costs);
      const other = linearSumAssignment(
        costs.map((row) => row.map((cost) => (cost === Infinity ? FORBIDDEN : cost))),
        { maximaze: false },
      );
      const total = costs.reduce((sum, row, i) => sum + (row[other.rowAssignments[i] ?? -1] ?? NaN), 0);
      expect(found?.cost ?? Infinity).toBe(total);
      if (found) {
        feasible += 1;
        expect(new Set(found.columns).size).toBe(costs.length);
      }
    }),
    { numRuns: 1000 },
  );
  expect(feasible).toBeGreaterThan(300);
});

test('no rows cost nothing; more rows than columns cannot be', () => {
  expect(assign([])).toEqual({ columns: [], cost: 0 });
  expect(assign([[1], [2]])).toBeNull();
});

/** The least over every way to give each row a column of its own. */
function bruteForce(costs: readonly (readonly number[])[], row = 0, used: readonly number[] = []): number {
  const cells = costs[row];
  if (!cells) return 0;
  return Math.min(
    ...cells.map((cost, column) =>
      used.includes(column) || cost === Infinity
        ? Infinity
        : cost + bruteForce(costs, row + 1, [...used, column]),
    ),
    Infinity,
  );
}
