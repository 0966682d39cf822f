/**
 * Positions that were measured with noise, smoothed: the curve near them whose acceleration changes seldom, so that the end of a ramp
 * stays a corner (l1 trend filtering: Kim, Koh, Boyd and Gorinevsky, SIAM Review 51 (2009) 339-360, here for acceleration, by
 * reweighted least squares). How near is found from the readings themselves: the stiffness that best foretells readings which
 * were left out (cross-validation: Craven and Wahba, Numer. Math. 31 (1979) 377-403). Noise that is alike from reading to
 * reading, as receivers make it when they filter, cannot be told from the way and stays.
 */
import * as elementary from '../../elementary.ts';
import { add, type Bands, openBands, solveBands, WIDTH } from './bands.ts';

export interface Smoothed {
  /** m, as many columns as were given. */
  readonly columns: readonly Float64Array[];
  /** m, root mean square of what was taken off in each direction; 0 where the readings are left as they are. */
  readonly noise: number;
}

/** Every so many readings are left out at a time. */
const FOLDS = 5;
/** Powers of ten of the stiffness, and half of one about the best; at the first one noise below a centimetre is left alone. */
const SOFTEST = -3;
const STIFFEST = 3;
/** Readings from which the stiffness is found: half an hour of seconds. */
const TRIED = 1800;
/** Readings below which there is nothing to tell noise from. */
const FEWEST = 12;
/** m/s2 below which changes of acceleration count by their square. */
const SMALL = 0.02;
/** Rounds of reweighting, and those that are enough to compare stiffnesses. */
const ROUNDS = 20;
const TRIAL_ROUNDS = 8;
/** Weight of a reading that is left out: enough to keep the equations regular, too little to matter. */
const NEXT_TO_NOTHING = 1e-9;

/** @param time s, rising. @param columns m, coordinates at these times. */
export function smoothed(time: Float64Array, columns: readonly Float64Array[]): Smoothed {
  if (time.length < FEWEST) return { columns, noise: 0 };
  const tried = columns.map(column => column.subarray(0, TRIED));
  const power = bestPower(time.subarray(0, TRIED), tried);
  if (power === SOFTEST) return { columns, noise: 0 };
  const all = new Float64Array(time.length).fill(1);
  const found = fitted(changesOf(time), columns, elementary.pow(10, power), all, ROUNDS);
  return { columns: found, noise: Math.sqrt(squares(columns, found, all) / (columns.length * time.length)) };
}

/** Power of ten of the stiffness that foretells best. */
function bestPower(time: Float64Array, columns: readonly Float64Array[]): number {
  const changes = changesOf(time);
  const folds = Array.from({ length: FOLDS }, (_, fold) =>
    time.map((_t, i) => (i % FOLDS === fold && i > 0 && i < time.length - 1 ? 1 : 0)),
  );
  let [best, least] = [SOFTEST, Infinity];
  const attempt = (power: number): void => {
    let sum = 0;
    for (const left of folds) {
      const weights = left.map(out => (out === 1 ? NEXT_TO_NOTHING : 1));
      sum += squares(columns, fitted(changes, columns, elementary.pow(10, power), weights, TRIAL_ROUNDS), left);
    }
    if (sum < least) [best, least] = [power, sum];
  };
  for (let power = SOFTEST; power <= STIFFEST; power++) attempt(power);
  if (best === SOFTEST) return best;
  const middle = best;
  for (const half of [-0.5, 0.5]) attempt(middle + half);
  return best;
}

/** Sum of the squared distances at the readings that count. */
function squares(columns: readonly Float64Array[], found: readonly Float64Array[], counts: Float64Array): number {
  let sum = 0;
  for (const [k, column] of columns.entries()) {
    const near = found[k] ?? column;
    for (let i = 0; i < column.length; i++) {
      if (counts[i] === 1) sum += elementary.pow((column[i] ?? 0) - (near[i] ?? 0), 2);
    }
  }
  return sum;
}

/** Four numbers a piece: the change of acceleration, m/s2, as a sum over four readings from each on. */
function changesOf(time: Float64Array): Float64Array {
  const changes = new Float64Array(WIDTH * Math.max(0, time.length - 3));
  for (let i = 0; i + 3 < time.length; i++) {
    const [t0 = 0, t1 = 0, t2 = 0, t3 = 0] = time.subarray(i, i + 4);
    const [a, b, c] = [t1 - t0, t2 - t1, t3 - t2];
    changes[WIDTH * i] = -2 / (a * (a + b));
    changes[WIDTH * i + 1] = 2 / (b * (b + c)) + 2 / (a * b);
    changes[WIDTH * i + 2] = -2 / (b * c) - 2 / (b * (a + b));
    changes[WIDTH * i + 3] = 2 / (c * (b + c));
  }
  return changes;
}

/** Least squares of the readings, and the sizes of the changes of acceleration times the stiffness. */
function fitted(
  changes: Float64Array,
  columns: readonly Float64Array[],
  stiffness: number,
  weights: Float64Array,
  rounds: number,
): readonly Float64Array[] {
  const size = new Float64Array(changes.length / WIDTH).fill(1);
  let found = columns;
  for (let round = 0; round < rounds; round++) {
    const bands = openBands(weights);
    for (let i = 0; i < size.length; i++) stiffen(bands, changes, i, stiffness / (size[i] ?? 1));
    found = solveBands(
      bands,
      columns.map(column => column.map((value, i) => value * (weights[i] ?? 0))),
    );
    for (let i = 0; i < size.length; i++) size[i] = sizeOf(changes, i, found);
  }
  return found;
}

function stiffen(bands: Bands, changes: Float64Array, at: number, weight: number): void {
  for (let a = 0; a < WIDTH; a++) {
    const one = weight * (changes[WIDTH * at + a] ?? 0);
    for (let b = 0; b <= a; b++) add(bands, at + b, a - b, one * (changes[WIDTH * at + b] ?? 0));
  }
}

/** m/s2 by which the acceleration changes there, all directions together. */
function sizeOf(changes: Float64Array, at: number, columns: readonly Float64Array[]): number {
  let sum = SMALL * SMALL;
  for (const column of columns) {
    let change = 0;
    for (let a = 0; a < WIDTH; a++) change += (changes[WIDTH * at + a] ?? 0) * (column[at + a] ?? 0);
    sum += change * change;
  }
  return Math.sqrt(sum);
}
