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
  for (const { path, value } of changes) changed = withChange(changed, path.split('.'), value);
  return changed as S;
}

function withChange(group: object, [head = '', ...rest]: readonly string[], value: Change['value']): object {
  const key = fieldKey(head);
  if (rest.length === 0) return { ...group, [key]: value };
  const inside = (group as { readonly [key: string]: unknown })[key];
  return { ...group, [key]: withChange(typeof inside === 'object' && inside !== null ? inside : {}, rest, value) };
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
