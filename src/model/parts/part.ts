/** What a part that ships with axlewatt looks like: generic, without a brand, every number with a source and a spread. */
import type { Spread } from '../fields/input.ts';
import type { CabinSpec } from '../specs/cabin.ts';
import type { CellSpec } from '../specs/cell.ts';
import type { PackSpec } from '../specs/pack.ts';
import type { TyreSpec } from '../specs/tyre.ts';
import type { UnitSpec } from '../specs/unit.ts';

interface PartOf<Kind extends string, Values> {
  readonly kind: Kind;
  /** As a notebook writes it, snake_case. */
  readonly name: string;
  /** One line for people. */
  readonly title: string;
  /** Keys and SI units of the field table of this kind in `spec.ts`. What is missing is completed as for any part. */
  readonly values: Values;
  /** Spreads of single numbers; what is known of the spread of a list stands in `source`. */
  readonly spreads: { readonly [K in keyof Values]?: Spread };
  /** Where the numbers come from, and which of them are from memory. */
  readonly source: string;
}

export type CellPart = PartOf<'cell', CellSpec>;
export type PackPart = PartOf<'pack', Omit<PackSpec, 'cell'> & { readonly cell: CellSpec }>;
export type TyrePart = PartOf<'tyre', TyreSpec>;
export type CabinPart = PartOf<'cabin', CabinSpec>;
export type UnitPart = PartOf<'unit', UnitSpec>;
export type ShippedPart = CellPart | PackPart | TyrePart | UnitPart | CabinPart;

/** A rectangular spread (JCGM 100:2008, 4.3.7). */
export function between(low: number, high: number): Spread {
  return { kind: 'rectangular', low, high };
}
