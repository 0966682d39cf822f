/** What a part that ships with axlewatt looks like: generic, without a brand, every number with a source and a spread. */
import type { Spread } from '../fields/input.ts';
import type { cabinFields } from '../cabin/fields.ts';
import type { SpecOf } from '../fields/table.ts';
import type { CellSpec, PackSpec } from '../pack/fields.ts';
import type { TyreSpec } from '../tyre/fields.ts';
import type { UnitSpec } from '../drive/fields.ts';

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
export type PackPart = PartOf<'pack', PackSpec>;
export type TyrePart = PartOf<'tyre', TyreSpec>;
export type CabinPart = PartOf<'cabin', SpecOf<typeof cabinFields>>;
export type UnitPart = PartOf<'unit', UnitSpec>;
export type ShippedPart = CellPart | PackPart | TyrePart | UnitPart | CabinPart;

/** A rectangular spread (JCGM 100:2008, 4.3.7). */
export function between(low: number, high: number): Spread {
  return { kind: 'rectangular', low, high };
}
