/** Where a key belongs that stands in the wrong place: below another key of the cell, also where it says so with dots, or in the car. */
import type { Fields } from '../../model/fields/field.ts';
import { carFields } from '../../model/spec.ts';
import type { LocatedNode } from '../document/located.ts';
import { writtenKey } from './read-context.ts';

/** In words that follow "expected"; '' where nothing has a key of this name. @param fields of the whole cell. */
export function elsewhere(key: string, value: LocatedNode, fields: Fields): string {
  const parts = key.split('.');
  const last = parts.pop() ?? key;
  if (parts.length > 0) return stands(parts, last, fields) ? below(parts, last, value) : '';
  const own = above(key, fields);
  if (own !== null) return below(own, key, value);
  const ofCar = fields === carFields ? null : above(key, carFields);
  if (ofCar === null) return '';
  return ofCar.length === 0 ? 'it as a line of the car cell' : `${below(ofCar, key, value)}, in the car cell`;
}

function below(groups: readonly string[], key: string, value: LocatedNode): string {
  const inner = `${key}: ${value.kind === 'scalar' ? value.text : '...'}`;
  if (groups.length === 0) return `it as a line of the cell: ${inner}`;
  return `it below ${groups.join(', ')}: ${groups.reduceRight((all, group) => `${group}: { ${all} }`, inner)}`;
}

/** Whether the groups stand one in the other, with the key in the last. */
function stands(groups: readonly string[], key: string, fields: Fields): boolean {
  const inner = groups.reduce((here: Fields, group): Fields => {
    const found = Object.entries(here).find(([name]) => writtenKey(name) === group)?.[1];
    return found?.kind === 'group' ? found.fields : {};
  }, fields);
  return Object.keys(inner).some(each => writtenKey(each) === key);
}

/** Names of the groups above the key of this name that has fewest; null where there is none. */
function above(key: string, fields: Fields): readonly string[] | null {
  let level: readonly (readonly [readonly string[], Fields])[] = [[[], fields]];
  while (level.length > 0) {
    for (const [path, here] of level) {
      if (Object.keys(here).some(each => writtenKey(each) === key)) return path;
    }
    level = level.flatMap(([path, here]) =>
      Object.entries(here).flatMap(([name, field]): (readonly [readonly string[], Fields])[] =>
        field.kind === 'group' ? [[[...path, writtenKey(name)], field.fields]] : [],
      ),
    );
  }
  return null;
}
