/** Small checkers for free YAML: each takes a node, refuses what it does not know, and gives plain data. */
import { type LocatedNode, problemAt } from '../document/located.ts';
import { nearest } from '../../units/nearest.ts';
import { NotebookProblem } from '../document/problem.ts';

/** Turns a node into plain data. Throws NotebookProblem. */
export type Shape = (node: LocatedNode, path: string) => unknown;

function refuse(node: LocatedNode, path: string, message: string, expected = '', cure = ''): NotebookProblem {
  return new NotebookProblem(problemAt(node, path, message, expected, cure));
}

/** Characters a text may have. */
const LONGEST = 1000;

/** A text that a browser can only show: nothing in it names something to load or to run. */
export const text: Shape = (node, path) => {
  if (node.kind !== 'scalar') throw refuse(node, path, 'is not a text');
  if (node.text.length > LONGEST) throw refuse(node, path, `is longer than ${LONGEST} characters`);
  if (/url\s*\(|:\/\/|\b(?:javascript|data|file|vbscript)\s*:/i.test(node.text)) {
    throw refuse(node, path, 'names something to load', 'a text without an address');
  }
  return node.text;
};

export function number(min: number, max: number): Shape {
  return (node, path) => {
    const value = node.kind === 'scalar' ? node.value : null;
    if (typeof value === 'number' && value >= min && value <= max) return value;
    throw refuse(node, path, 'is not such a number', `a number from ${min} to ${max}`);
  };
}

export const flag: Shape = (node, path) => {
  if (node.kind === 'scalar' && typeof node.value === 'boolean') return node.value;
  throw refuse(node, path, 'is neither true nor false');
};

export const nothing: Shape = (node, path) => {
  if (node.kind === 'scalar' && node.value === null) return null;
  throw refuse(node, path, 'is not null');
};

export function word(...words: readonly string[]): Shape {
  return (node, path) => {
    const found = node.kind === 'scalar' ? node.text : '';
    if (words.includes(found)) return found;
    throw refuse(node, path, `"${found}" is not allowed here`, `one of ${words.join(', ')}`, nearest(found, words));
  };
}

/** A text that fits a pattern. */
export function pattern(regular: RegExp, expected: string): Shape {
  return (node, path) => {
    const found = text(node, path);
    if (typeof found === 'string' && regular.test(found)) return found;
    throw refuse(node, path, `"${String(found)}" is not allowed here`, expected);
  };
}

/** A number, a truth value, null, or a text as above. */
export const plain: Shape = (node, path) => {
  if (node.kind !== 'scalar' || typeof node.value === 'string') return text(node, path);
  return node.value;
};

export function list(of: Shape, most = 100): Shape {
  return (node, path) => {
    if (node.kind !== 'list') throw refuse(node, path, 'is not a list');
    if (node.items.length > most) throw refuse(node, path, `has more than ${most} entries`);
    return node.items.map((item, k) => of(item, `${path}[${k}]`));
  };
}

/** A mapping with these keys and no others. */
export function mapping(keys: { readonly [key: string]: Shape }): Shape {
  return (node, path) => {
    if (node.kind !== 'map')
      throw refuse(node, path, 'is not a mapping', `keys out of ${Object.keys(keys).join(', ')}`);
    return Object.fromEntries(
      node.entries.map(({ key, value }) => {
        const shape = Object.hasOwn(keys, key.text) ? keys[key.text] : undefined;
        if (shape === undefined) {
          const all = Object.keys(keys);
          throw refuse(key, path, `"${key.text}" is not allowed here`, all.join(', '), nearest(key.text, all));
        }
        return [key.text, shape(value, path === '' ? key.text : `${path}.${key.text}`)];
      }),
    );
  };
}

/** One shape for each form that is allowed; a form without a shape is refused. */
export function forms(by: { readonly scalar?: Shape; readonly list?: Shape; readonly map?: Shape }): Shape {
  return (node, path) => {
    const shape = by[node.kind];
    if (shape !== undefined) return shape(node, path);
    const names = { scalar: 'a single value', list: 'a list', map: 'a mapping' };
    const allowed = (['scalar', 'list', 'map'] as const).filter(kind => by[kind] !== undefined);
    throw refuse(node, path, `is ${names[node.kind]}`, allowed.map(kind => names[kind]).join(' or '));
  };
}

/** The first shape that accepts a node; the complaint of the last one where none does. */
export function either(...shapes: readonly [Shape, ...Shape[]]): Shape {
  return (node, path) => {
    for (const shape of shapes.slice(0, -1)) {
      try {
        return shape(node, path);
      } catch (error) {
        if (!(error instanceof NotebookProblem)) throw error;
      }
    }
    return (shapes.at(-1) ?? shapes[0])(node, path);
  };
}
