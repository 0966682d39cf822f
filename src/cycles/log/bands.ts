/** Linear equations whose symmetric matrix has three bands beside its diagonal, by L D L^T (Golub and Van Loan, Matrix Computations). */

/** The diagonal and the bands below it. */
export const WIDTH = 4;

/** Entry `WIDTH` j + k stands in row j + k and column j. */
export type Bands = Float64Array;

/** A matrix with nothing but its diagonal. */
export function openBands(diagonal: Float64Array): Bands {
  const bands = new Float64Array(WIDTH * diagonal.length);
  for (let i = 0; i < diagonal.length; i++) bands[WIDTH * i] = diagonal[i] ?? 0;
  return bands;
}

/** Adds to an entry, `below` rows under the diagonal of a column. */
export function add(bands: Bands, column: number, below: number, more: number): void {
  const at = WIDTH * column + below;
  bands[at] = (bands[at] ?? 0) + more;
}

/** The solution for each right side; the matrix is positive definite. */
export function solveBands(bands: Bands, rights: readonly Float64Array[]): readonly Float64Array[] {
  const factors = factored(bands);
  return rights.map(right => solved(factors, right));
}

/** L and D: entry `WIDTH` i is that of D, entry `WIDTH` i + k that of L in row i, k columns before the diagonal. */
function factored(bands: Bands): Float64Array {
  const factors = new Float64Array(bands.length);
  const rows = bands.length / WIDTH;
  for (let i = 0; i < rows; i++) {
    let pivot = bands[WIDTH * i] ?? 0;
    for (let k = Math.min(i, WIDTH - 1); k > 0; k--) {
      const j = i - k;
      let sum = bands[WIDTH * j + k] ?? 0;
      for (let m = k + 1; m < WIDTH && m <= i; m++) {
        sum -= (factors[WIDTH * i + m] ?? 0) * (factors[WIDTH * (i - m)] ?? 0) * (factors[WIDTH * j + m - k] ?? 0);
      }
      const d = factors[WIDTH * j] ?? 1;
      const link = sum / d;
      factors[WIDTH * i + k] = link;
      pivot -= link * link * d;
    }
    factors[WIDTH * i] = pivot;
  }
  return factors;
}

function solved(factors: Float64Array, right: Float64Array): Float64Array {
  const x = right.slice();
  const last = x.length - 1;
  for (let i = 0; i <= last; i++) {
    let sum = x[i] ?? 0;
    for (let k = 1; k < WIDTH && k <= i; k++) sum -= (factors[WIDTH * i + k] ?? 0) * (x[i - k] ?? 0);
    x[i] = sum;
  }
  for (let i = last; i >= 0; i--) {
    let sum = (x[i] ?? 0) / (factors[WIDTH * i] ?? 1);
    for (let k = 1; k < WIDTH && i + k <= last; k++) sum -= (factors[WIDTH * (i + k) + k] ?? 0) * (x[i + k] ?? 0);
    x[i] = sum;
  }
  return x;
}
