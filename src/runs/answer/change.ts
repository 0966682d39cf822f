/** Other values in the place of what a specification says. */
import { fieldKey } from '../../model/fields/filler.ts';
import { PASSING } from '../../model/fields/once.ts';

/** A value at a path below a car or a run: `drive.unit.peak_power`. A group takes the place of a whole part. */
export interface Change {
  readonly path: string;
  readonly value: number | string | object;
  /** Drawn from what is uncertain about the car as it is; a change without it is another car. */
  readonly drawn?: true;
}

/** The specification with changes; what they do not touch is shared. Paths in words of the notebook. */
export function withChanges<S extends object>(spec: S, changes: readonly Change[]): S {
  const copies: object[] = [];
  let changed: object = spec;
  for (const change of changes) changed = withChange(changed, change, keysOf(change.path), 0, copies);
  return changed as S;
}

/**
 * The same with those changes whose paths have this name in front: of a car or of a run.
 * @param which `others`: those that are not drawn alone; `createDrawn` makes the drawn ones.
 */
export function withOwnChanges<S extends object>(
  spec: S,
  name: string,
  changes: readonly Change[],
  which: 'all' | 'others' = 'all',
): S {
  const copies: object[] = [];
  let changed: object = spec;
  for (const change of changes) {
    if ((which === 'others' && change.drawn === true) || !isBelow(name, change)) continue;
    changed = withChange(changed, change, keysOf(change.path), 1, copies);
  }
  return changed as S;
}

/** Those of a car or a run, with paths below its name. */
export function ownChanges(name: string, changes: readonly Change[]): readonly Change[] {
  return changes
    .filter(change => isBelow(name, change))
    .map(change => ({ ...change, path: change.path.slice(name.length + 1) }));
}

/** Whether a change has a path with this name in front. */
export function isBelow(name: string, { path }: Change): boolean {
  return path.length > name.length && path[name.length] === '.' && path.startsWith(name);
}

/** @param copies groups that were made for these changes, and that nobody else has: they take all further ones. */
function withChange(
  group: object,
  change: Change,
  keys: readonly string[],
  place: number,
  copies: object[],
): { readonly [key: string]: unknown } {
  const key = keys[place] ?? '';
  let copy = group as { [key: string]: unknown };
  if (!copies.includes(group)) {
    copy = { ...group };
    copies.push(copy);
  }
  copy[key] = place === keys.length - 1 ? change.value : partWith(copy[key], change, keys, place + 1, copies);
  return copy;
}

/** Rows of a sweep share their changes, down to the object: what one of them makes of a part is made once, and so is what is completed from it. */
const made = new WeakMap<object, WeakMap<Change, object>>();

function partWith(part: unknown, change: Change, keys: readonly string[], place: number, copies: object[]): object {
  if (typeof part !== 'object' || part === null) return withChange({}, change, keys, place, copies);
  // What is drawn once is not drawn again.
  if (change.drawn === true || PASSING in part) return withChange(part, change, keys, place, copies);
  let ofPart = made.get(part);
  if (ofPart === undefined) made.set(part, (ofPart = new WeakMap()));
  let changed = ofPart.get(change);
  if (changed === undefined) ofPart.set(change, (changed = withChange(part, change, keys, place, [])));
  return changed;
}

/** The rows of a study have a few paths in all. */
const known = new Map<string, readonly string[]>();
const MOST_KNOWN = 1000;

/** Of a path, in the words of a specification. */
export function keysOf(path: string): readonly string[] {
  const found = known.get(path);
  if (found !== undefined) return found;
  const keys = path.split('.').map(fieldKey);
  if (known.size < MOST_KNOWN) known.set(path, keys);
  return keys;
}

/** What a specification says at a path; undefined where it says nothing. */
export function valueAt(spec: object, path: string): unknown {
  return path
    .split('.')
    .reduce<unknown>(
      (group, head) =>
        typeof group === 'object' && group !== null
          ? (group as { readonly [key: string]: unknown })[fieldKey(head)]
          : undefined,
      spec,
    );
}
