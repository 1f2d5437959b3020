/** Inverse of a symmetric positive definite matrix, as small as a barn: one row a horse and a person. */

/**
 * Inverts by Cholesky's decomposition. Only the lower triangle is read.
 *
 * @param matrix square, rows of equal length
 * @returns the full inverse
 * @throws RangeError when the matrix is not positive definite, which is a bug in the caller
 */
export function invertPositiveDefinite(matrix: readonly (readonly number[])[]): number[][] {
  const size = matrix.length;
  const lower = decompose(matrix);
  const inverse = Array.from({ length: size }, () => Array.from({ length: size }, () => 0));
  for (let column = 0; column < size; column += 1) {
    const x = new Float64Array(size);
    for (let i = column; i < size; i += 1) {
      let sum = i === column ? 1 : 0;
      for (let j = column; j < i; j += 1) sum -= at(lower, i, j) * (x[j] ?? 0);
      x[i] = sum / at(lower, i, i);
    }
    for (let i = size - 1; i >= 0; i -= 1) {
      let sum = x[i] ?? 0;
      for (let j = i + 1; j < size; j += 1) sum -= at(lower, j, i) * (x[j] ?? 0);
      x[i] = sum / at(lower, i, i);
    }
    for (let i = 0; i < size; i += 1) {
      const row = inverse[i];
      if (row) row[column] = x[i] ?? 0;
    }
  }
  return inverse;
}

function decompose(matrix: readonly (readonly number[])[]): Float64Array[] {
  const rows: Float64Array[] = [];
  for (const [i, source] of matrix.entries()) {
    const row = new Float64Array(matrix.length);
    for (let j = 0; j <= i; j += 1) {
      const other = j === i ? row : (rows[j] ?? row);
      let sum = source[j] ?? Number.NaN;
      for (let k = 0; k < j; k += 1) sum -= (row[k] ?? 0) * (other[k] ?? 0);
      if (j < i) row[j] = sum / (other[j] ?? Number.NaN);
      else if (sum > 0) row[j] = Math.sqrt(sum);
      else throw new RangeError('matrix is not positive definite');
    }
    rows.push(row);
  }
  return rows;
}

function at(rows: readonly Float64Array[], i: number, j: number): number {
  return rows[i]?.[j] ?? Number.NaN;
}
