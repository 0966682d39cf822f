/** The parts of a car that a calibration measured: what other cells name, and lines to copy. */
import { nth } from '../../columns.ts';
import type { World } from '../context.ts';
import {
  entryOf,
  type LocatedEntry,
  type LocatedMap,
  type LocatedNode,
  type Place,
  readYaml,
} from '../document/located.ts';
import { mergeMaps } from '../fields/merge.ts';
import { placed } from './calibrated-car.ts';
import { inheritedBy, joinedByFit, without } from './part-together.ts';
import type { Group } from './together.ts';
import { said } from './written-lines.ts';
import type { CalibratedPart } from './yield.ts';

/** Where each kind of part stands in a car. */
const PLACES: readonly (readonly [kind: string, path: readonly string[]])[] = [
  ['tyre', ['tyres']],
  ['tyre', ['rear_tyres']],
  ['tyre', ['front_tyres']],
  ['unit', ['drive', 'unit']],
  ['pack', ['pack']],
  ['road_load', ['road_load']],
];

/**
 * Of each kind the part that lines of a car change, with the rest of it as the car has it.
 * @param car what the car cell says. @param extra lines of parts that the car itself does not take.
 */
export function calibratedParts(
  car: LocatedMap,
  lines: readonly string[],
  extra: { readonly [kind: string]: readonly string[] },
  place: Place,
  world: World,
): ReadonlyMap<string, CalibratedPart> {
  const found = readYaml(lines.join('\n'), { file: place.file, line: place.line });
  const groups = groupsIn(found);
  const parts = new Map<string, CalibratedPart>();
  for (const [kind, path] of PLACES) {
    const own = below(found, path);
    if (own?.kind !== 'map' || parts.has(kind)) continue;
    const prefix = `${path.join('.')}.`;
    const together = groups.flatMap(group => inside(group, prefix));
    parts.set(kind, partOf(kind, below(car, path), withSpreads(own, groups, prefix), together, place, world));
  }
  for (const [kind, own] of Object.entries(extra)) {
    if (parts.has(kind)) continue;
    const map = readYaml(own.join('\n'), { file: place.file, line: place.line });
    const path = PLACES.find(([each]) => each === kind)?.[1] ?? [];
    parts.set(kind, partOf(kind, below(car, path), map, [], place, world));
  }
  return parts;
}

/** Its base from other cells resolved, so that it stands by itself. */
function partOf(
  kind: string,
  base: LocatedNode | undefined,
  own: LocatedMap,
  together: readonly Group[],
  place: Place,
  world: World,
): CalibratedPart {
  const before = base === undefined ? [] : inheritedBy(base, kind, world);
  const anew = new Set(own.entries.map(({ key }) => key.text));
  const kept = before.flatMap(group => without(group, path => anew.has(path.split('.')[0] ?? '')));
  return {
    map: mergeMaps(resolved(base, kind, place, world), placedMap(own, place)),
    together: [...kept, ...together],
  };
}

function resolved(node: LocatedNode | undefined, kind: string, place: Place, world: World): LocatedMap {
  const nothing: LocatedMap = { kind: 'map', entries: [], ...place };
  if (node === undefined || node.kind === 'list') return nothing;
  const from = node.kind === 'map' ? entryOf(node, 'from')?.value : node;
  if (from?.kind !== 'scalar') return node.kind === 'map' ? node : nothing;
  const product = world.given(from.text)?.product;
  const map =
    product?.kind === 'part' && product.part === kind
      ? product.map
      : product?.kind === 'result'
        ? product.parts?.get(kind)?.map
        : undefined;
  const own: LocatedMap =
    node.kind === 'map' ? { ...node, entries: node.entries.filter(({ key }) => key.text !== 'from') } : nothing;
  if (map !== undefined) return mergeMaps(resolved(map, kind, place, world), own);
  const entry: LocatedEntry = { key: { ...from, value: 'from', text: 'from' }, value: from };
  return { ...own, entries: [entry, ...own.entries] };
}

function below(map: LocatedMap, path: readonly string[]): LocatedNode | undefined {
  let here: LocatedNode | undefined = map;
  for (const key of path) here = here?.kind === 'map' ? entryOf(here, key)?.value : undefined;
  return here;
}

function placedMap(map: LocatedMap, place: Place): LocatedMap {
  const found = placed(map, place);
  return found.kind === 'map' ? found : map;
}

function groupsIn(map: LocatedMap): readonly Group[] {
  const list = entryOf(map, 'together')?.value;
  if (list?.kind !== 'list') return [];
  const texts = (node: LocatedNode | undefined): readonly string[] =>
    node?.kind === 'list' ? node.items.flatMap(each => (each.kind === 'scalar' ? [each.text] : [])) : [];
  return list.items.flatMap(group =>
    group.kind === 'map'
      ? [
          {
            inputs: texts(entryOf(group, 'inputs')?.value),
            covariance: texts(entryOf(group, 'covariance')?.value).map(Number),
          },
        ]
      : [],
  );
}

function inside(group: Group, prefix: string): readonly Group[] {
  const whole: Group = { ...group, origin: { whole: group, called: group.inputs ?? [] } };
  return without(whole, path => !path.startsWith(prefix)).map(each => ({
    ...each,
    inputs: (each.inputs ?? []).map(path => path.slice(prefix.length)),
  }));
}

/** The same with its own ± behind each number that a group has, for where it stands alone. */
function withSpreads(map: LocatedMap, groups: readonly Group[], prefix: string): LocatedMap {
  return {
    ...map,
    entries: map.entries.map(({ key, value }): LocatedEntry => {
      if (value.kind !== 'scalar' || value.text.includes('±')) return { key, value };
      const standard = standardIn(groups, `${prefix}${key.text}`);
      if (standard === null) return { key, value };
      const unit = value.text.replace(/^\S+\s*/u, '');
      const text = `${value.text} ± ${said(standard)}${unit === '' ? '' : ` ${unit}`}`;
      return { key, value: { ...value, value: text, text } };
    }),
  };
}

function standardIn(groups: readonly Group[], path: string): number | null {
  for (const { inputs = [], covariance = [] } of groups) {
    const k = inputs.indexOf(path);
    if (k >= 0) return Math.sqrt(nth(covariance, (k * (k + 1)) / 2 + k));
  }
  return null;
}

/** A part cell that says the same, line by line. */
export function partLines(kind: string, { map, together: groups }: CalibratedPart): readonly string[] {
  const together = joinedByFit(groups);
  return [
    `kind: ${kind}`,
    ...written(map, 0),
    ...(together.length === 0 ? [] : ['together:']),
    ...together.flatMap(({ inputs = [], covariance = [] }) => [
      `  - inputs: [${inputs.join(', ')}]`,
      `    covariance: [${covariance.map(each => Number(each.toPrecision(12))).join(', ')}]`,
    ]),
  ];
}

function written({ entries }: LocatedMap, indent: number): readonly string[] {
  const front = ' '.repeat(indent);
  return entries.flatMap(({ key, value }) =>
    value.kind === 'map'
      ? [`${front}${key.text}:`, ...written(value, indent + 2)]
      : [`${front}${key.text}: ${flow(value)}`],
  );
}

function flow(node: LocatedNode): string {
  if (node.kind === 'scalar') return /^[\w ./%^()°·²±+-]+$/u.test(node.text) ? node.text : JSON.stringify(node.text);
  if (node.kind === 'list') return `[${node.items.map(flow).join(', ')}]`;
  return `{ ${node.entries.map(({ key, value }) => `${key.text}: ${flow(value)}`).join(', ')} }`;
}
