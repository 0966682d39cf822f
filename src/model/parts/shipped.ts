/** All parts that ship with axlewatt. */
import { cabins } from '../cabin/shipped.ts';
import { cells } from '../pack/cells.ts';
import { packs } from '../pack/shipped.ts';
import type { ShippedPart } from './part.ts';
import { tyres } from '../tyre/shipped.ts';
import { units } from '../drive/shipped.ts';

const ALL: readonly ShippedPart[] = [...cells, ...packs, ...tyres, ...units, ...cabins];

/** Every part that ships, or those of one kind, in the order of the reference. */
export function shippedParts(): readonly ShippedPart[];
export function shippedParts<K extends ShippedPart['kind']>(kind: K): readonly Extract<ShippedPart, { kind: K }>[];
export function shippedParts(kind?: ShippedPart['kind']): readonly ShippedPart[] {
  return kind === undefined ? ALL : ALL.filter(part => part.kind === kind);
}

/** The part of this kind with this name; null where there is none. */
export function shippedPart<K extends ShippedPart['kind']>(
  kind: K,
  name: string,
): Extract<ShippedPart, { kind: K }> | null {
  return shippedParts(kind).find(part => part.name === name) ?? null;
}
