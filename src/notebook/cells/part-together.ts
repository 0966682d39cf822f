/** Numbers of a part that were measured together, and what becomes of them in a car that names the part. */
import { item, nth } from '../../columns.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { World } from '../context.ts';
import { entryOf, type LocatedMap, type LocatedNode } from '../document/located.ts';
import { keyOf, writtenKey } from '../fields/read-context.ts';
import type { Product } from './yield.ts';
import type { Group } from './together.ts';

/** Groups of the parts that a mapping names, with paths below it; what it says itself takes their place. */
export function togetherOfParts(map: LocatedMap, fields: Fields, world: World, above = ''): readonly Group[] {
  return map.entries.flatMap(({ key: { text }, value }) => {
    const field = fields[keyOf(fields, text) ?? ''];
    if (field?.kind !== 'group') return [];
    const path = `${above}${writtenKey(keyOf(fields, text) ?? text)}.`;
    const own = value.kind === 'map' ? togetherOfParts(value, field.fields, world, path) : [];
    return [...own, ...below(inheritedBy(value, field.part, world), path)];
  });
}

/** Groups of the part that a node names, without what the node says itself. @param kind of part; '' for none. */
export function inheritedBy(node: LocatedNode, kind: string, world: World): readonly Group[] {
  const name = node.kind === 'map' ? entryOf(node, 'from')?.value : node;
  if (kind === '' || name?.kind !== 'scalar') return [];
  const groups = groupsOf(world.given(name.text)?.product, kind);
  return node.kind === 'map' ? groups.flatMap(group => without(group, path => says(node, path.split('.')))) : groups;
}

function groupsOf(product: Product | null | undefined, kind: string): readonly Group[] {
  if (product?.kind === 'part') return product.part === kind ? product.together : [];
  return product?.kind === 'result' ? (product.parts?.get(kind)?.together ?? []) : [];
}

function below(groups: readonly Group[], path: string): readonly Group[] {
  return groups.map(group => ({ ...group, inputs: (group.inputs ?? []).map(each => `${path}${each}`) }));
}

function says(map: LocatedMap, [key = '', ...rest]: readonly string[]): boolean {
  const value = entryOf(map, key)?.value;
  if (value === undefined) return false;
  return rest.length === 0 || value.kind !== 'map' || says(value, rest);
}

/** A group without some of its members; none where fewer than two are left and no other part was measured with them: each has its own ± then. */
export function without(group: Group, leaves: (path: string) => boolean): readonly Group[] {
  const { inputs = [], origin } = group;
  const kept = [...inputs.keys()].filter(k => !leaves(item(inputs, k)));
  if (kept.length < (origin === undefined ? 2 : 1)) return [];
  return [
    {
      inputs: kept.map(k => item(inputs, k)),
      covariance: triangleOf(group, kept),
      ...(origin !== undefined && { origin: { ...origin, called: kept.map(k => item(origin.called, k)) } }),
    },
  ];
}

/** Rows of a covariance up to the diagonal, of some members. */
function triangleOf({ inputs = [], covariance = [] }: Group, members: readonly number[]): readonly number[] {
  const square = covariance.length === inputs.length ** 2;
  const at = (i: number, j: number): number =>
    square
      ? nth(covariance, i * inputs.length + j)
      : nth(covariance, (Math.max(i, j) * (Math.max(i, j) + 1)) / 2 + Math.min(i, j));
  return members.flatMap((i, row) => members.slice(0, row + 1).map(j => at(i, j)));
}

/** Groups that one fit measured, of several parts of one car, as one: with the covariance that it gave to all of them (JCGM 101:2008, 6.4.8). */
export function joinedByFit(groups: readonly Group[]): readonly Group[] {
  const fits = [...new Set(groups.flatMap(({ origin }) => (origin === undefined ? [] : [origin.whole])))];
  const joined = fits.flatMap((whole): readonly Group[] => {
    const seen = new Set<string>();
    const members = groups
      .filter(({ origin }) => origin?.whole === whole)
      .flatMap(({ inputs = [], origin }) => inputs.map((path, k) => ({ path, called: item(origin?.called ?? [], k) })))
      // What was measured once and stands in two places of a car, as a unit on both axles, hangs together with the others once.
      .filter(({ called }) => !seen.has(called) && seen.add(called));
    const places = members.map(({ called }) => (whole.inputs ?? []).indexOf(called));
    return places.length < 2
      ? []
      : [{ inputs: members.map(({ path }) => path), covariance: triangleOf(whole, places) }];
  });
  return [...groups.filter(({ origin }) => origin === undefined), ...joined];
}
