/** The field that a path means. */
import { nearest } from '../../units/nearest.ts';
import type { Field, Fields, NumberField } from './field.ts';
import { fieldKey, notebookKey } from './keys.ts';

/** The number field at a path, each part of it in words of the notebook or of the code; null where there is none. */
export function numberFieldAt(fields: Fields, path: readonly string[]): NumberField | null {
  const field = fieldAt(fields, path);
  return field?.kind === 'number' ? field : null;
}

/** The same for a field of any kind. */
export function fieldAt(fields: Fields, [head = '', ...rest]: readonly string[]): Field | null {
  const key = fieldKey(head);
  const field = Object.hasOwn(fields, key) ? fields[key] : undefined;
  if (field === undefined) return null;
  if (rest.length === 0) return field;
  return field.kind === 'group' ? fieldAt(field.fields, rest) : null;
}

/** Every path of a table in words of the notebook, of numbers alone or of all that may stand there. */
export function pathsOf(fields: Fields, which: 'numbers' | 'all', start = ''): readonly string[] {
  return Object.entries(fields).flatMap(([key, field]): readonly string[] => {
    const path = `${start}${notebookKey(key)}`;
    const own = which === 'all' || field.kind === 'number' ? [path] : [];
    return field.kind === 'group' ? [...own, ...pathsOf(field.fields, which, `${path}.`)] : own;
  });
}

/** The path that is most like one which leads to no field: of a name that stands elsewhere the place, else the nearest spelling; '' for none. */
export function nearestPath(path: string, paths: readonly string[]): string {
  const known = path.split('.').map(notebookKey).join('.');
  return nearest(known, paths) || (paths.find(each => each.endsWith(`.${known}`)) ?? '');
}
