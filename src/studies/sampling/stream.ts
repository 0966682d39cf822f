/** Numbers spread evenly over (0, 1) for the samples of a study. */

/** A stream of points of the unit cube, each a function of its index alone. */
export interface Stream {
  readonly dimensions: number;
  /** Writes point `index` (0, 1 ...): `dimensions` numbers inside (0, 1), never 0 nor 1. */
  readonly fill: (index: number, u: Float64Array) => void;
}

/**
 * Where the points come from. `random`: independent of each other. `sobol`: in every block of a power of two they fill the cube
 * evenly, and blocks are independent of each other; means and quantiles of smooth models become far more
 * accurate, and the scatter of the blocks still says how accurate.
 */
export type Source = 'random' | 'sobol';

/** Which stream of a study a draw takes its numbers from, and which of its numbers. */
export interface Place {
  readonly stream: string;
  readonly dimension: number;
}
