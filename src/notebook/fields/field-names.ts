/** The names that a cell leans on, found before anything is read: they decide the order in which cells run. */
import type { Field, Fields } from '../../model/fields/field.ts';
import { formulaNames } from '../formula/formula.ts';
import type { LocatedMap, LocatedNode } from '../document/located.ts';
import { keyOf } from './read-context.ts';
import { wordsIn } from './read-words.ts';

export interface FieldNames {
  readonly cells: readonly string[];
  readonly parts: readonly { readonly kind: string; readonly name: string }[];
  /** Names in formulas, as `formulaNames` gives them. */
  readonly formulas: readonly string[];
}

/**
 * Names in a mapping, by its table; `part` as for `readFields`. Unknown keys and wrong values lean on nothing: reading
 * complains of them. What a part leans on itself is not followed.
 */
export function fieldNames(map: LocatedMap, fields: Fields, part = ''): FieldNames {
  const cells: string[] = [];
  const parts: { kind: string; name: string }[] = [];
  const formulas: string[] = [];
  for (const { key, value } of map.entries) {
    const name = keyOf(fields, key.text);
    const field = name === undefined ? undefined : fields[name];
    if (field === undefined) {
      if (key.text === 'from' && part !== '' && value.kind === 'scalar') parts.push({ kind: part, name: value.text });
      continue;
    }
    const add = (below: FieldNames): void => {
      cells.push(...below.cells);
      parts.push(...below.parts);
      formulas.push(...below.formulas);
    };
    if (field.kind === 'group' && value.kind === 'map') {
      add(fieldNames(value, field.fields, field.part));
    } else if (field.kind === 'group') {
      if (value.kind === 'scalar' && field.part !== '') parts.push({ kind: field.part, name: value.text });
    } else if (field.kind === 'groups') {
      for (const item of value.kind === 'list' ? value.items : []) {
        if (item.kind === 'map') add(fieldNames(item, field.fields));
      }
    } else if (field.kind === 'words') {
      if (field.to !== undefined) cells.push(...wordsIn(value).map(({ text }) => text));
    } else if (field.kind === 'reference') {
      if (value.kind === 'scalar') cells.push(value.text);
    } else {
      formulas.push(...formulasOf(value, field));
    }
  }
  return { cells, parts, formulas: [...new Set(formulas)] };
}

function formulasOf(node: LocatedNode, field: Field): readonly string[] {
  if (field.kind !== 'number' && field.kind !== 'numbers') return [];
  if (node.kind === 'list') return node.items.flatMap(item => formulasOf(item, field));
  if (node.kind !== 'scalar') return [];
  const formula = /^\s*=(?<text>.*)$/su.exec(node.text)?.groups?.['text'];
  return formula === undefined ? [] : formulaNames(formula);
}
