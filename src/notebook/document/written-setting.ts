/** Writes a setting into the text of a cell: what comes out is what its author would have written. */
import { type Document, isMap, isScalar, parseDocument } from 'yaml';
import { entryOf, type LocatedMap, type LocatedNode } from './located.ts';

/** A text in the place of what a cell says, or assumes, at a path. */
export interface Setting {
  /** With the name of the cell in front: `coupe.tyres.dry_peak`. */
  readonly path: string;
  readonly text: string;
}

/**
 * @param source between the fences.
 * @param path below the cell.
 * @param meant what the cell and those that it starts from say together; null where it starts from none.
 */
export function withSetting(source: string, path: readonly string[], text: string, meant: LocatedMap | null): string {
  const document: Document = parseDocument(source, { merge: false, version: '1.2' });
  // A part is changed by its name; what is said beside the name stays.
  const keys = nodeAt(meant, path)?.kind === 'map' ? [...path, 'from'] : path;
  const own: unknown = document.getIn(keys, true);
  if (isScalar(own) && own.range !== undefined && own.range !== null) {
    const [start, end] = own.range;
    return source.slice(0, start) + withSpread(source.slice(start, end), text) + source.slice(end);
  }
  if (!isMap(document.contents)) document.contents = document.createNode({});
  for (let depth = 1; depth < keys.length; depth++) {
    const above = keys.slice(0, depth);
    if (isMap(document.getIn(above, true))) continue;
    const said = nodeAt(meant, above);
    document.setIn(above, document.createNode(said?.kind === 'scalar' ? { from: said.text } : {}));
  }
  document.setIn(keys, PLAIN.test(text) ? Number(text) : text);
  return document.toString({ lineWidth: 0 });
}

/** A number that YAML writes as it stands. */
const PLAIN = /^-?\d+(?:\.\d+)?$/u;

/** A value that was known to within something is still known to within that. */
function withSpread(written: string, text: string): string {
  const spread = /^[^'"]*?(?<spread>\s*(?:±|\+\/-).*)$/u.exec(written)?.groups?.['spread'];
  return spread === undefined ? text : text + spread;
}

/** What stands at a path below a mapping; null where nothing does. */
export function nodeAt(map: LocatedMap | null, path: readonly string[]): LocatedNode | null {
  let here: LocatedNode | null = map;
  for (const key of path) here = here?.kind === 'map' ? (entryOf(here, key)?.value ?? null) : null;
  return here;
}
