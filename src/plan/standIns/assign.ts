/**
 * Minimum-cost assignment of every row to a column of its own: shortest augmenting paths with dual prices.
 * Kuhn, Nav. Res. Log. Q. 2 (1955) 83; Jonker and Volgenant, Computing 38 (1987) 325. O(rows² · columns).
 */

export type Assignment = {
  /** Column of each row. */
  readonly columns: readonly number[];
  readonly cost: number;
};

/**
 * `cost[row][column]` in any unit; `Infinity`: not allowed. Columns may outnumber rows, not the other way round.
 * Null when the rows cannot all have a column. Exact as long as sums of costs stay below 2⁵³ in whole numbers.
 */
export function assign(cost: readonly (readonly number[])[]): Assignment | null {
  const width = cost[0]?.length ?? 0;
  if (cost.length > width) return null;
  const rowPrice = new Float64Array(cost.length);
  const columnPrice = new Float64Array(width);
  const rowOf = new Int32Array(width).fill(-1);
  for (let row = 0; row < cost.length; row += 1) {
    if (!augment(cost, row, { rowPrice, columnPrice, rowOf })) return null;
  }
  const columns = Array.from<number>({ length: cost.length }).fill(-1);
  rowOf.forEach((row, column) => {
    if (row >= 0) columns[row] = column;
  });
  return { columns, cost: columns.reduce((sum, column, row) => sum + (cost[row]?.[column] ?? 0), 0) };
}

type State = {
  readonly rowPrice: Float64Array;
  readonly columnPrice: Float64Array;
  /** The row a column is given to; -1: none. */
  readonly rowOf: Int32Array;
};

/** Gives `start` a column by the cheapest chain of rows that change theirs; false when there is none. */
function augment(cost: readonly (readonly number[])[], start: number, state: State): boolean {
  const { rowPrice, columnPrice, rowOf } = state;
  const width = rowOf.length;
  const distance = new Float64Array(width).fill(Infinity);
  const from = new Int32Array(width).fill(-1);
  const settled = new Uint8Array(width);
  const scanned = [{ row: start, at: 0 }];
  let row = start;
  let at = 0;
  let end = -1;

  while (end < 0) {
    const costs = cost[row] ?? [];
    const price = rowPrice[row] ?? 0;
    let nearest = -1;
    let least = Infinity;
    for (let column = 0; column < width; column += 1) {
      if (settled[column] === 1) continue;
      const reach = at + (costs[column] ?? Infinity) - price - (columnPrice[column] ?? 0);
      if (reach < (distance[column] ?? Infinity)) {
        distance[column] = reach;
        from[column] = row;
      }
      const known = distance[column] ?? Infinity;
      if (known < least) {
        least = known;
        nearest = column;
      }
    }
    if (nearest < 0) return false;
    settled[nearest] = 1;
    at = least;
    const taken = rowOf[nearest] ?? -1;
    if (taken < 0) end = nearest;
    else {
      row = taken;
      scanned.push({ row, at });
    }
  }

  for (const one of scanned) rowPrice[one.row] = (rowPrice[one.row] ?? 0) + at - one.at;
  for (let column = 0; column < width; column += 1) {
    if (settled[column] !== 1) continue;
    columnPrice[column] = (columnPrice[column] ?? 0) - (at - (distance[column] ?? 0));
  }
  // Back along the chain: each row on it takes the column it was reached by.
  for (let column = end; ;) {
    const by = from[column] ?? start;
    const before = rowOf.indexOf(by);
    rowOf[column] = by;
    if (by === start) return true;
    column = before;
  }
}
