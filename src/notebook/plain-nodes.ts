/** Plain data as a cell would have it, so that programs and notebooks are read by the same reader. */
import type { Field, Fields } from '../model/fields/field.ts';
import { fieldKey, notebookKey } from '../model/fields/keys.ts';
import type { LocatedMap, LocatedNode, LocatedScalar, Place } from './document/located.ts';

/** A group of plain data, and how its paths were written. */
export interface PlainGroup {
  readonly map: LocatedMap;
  /** A path in words of the notebook as whoever wrote the data writes it. */
  readonly asWritten: (path: string) => string;
}

/**
 * Keys in words of the notebook or of the code; a bare number is in the SI unit of its field.
 * @param path in front of all others.
 */
export function plainGroup(group: object, fields: Fields, path: string): PlainGroup {
  const written = new Map<string, string>([[path, path]]);
  const node = mapOf(group, fields, path, written);
  const own = styleOf([...written.values()].join('.'));
  const asWritten = (asked: string): string => {
    const known = written.get(asked);
    if (known !== undefined) return known;
    const end = asked.lastIndexOf('.');
    return end < 0 ? asked : `${asWritten(asked.slice(0, end))}.${own(asked.slice(end + 1))}`;
  };
  return { map: node, asWritten };
}

/** How keys are written by whoever wrote these. */
export function styleOf(keys: string): (key: string) => string {
  return keys.includes('_') && !/[a-z][A-Z]/u.test(keys) ? notebookKey : fieldKey;
}

/** Nothing has a place in a line here. */
const NOWHERE: Place = { file: '', line: 1, column: 1, length: 1, source: '' };

function mapOf(group: object, fields: Fields, path: string, written: Map<string, string>): LocatedMap {
  const entries = Object.entries(group).flatMap(([key, value]: [string, unknown]) => {
    if (value === undefined) return [];
    const text = notebookKey(key);
    const below = `${path}.${text}`;
    written.set(below, `${written.get(path) ?? path}.${key}`);
    const field = fields[fieldKey(text)];
    return [{ key: scalar(text), value: nodeOf(value, field, below, written) }];
  });
  return { kind: 'map', entries, ...NOWHERE };
}

function nodeOf(value: unknown, field: Field | undefined, path: string, written: Map<string, string>): LocatedNode {
  if (Array.isArray(value)) {
    const items = value.map((each, i) => nodeOf(each, field, `${path}[${i + 1}]`, written));
    return { kind: 'list', items, ...NOWHERE };
  }
  if (typeof value === 'object' && value !== null) {
    const inside = field?.kind === 'group' || field?.kind === 'groups' ? field.fields : {};
    written.set(path, written.get(path) ?? path);
    return mapOf(value, inside, path, written);
  }
  const unit = field?.kind === 'number' || field?.kind === 'numbers' ? field.unit : '1';
  if (typeof value === 'number' && unit !== '1') return scalar(`${value} ${unit}`);
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') return scalar(value);
  return scalar(null);
}

function scalar(value: string | number | boolean | null): LocatedScalar {
  return { kind: 'scalar', value, text: value === null ? '' : String(value), ...NOWHERE };
}
