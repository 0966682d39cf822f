/** What is measured, and what a coast-down comes out as. */

/** A number and its standard uncertainty, SI. */
export interface Measured {
  readonly value: number;
  readonly standard: number;
}

/** F0 + F1 v + F2 v^2: N, N s/m, N s^2/m^2. */
export type Terms = readonly [number, number, number];
