/**
 * Which coefficients a linear design can tell, and the linear equations of the fit. Designs here have a handful of
 * columns, so plain elimination is enough.
 */

/** A pivot under this is nought (grading.md section 5). */
const NOUGHT = 1e-9;

interface RowSpace {
  /** Columns that span the design; the others are sums of these. Their count is the rank. */
  readonly pivots: readonly number[];
  /** For each column: its unit vector lies in the row space, so its coefficient is the same in every best fit. */
  readonly estimable: readonly boolean[];
}

/** Reduces the distinct rows of a design to echelon form. A unit vector in their span is then one of the rows left. */
export function rowSpace(design: readonly (readonly number[])[], columns: number): RowSpace {
  const rows = design.map((row) => [...row]);
  const pivots: number[] = [];
  for (let column = 0; column < columns; column++) {
    const top = pivots.length;
    const pivot = largestIn(rows, column, top);
    if (pivot === undefined) continue;
    [rows[top], rows[pivot]] = [rows[pivot], rows[top]];
    const by = rows[top][column];
    rows[top] = rows[top].map((entry) => entry / by);
    rows.forEach((row, r) => {
      if (r !== top) rows[r] = row.map((entry, c) => entry - row[column] * rows[top][c]);
    });
    pivots.push(column);
  }
  const estimable = Array.from({ length: columns }, (_, column) => {
    const row = rows[pivots.indexOf(column)];
    return row?.every((entry, c) => c === column || Math.abs(entry) < NOUGHT) ?? false;
  });
  return { pivots, estimable };
}

/**
 * Inverse of a symmetric matrix without negative eigenvalues, which is overwritten. A direction whose pivot is under
 * 1e-9 of the largest diagonal entry gets row and column 0: solving with it leaves that coefficient alone.
 */
export function symmetricInverse(matrix: readonly Float64Array[]): readonly Float64Array[] {
  const size = matrix.length;
  const swept = new Uint8Array(size);
  let scale = 0;
  for (let i = 0; i < size; i++) scale = Math.max(scale, matrix[i][i]);
  // Sweeping a symmetric matrix on its largest remaining diagonal turns the swept block into minus its inverse.
  for (;;) {
    let k = -1;
    for (let i = 0; i < size; i++) if (!swept[i] && (k < 0 || matrix[i][i] > matrix[k][k])) k = i;
    if (k < 0 || !(matrix[k][k] > NOUGHT * scale)) break;
    swept[k] = 1;
    sweep(matrix, k);
  }
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) matrix[i][j] = swept[i] && swept[j] ? -matrix[i][j] : 0;
  }
  return matrix;
}

function sweep(matrix: readonly Float64Array[], k: number): void {
  const by = matrix[k][k];
  const old = Float64Array.from(matrix[k]);
  for (let i = 0; i < matrix.length; i++) {
    for (let j = 0; j < matrix.length; j++) {
      if (i === k || j === k) matrix[i][j] = i === j ? -1 / by : old[i === k ? j : i] / by;
      else matrix[i][j] -= (old[i] * old[j]) / by;
    }
  }
}

function largestIn(rows: readonly (readonly number[])[], column: number, from: number): number | undefined {
  let best: number | undefined;
  for (let r = from; r < rows.length; r++) {
    const size = Math.abs(rows[r][column]);
    if (size >= NOUGHT && (best === undefined || size > Math.abs(rows[best][column]))) best = r;
  }
  return best;
}
