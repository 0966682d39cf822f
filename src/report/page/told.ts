/**
 * What the lines of a picture say to a reader who points at them: worked out of its spec, whose headings and axes say it already. It goes
 * with the mark as its `description`, the one word that comes through the drawing library untouched.
 */

const BETWEEN = '\n';

export interface Told {
  /** What a line shows, with its unit: `Speed, km/h`. */
  readonly y: string;
  /** Over what. */
  readonly x: string;
  /** Field of its points that has its name, where several stand in one view; '' for one alone. */
  readonly by: string;
}

/** Null for a description of another sort. */
export function toldIn(description: string): Told | null {
  const [y = '', x, by] = description.split(BETWEEN);
  return x === undefined || by === undefined ? null : { y, x, by };
}

/** What of a Vega-Lite spec is looked at here. */
interface Node {
  readonly [key: string]: unknown;
}

interface Seen {
  readonly y: string;
  readonly x: string;
  readonly encoding: Node;
}

/** The same spec with words for its lines of points `{x, y}` over quantities. */
export function withTold(spec: object): object {
  return walked(spec as Node, { y: '', x: axisTitle(spec as Node), encoding: {} });
}

function walked(node: Node, before: Seen): Node {
  const encoding = { ...before.encoding, ...nodeAt(node, 'encoding') };
  const seen: Seen = { y: titleOf(node) || before.y, x: before.x, encoding };
  if (Array.isArray(node['layer'])) return { ...node, layer: node['layer'].map(child => walked(child as Node, seen)) };
  if (Array.isArray(node['vconcat'])) {
    let heading = '';
    const vconcat = node['vconcat'].map(child => {
      const view = walked(child as Node, { ...seen, y: heading });
      heading = headingIn(child as Node);
      return view;
    });
    return { ...node, vconcat };
  }
  const mark = nodeAt(node, 'mark');
  const [x, y] = [nodeAt(encoding, 'x'), nodeAt(encoding, 'y')];
  const over = [x, y].every(each => each['type'] === 'quantitative') && x['field'] === 'x' && y['field'] === 'y';
  if (mark['type'] !== 'line' || !over || seen.y === '') return node;
  const by = nodeAt(encoding, 'color')['field'];
  const description = [seen.y, seen.x, typeof by === 'string' ? by : ''].join(BETWEEN);
  return { ...node, mark: { ...mark, description } };
}

function nodeAt(node: Node, key: string): Node {
  const found = node[key];
  return typeof found === 'object' && found !== null ? (found as Node) : {};
}

function titleOf(node: Node): string {
  const text = nodeAt(node, 'title')['text'];
  return typeof text === 'string' ? text : '';
}

/** Of a view that is a line of text: it heads the next one. */
function headingIn(node: Node): string {
  const { type, text } = nodeAt(node, 'mark');
  return type === 'text' && typeof text === 'string' ? text : '';
}

/** The first title of an axis across in it: views below each other share one. */
function axisTitle(node: Node): string {
  const own = nodeAt(nodeAt(nodeAt(node, 'encoding'), 'x'), 'axis')['title'];
  if (typeof own === 'string') return own;
  for (const key of ['layer', 'vconcat']) {
    for (const child of Array.isArray(node[key]) ? (node[key] as readonly Node[]) : []) {
      const found = axisTitle(child);
      if (found !== '') return found;
    }
  }
  return '';
}
