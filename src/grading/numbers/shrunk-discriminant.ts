/**
 * Linear discriminant with a shrunk covariance, equal priors: each class is standardised, its covariance shrunk to
 * the identity by Ledoit & Wolf's (2004) closed form, brought back to its scale, and the classes' mean taken. As
 * scikit-learn's `LinearDiscriminantAnalysis(solver='lsqr', shrinkage='auto')` does it.
 */
interface Classes {
  readonly classes: number;
  readonly dimensions: number;
  /** Row by row, finite. */
  readonly values: Float64Array;
  /** Rows of each block. */
  readonly blocks: readonly (readonly number[])[];
}

/** For each row the class it is put into by the discriminant of all other blocks. */
type LeaveOneOut = (labels: Uint16Array) => Uint16Array;

/** A spread under this is none. */
const SAME = 1e-20;

/**
 * Leaves one block out at a time. Made for many labels of the same rows: sums are taken once for all labels' classes,
 * and a block is taken off them; a permutation test asks this some ten thousand times, hence the plain loops.
 * A class needs two rows outside each block.
 */
export function leaveOneOut({ classes, dimensions: d, values, blocks }: Classes): LeaveOneOut {
  const rows = values.length / d;
  const size = (d * (d + 1)) / 2;
  const products = productsOf(values, d, size);
  const blockOf = new Int32Array(rows);
  blocks.forEach((of, block) => of.forEach((row) => (blockOf[row] = block)));

  const counts = new Float64Array(classes);
  const allSums = new Float64Array(classes * d);
  const allCross = new Float64Array(classes * size);
  const fourths = new Float64Array(classes);
  const left = new Float64Array(classes);
  const means = new Float64Array(classes * d);
  const scales = new Float64Array(classes * d);
  const inverses = new Float64Array(classes * d);
  const cross = new Float64Array(classes * size);
  const covariance = new Float64Array(size);
  const inverseDiagonal = new Float64Array(d);
  const turnedMeans = new Float64Array(classes * d);
  const halfSquares = new Float64Array(classes);
  const turned = new Float64Array(d);

  return (labels) => {
    const guesses = new Uint16Array(rows);
    counts.fill(0);
    allSums.fill(0);
    allCross.fill(0);
    for (let row = 0; row < rows; row++) {
      const c = labels[row];
      counts[c]++;
      add(allSums, c * d, values, row * d, d, 1);
      add(allCross, c * size, products, row * size, size, 1);
    }
    blocks.forEach((own, block) => {
      left.set(counts);
      means.set(allSums);
      cross.set(allCross);
      for (const row of own) {
        const c = labels[row];
        left[c]--;
        add(means, c * d, values, row * d, d, -1);
        add(cross, c * size, products, row * size, size, -1);
      }
      for (let c = 0; c < classes; c++) {
        const one = 1 / left[c];
        for (let i = 0, t = 0; i < d; i++, t += i + 1) {
          const at = c * d + i;
          means[at] *= one;
          const variance = cross[c * size + t] * one - means[at] * means[at];
          scales[at] = variance > SAME ? Math.sqrt(variance) : 1;
          inverses[at] = 1 / scales[at];
        }
      }
      fourths.fill(0);
      addFourths(fourths, values, labels, blockOf, block, means, inverses, d);
      covariance.fill(0);
      for (let c = 0; c < classes; c++) {
        addShrunk(covariance, cross, c, classes, left[c], fourths[c], means, scales, inverses, d);
      }
      decompose(covariance, inverseDiagonal, d);
      for (let c = 0; c < classes; c++) {
        forward(covariance, inverseDiagonal, means, c * d, turnedMeans, c * d, d);
        halfSquares[c] = 0.5 * product(turnedMeans, c * d, turnedMeans, c * d, d);
      }
      for (const row of own) {
        forward(covariance, inverseDiagonal, values, row * d, turned, 0, d);
        let most = -Infinity;
        for (let c = 0; c < classes; c++) {
          const score = product(turned, 0, turnedMeans, c * d, d) - halfSquares[c];
          if (score > most) {
            most = score;
            guesses[row] = c;
          }
        }
      }
    });
    return guesses;
  };
}

