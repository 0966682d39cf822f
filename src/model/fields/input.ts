/** A number that knows how certain it is and where it came from. SI inside, always. */

/** Spread of an uncertain number (JCGM 100:2008): a standard uncertainty, or the limits of a rectangle. SI units. */
export type Spread =
  | { readonly kind: 'normal'; readonly standard: number }
  | { readonly kind: 'rectangular'; readonly low: number; readonly high: number };

/** Where a number came from. */
export type Origin =
  | { readonly kind: 'given'; readonly file: string; readonly line: number; readonly column: number }
  | { readonly kind: 'computed'; readonly formula: string }
  | { readonly kind: 'assumed'; readonly source: string };

/** One input of a calculation, as the report lists it. */
export interface Input {
  /** Path of the field in words of the notebook: `coupe.drive.unit.peak_power`. */
  readonly path: string;
  /** Value in SI units; text for a choice or a name. */
  readonly value: number | string;
  /** SI unit of the value as `units.ts` writes it; '1' for a pure number, '' for text. */
  readonly unit: string;
  /** Unit that people read it in. */
  readonly display: string;
  readonly spread?: Spread;
  /** Source of the spread where the value was given and its spread was not. */
  readonly spreadSource?: string;
  readonly origin: Origin;
}
