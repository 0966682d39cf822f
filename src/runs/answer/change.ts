/** Other values in the place of what a specification says. */
import { fieldKey } from '../../model/fields/filler.ts';

/** A value at a path below a car or a run: `drive.unit.peak_power`. A group takes the place of a whole part. */
export interface Change {
  readonly path: string;
  readonly value: number | string | object;
  /** Drawn from what is uncertain about the car as it is; a change without it is another car. */
  readonly drawn?: true;
}

/** The specification with changes; what they do not touch is shared. Paths in words of the notebook. */
export function withChanges<S extends object>(spec: S, changes: readonly Change[]): S {
  let changed: object = spec;
  for (const { path, value } of changes) changed = withChange(changed, keysOf(path), 0, value);
  return changed as S;
}

function withChange(group: object, keys: readonly string[], place: number, value: Change['value']): object {
  const key = keys[place] ?? '';
  if (place === keys.length - 1) return { ...group, [key]: value };
  const inside = (group as { readonly [key: string]: unknown })[key];
  const below = typeof inside === 'object' && inside !== null ? inside : {};
  return { ...group, [key]: withChange(below, keys, place + 1, value) };
}

/** The rows of a study have a few paths in all. */
const known = new Map<string, readonly string[]>();
const MOST_KNOWN = 1000;

function keysOf(path: string): readonly string[] {
  const before = known.get(path);
  if (before !== undefined) return before;
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