function add(to: Float64Array, at: number, from: Float64Array, start: number, n: number, sign: number): void {
  for (let i = 0; i < n; i++) to[at + i] += sign * from[start + i];
}

function product(a: Float64Array, from: number, b: Float64Array, start: number, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += a[from + i] * b[start + i];
  return sum;
}

/** By class, over the rows outside the block: the sum of the fourth powers of their standardised length. */
function addFourths(
  fourths: Float64Array,
  values: Float64Array,
  labels: Uint16Array,
  blockOf: Int32Array,
  block: number,
  means: Float64Array,
  inverses: Float64Array,
  d: number,
): void {
  for (let row = 0, at = 0; row < labels.length; row++, at += d) {
    if (blockOf[row] === block) continue;
    const base = labels[row] * d;
    let squares = 0;
    for (let i = 0; i < d; i++) {
      const z = (values[at + i] - means[base + i]) * inverses[base + i];
      squares += z * z;
    }
    fourths[labels[row]] += squares * squares;
  }
}

/** Adds a class's shrunk covariance, back in its own scale, over the number of classes. */
function addShrunk(
  covariance: Float64Array,
  cross: Float64Array,
  c: number,
  classes: number,
  n: number,
  fourth: number,
  means: Float64Array,
  scales: Float64Array,
  inverses: Float64Array,
  d: number,
): void {
  const one = 1 / n;
  const size = covariance.length;
  const base = c * d;
  let trace = 0;
  let squares = 0;
  for (let i = 0, t = c * size; i < d; i++) {
    const mean = means[base + i];
    const inverse = inverses[base + i];
    for (let j = 0; j <= i; j++, t++) {
      const z = (cross[t] * one - mean * means[base + j]) * inverse * inverses[base + j];
      cross[t] = z;
      squares += 2 * z * z;
    }
    trace += cross[t - 1];
    squares -= cross[t - 1] * cross[t - 1];
  }
  const mu = trace / d;
  const delta = (squares - 2 * mu * trace + d * mu * mu) / d;
  const beta = Math.min((fourth * one - squares) / (d * n), delta);
  const shrinkage = d === 1 || beta === 0 ? 0 : beta / delta;
  const kept = (1 - shrinkage) / classes;
  const even = (shrinkage * mu) / classes;
  for (let i = 0, t = 0; i < d; i++) {
    const scale = scales[base + i];
    for (let j = 0; j <= i; j++, t++) covariance[t] += kept * scale * scales[base + j] * cross[c * size + t];
    covariance[t - 1] += even * scale * scale;
  }
}

/** Solves L·y = x, L a lower triangle whose diagonal is inverted apart. */
function forward(
  root: Float64Array,
  inverseDiagonal: Float64Array,
  x: Float64Array,
  from: number,
  y: Float64Array,
  to: number,
  d: number,
): void {
  for (let i = 0, t = 0; i < d; i++, t++) {
    let entry = x[from + i];
    for (let k = 0; k < i; k++, t++) entry -= root[t] * y[to + k];
    y[to + i] = entry * inverseDiagonal[i];
  }
}

/** Of each row the products of its values, lower triangle by rows. */
function productsOf(values: Float64Array, d: number, size: number): Float64Array {
  const rows = values.length / d;
  const products = new Float64Array(rows * size);
  for (let row = 0, t = 0; row < rows; row++) {
    for (let i = 0; i < d; i++) {
      for (let j = 0; j <= i; j++, t++) products[t] = values[row * d + i] * values[row * d + j];
    }
  }
  return products;
}

/** Cholesky's root in place of a lower triangle, diagonal inverted apart; a direction without spread counts for nothing. */
function decompose(matrix: Float64Array, inverseDiagonal: Float64Array, d: number): void {
  for (let i = 0, row = 0; i < d; row += i + 1, i++) {
    for (let j = 0, other = 0; j <= i; other += j + 1, j++) {
      let entry = matrix[row + j];
      for (let k = 0; k < j; k++) entry -= matrix[row + k] * matrix[other + k];
      if (j < i) matrix[row + j] = entry * inverseDiagonal[j];
      else inverseDiagonal[i] = entry > SAME ? 1 / Math.sqrt(entry) : 0;
    }
  }
}
