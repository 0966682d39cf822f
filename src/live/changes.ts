/** What differs between two drawings: a browser that is told that alone has little to lay out anew. */

/** An element by its place in the order of the document, the drawing itself being 0; attributes that differ; what stands in it, where that differs as a whole. */
export type Change = readonly [element: number, attributes: Readonly<Record<string, string>>, inside: string | null];

interface Piece {
  readonly name: string;
  readonly attributes: string;
  /** Where what stands in it begins and ends in the text of the drawing. */
  readonly begin: number;
  end: number;
  readonly children: Piece[];
}

/** @returns null where they are not drawings of one kind at all. */
export function changesOf(before: string, after: string): readonly Change[] | null {
  const [old, now] = [treeOf(before), treeOf(after)];
  if (old === null || now === null) return null;
  const changes: Change[] = [];
  let element = 0;
  const compare = (was: Piece, is: Piece): void => {
    const place = element++;
    const attributes = was.attributes === is.attributes ? {} : differing(was.attributes, is.attributes);
    const inner = after.slice(is.begin, is.end);
    const same = inner === before.slice(was.begin, was.end);
    const alike =
      is.children.length > 0 &&
      is.children.length === was.children.length &&
      is.children.every((child, k) => isLike(was.children[k], child));
    if (same || !alike) element += countOf(was);
    if (Object.keys(attributes).length > 0 || !(same || alike))
      changes.push([place, attributes, same || alike ? null : inner]);
    if (!same && alike)
      for (const [k, child] of is.children.entries()) {
        const other = was.children[k];
        if (other !== undefined) compare(other, child);
      }
  };
  if (!isLike(old, now)) return null;
  compare(old, now);
  return changes;
}

/** An attribute that comes or goes makes another element. */
function isLike(a: Piece | undefined, b: Piece): boolean {
  return a !== undefined && a.name === b.name && namesOf(a.attributes) === namesOf(b.attributes);
}

function namesOf(attributes: string): string {
  return attributes.replaceAll(/="[^"]*"/gu, '');
}

function differing(before: string, after: string): Readonly<Record<string, string>> {
  const old = new Map(pairsOf(before));
  return Object.fromEntries(pairsOf(after).filter(([name, value]) => old.get(name) !== value));
}

function pairsOf(attributes: string): readonly (readonly [string, string])[] {
  return [...attributes.matchAll(/ ([^\s=]+)="([^"]*)"/gu)].map(([, name = '', value = '']) => [name, plain(value)]);
}

function countOf({ children }: Piece): number {
  return children.reduce((sum, child) => sum + 1 + countOf(child), 0);
}

/** Of elements alone, as the report draws them. */
function treeOf(text: string): Piece | null {
  const open: Piece[] = [];
  for (const { 0: tag, 1: end, 2: name = '', 3: attributes = '', 4: closed, index } of text.matchAll(
    /<(\/?)([a-zA-Z]+)((?: [^\s=>]+="[^"]*")*)(\/?)>/gu,
  )) {
    const top = open.at(-1);
    if (end === '/') {
      if (top === undefined || top.name !== name) return null;
      top.end = index;
      open.pop();
      if (open.length === 0) return top;
      continue;
    }
    const begin = index + tag.length;
    const piece: Piece = { name, attributes, begin, end: begin, children: [] };
    top?.children.push(piece);
    if (closed !== '/') open.push(piece);
  }
  return null;
}

const WRITTEN: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };

function plain(text: string): string {
  return text.replace(/&(#?\w+);/gu, (whole, name: string) => WRITTEN[name] ?? whole);
}
