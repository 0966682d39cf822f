/** One comparison of a number that the project computes with a number from outside it. */

export interface Check {
  /** Words joined by dots, unique: `air.standard.1000m.pressure`. */
  readonly id: string;
  /** What is compared, in one line. */
  readonly what: string;
  /** Where the expected number comes from, in words. */
  readonly source: string;
  readonly expected: number;
  /** Calls the project. The check is worth nothing if this could be right while the project is wrong. */
  readonly computed: () => number;
  /** Unit of both numbers; '1' for a pure number. */
  readonly unit: string;
  readonly tolerance: Tolerance;
  /** Why it is known not to hold: a disagreement that is shown. The day it does hold is noticed. */
  readonly missed?: string;
}

/** How far apart the numbers may be: in the unit, or as a share of the expected number. */
export type Tolerance = { readonly absolute: number } | { readonly relative: number };

/** Checks of one topic. */
export interface Topic {
  readonly title: string;
  /** Takes a minute, and many under the test runner: only `npm run proof` carries it out. */
  readonly slow?: true;
  readonly checks: readonly Check[];
}

/** Half a unit in the last place of a number as it was printed: `printed(2)` for 0.83. */
export function printed(decimals: number): Tolerance {
  return { absolute: 0.501 * 10 ** -decimals };
}

/** The digits that a closed form is asked for. */
export const EXACT: Tolerance = { relative: 1e-9 };

export const CLOSED_FORM = 'closed form, worked out with 30 digits';

/** Largest difference that `tolerance` allows. */
export function allowance(check: Check): number {
  const { tolerance, expected } = check;
  return 'absolute' in tolerance ? tolerance.absolute : tolerance.relative * Math.abs(expected);
}
