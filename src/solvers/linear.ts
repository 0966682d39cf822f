/** Small dense linear systems, solved in place. */

/**
 * LU decomposition with row exchanges of the `n` by `n` matrix in `a`, row by row; `pivots` gets the rows exchanged. False
 * if the matrix is singular or not finite.
 */
export function decompose(a: Float64Array, n: number, pivots: Int32Array): boolean {
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i * n + k]!) > Math.abs(a[best * n + k]!)) best = i;
    pivots[k] = best;
    if (best !== k) {
      for (let j = 0; j < n; j++) {
        const swapped = a[k * n + j]!;
        a[k * n + j] = a[best * n + j]!;
        a[best * n + j] = swapped;
      }
    }
    const pivot = a[k * n + k]!;
    if (!(Math.abs(pivot) > 0 && Math.abs(pivot) < Infinity)) return false;
    for (let i = k + 1; i < n; i++) {
      const factor = a[i * n + k]! / pivot;
      a[i * n + k] = factor;
      for (let j = k + 1; j < n; j++) a[i * n + j] = a[i * n + j]! - factor * a[k * n + j]!;
    }
  }
  return true;
}

/** Solves with a decomposed matrix; the `n` numbers of `b` from `offset` are replaced by the answer. */
export function substitute(a: Float64Array, n: number, pivots: Int32Array, b: Float64Array, offset: number): void {
  for (let k = 0; k < n; k++) {
    const row = offset + pivots[k]!;
    const value = b[row]!;
    b[row] = b[offset + k]!;
    b[offset + k] = value;
  }
  for (let i = 1; i < n; i++) {
    let sum = b[offset + i]!;
    for (let j = 0; j < i; j++) sum -= a[i * n + j]! * b[offset + j]!;
    b[offset + i] = sum;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[offset + i]!;
    for (let j = i + 1; j < n; j++) sum -= a[i * n + j]! * b[offset + j]!;
    b[offset + i] = sum / a[i * n + i]!;
  }
}
