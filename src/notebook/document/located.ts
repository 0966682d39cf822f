/**
 * YAML with positions: a small tree of mappings, lists and single values, each with its place in the notebook. Only the
 * plain part of YAML 1.2 is read; anchors, aliases, tags and merge keys are refused, so that what is written is all there
 * is and its size bounds the work.
 */
import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
  visit,
  type YAMLError,
} from 'yaml';
import { NotebookProblem, type ProblemData } from './problem.ts';

/** Where something stands in the notebook; line and column are 1-based. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  /** Characters, within the line; at least 1. */
  readonly length: number;
  /** The whole source line. */
  readonly source: string;
}

export interface LocatedScalar extends Place {
  readonly kind: 'scalar';
  /** As the core schema of YAML 1.2 reads it. */
  readonly value: string | number | boolean | null;
  /** As written, without quotes: `1010 kg`, `1e3`. */
  readonly text: string;
}

export interface LocatedList extends Place {
  readonly kind: 'list';
  readonly items: readonly LocatedNode[];
}

export interface LocatedMap extends Place {
  readonly kind: 'map';
  readonly entries: readonly LocatedEntry[];
  /** The single value of another mapping whose place it takes. */
  readonly over?: string;
}

export interface LocatedEntry {
  readonly key: LocatedScalar;
  readonly value: LocatedNode;
}

export type LocatedNode = LocatedScalar | LocatedList | LocatedMap;

/** Where a YAML text starts in its file. */
export interface TextStart {
  readonly file: string;
  /** 1-based line of the file in which the first line of the text stands. */
  readonly line: number;
  /** Characters that were taken off the front of every line, as for a fence inside a list; default 0. */
  readonly indent?: number;
}

const LONGEST = 100_000;
const DEEPEST = 12;
/** A bound of the nesting as well: a thousand nested brackets exhaust the stack. */
const MOST_BRACKETS = 300;
const TOO_DEEP = 'nested too deeply';

/** Reads the lines of a cell; an empty text is an empty mapping. Throws NotebookProblem. */
export function readYaml(text: string, start: TextStart): LocatedMap {
  const reader = new Reader(text, start);
  if (text.length > LONGEST) throw reader.problem([0, 1], `longer than ${LONGEST} characters`, 'a shorter cell');
  reader.refuseDeep();
  const document = parseDocument(text, { merge: false, prettyErrors: false, uniqueKeys: false, version: '1.2' });
  const [wrong] = [...document.errors, ...document.warnings];
  if (wrong !== undefined) throw reader.unclosed(document, wrong) ?? reader.yamlProblem(wrong);
  if (document.directives?.yaml.explicit === true)
    throw reader.problem([0, 1], 'directives are not read', 'no "%" line');
  const { contents } = document;
  const empty = contents === null || (isScalar(contents) && contents.value === null);
  if (empty) return { kind: 'map', entries: [], ...reader.place([0, 0]) };
  const root = reader.node(contents, 0, [0, text.length]);
  if (root.kind !== 'map') {
    throw new NotebookProblem(problemAt(root, '', 'these are not "name: value" lines', 'a name, a colon and a value'));
  }
  return root;
}

/** The entry with this key. */
export function entryOf(map: LocatedMap, key: string): LocatedEntry | undefined {
  return map.entries.find(entry => entry.key.text === key);
}

/** Characters of what a problem quotes: a stranger's name may fill a page. */
const LONGEST_PATH = 300;
const LONGEST_MESSAGE = 400;
const LONGEST_EXPECTED = 1000;
const LONGEST_CURE = 200;

/** A problem with what stands at `place`. */
export function problemAt(place: Place, path: string, message: string, expected = '', nearest = ''): ProblemData {
  const { file, line, column, length, source } = place;
  return {
    file,
    line,
    column,
    length,
    path: shortened(path, LONGEST_PATH),
    message: shortened(message, LONGEST_MESSAGE),
    expected: shortened(expected, LONGEST_EXPECTED),
    nearest: nearest.length > LONGEST_CURE ? '' : nearest,
    source,
  };
}

/** The beginning and the end of a text that is too long, with what is left out between them. */
function shortened(text: string, most: number): string {
  if (text.length <= most) return text;
  return `${text.slice(0, most - 100)} ... ${text.slice(-95)}`;
}

/** An error that is no problem of the user's is a fault of axlewatt: it is told as such, and all else goes on. */
export function faultAt(place: Place, path: string, where: string, error: unknown): ProblemData {
  return { ...problemAt(place, path, faultText(where, error), 'nothing; please report it'), cause: 'axlewatt' };
}

/** `a fault of axlewatt itself in this launch cell: TypeError: ...`. */
function faultText(where: string, error: unknown): string {
  return `a fault of axlewatt itself in ${where}: ${String(error).split('\n', 1)[0] ?? ''}`;
}

/** The place of a part of a scalar's text; the whole scalar where the text does not stand in its line as it is read. */
export function placeWithin(scalar: LocatedScalar, offset: number, length: number): Place {
  const { file, line, source, text } = scalar;
  const quoted = /["']/u.test(source.charAt(scalar.column - 1)) && !source.startsWith(text, scalar.column - 1);
  const from = scalar.column - 1 + (quoted ? 1 : 0);
  if (text === '' || !source.startsWith(text, from)) return scalar;
  const start = Math.min(offset, text.length - 1);
  const within = Math.max(1, Math.min(length, text.length - start));
  return { file, line, column: from + start + 1, length: within, source };
}

type Range = readonly [start: number, end: number];

class Reader {
  readonly #counter = new LineCounter();
  readonly #text: string;
  readonly #start: TextStart;
  /** By 1-based line of the text, as the notebook has them. */
  readonly #lines = new Map<number, { readonly source: string; readonly end: number }>();

  constructor(text: string, start: TextStart) {
    this.#text = text;
    this.#start = start;
    this.#counter.addNewLine(0);
    for (const { index } of text.matchAll(/\n/gu)) this.#counter.addNewLine(index + 1);
  }

  place([start, end]: Range): Place {
    const { file, line: first, indent = 0 } = this.#start;
    const { line, col } = this.#counter.linePos(start);
    const { source, end: lineEnd } = this.#line(line);
    const length = Math.max(1, Math.min(end, lineEnd) - start);
    return { file, line: first + Math.max(1, line) - 1, column: Math.max(1, col) + indent, length, source };
  }

  /** Cut out once: a line may hold a thousand values. */
  #line(line: number): { readonly source: string; readonly end: number } {
    const known = this.#lines.get(line);
    if (known !== undefined) return known;
    const start = this.#counter.lineStarts[line - 1] ?? 0;
    const newline = this.#text.indexOf('\n', start);
    const end = newline < 0 ? this.#text.length : newline;
    const written = this.#text.slice(start, this.#text.charAt(end - 1) === '\r' ? end - 1 : end);
    const found = { source: ' '.repeat(this.#start.indent ?? 0) + written, end };
    this.#lines.set(line, found);
    return found;
  }

  problem(range: Range, message: string, expected = '', nearest = ''): NotebookProblem {
    return new NotebookProblem(problemAt(this.place(range), '', message, expected, nearest));
  }

  /** A bracket or a quotation mark without its end: the YAML reader complains only where it gives up looking for it. */
  unclosed(document: Document, { code, pos }: YAMLError): NotebookProblem | undefined {
    if (code !== 'BAD_INDENT' && code !== 'MISSING_CHAR') return undefined;
    let start = -1;
    const look = (node: Node) => {
      const [from, end] = rangeOf(node) ?? [-1, -1];
      if (end === pos[0] && Object.hasOwn(CLOSING, this.#text.charAt(from))) start = from;
    };
    visit(document, { Collection: (_, node) => look(node), Scalar: (_, node) => look(node) });
    if (start < 0) return undefined;
    const sign = this.#text.charAt(start);
    return this.problem([start, start + 1], `this ${sign} is never closed`, `${CLOSING[sign] ?? ''} at the end of it`);
  }

  yamlProblem({ code, message, pos }: YAMLError): NotebookProblem {
    const [, name, value] = /^\s*(\w+):(\S.*)$/u.exec(this.#text.slice(...pos).split('\n')[0] ?? '') ?? [];
    if (code === 'MULTILINE_IMPLICIT_KEY' && name !== undefined)
      return this.problem(pos, 'no blank behind the colon', '', `${name}: ${value}`);
    const [, set, amount] = /^\s*(\w+)\s*=\s*(\S.*)$/u.exec(this.#text.slice(...pos).split('\n')[0] ?? '') ?? [];
    if (code === 'MULTILINE_IMPLICIT_KEY' && set !== undefined)
      return this.problem(pos, 'an equals sign sets nothing here', 'name: value', `${set}: ${amount}`);
    const strayed = this.#strayed(code, pos[0]);
    if (strayed !== undefined)
      return this.problem(
        strayed,
        'this line begins in no column of the lines above',
        'the same blanks before each line of a group',
      );
    const [text, expected] = YAML_PROBLEMS[code] ?? [message.charAt(0).toLowerCase() + message.slice(1), ''];
    return this.problem(pos, text, expected);
  }

  /**
   * The line behind an error that comes of its blanks: a name that begins neither where a line above does nor below one that is still without its
   * value. The YAML reader takes it for more of the text above.
   */
  #strayed(code: string, at: number): Range | undefined {
    if (code !== 'BLOCK_AS_IMPLICIT_KEY' && code !== 'MISSING_CHAR' && code !== 'BAD_INDENT') return undefined;
    const first = this.#counter.linePos(at).line;
    const columns = new Set<number>();
    let open = true;
    let start = 0;
    for (const [i, line] of this.#text.split('\n').entries()) {
      const [, dashes = '', value] = /^((?:\s|-\s)*)[\w.]+:(?:\s+(\S.*))?\s*$/u.exec(line) ?? [];
      const column = dashes.length;
      const isName = /^[\s-]*[\w.]+:(?:\s|$)/u.test(line);
      const stray = isName && !open && !dashes.includes('-') && !columns.has(column);
      if (stray && (i + 1 === first || i === first)) return [start + column, start + line.length];
      if (isName) {
        for (const known of columns) if (known > column) columns.delete(known);
        columns.add(column);
        open = value === undefined;
      }
      start += line.length + 1;
    }
    return undefined;
  }

  /** `where`: the place that stands for a value that is not written. */
  node(node: unknown, depth: number, where: Range): LocatedNode {
    const range = rangeOf(node) ?? where;
    if (depth > DEEPEST) throw this.problem(range, TOO_DEEP, `at most ${DEEPEST} levels`);
    this.#refuseExtras(node, range);
    if (isMap(node)) return this.#map(node.items, depth, range);
    if (isSeq(node)) {
      const items = node.items.map(item => this.node(item, depth + 1, range));
      return { kind: 'list', items, ...this.place(range) };
    }
    return this.#scalar(node, range);
  }

  #map(pairs: readonly Pair[], depth: number, range: Range): LocatedMap {
    // The YAML reader compares each name with all others.
    const names = new Set<string>();
    const entries = pairs.map(pair => {
      const keyRange = rangeOf(pair.key) ?? range;
      const key = this.node(pair.key, depth + 1, keyRange);
      if (key.kind !== 'scalar') throw this.problem(keyRange, 'a name is a single word', 'name: value');
      if (names.has(key.text)) throw this.problem(keyRange, `"${key.text}" stands twice`, 'each name once');
      names.add(key.text);
      return { key, value: this.node(pair.value, depth + 1, keyRange) };
    });
    return { kind: 'map', entries, ...this.place(range) };
  }

  #scalar(node: unknown, range: Range): LocatedScalar {
    const value: unknown = isScalar(node) ? node.value : null;
    if (value !== null && typeof value !== 'string' && typeof value !== 'number' && typeof value !== 'boolean') {
      throw this.problem(range, 'this kind of value is not read', 'a number, a word or a text');
    }
    const source = isScalar(node) ? node.source : undefined;
    const text = typeof value === 'string' ? value : (source ?? (value === null ? '' : String(value)));
    return { kind: 'scalar', value, text, ...this.place(range) };
  }

  #refuseExtras(node: unknown, range: Range): void {
    if (isAlias(node)) throw this.problem(range, 'aliases are not read', 'the value itself');
    const { anchor, tag } = (node ?? {}) as { readonly anchor?: string; readonly tag?: string };
    if (anchor !== undefined) throw this.problem(range, `the anchor "&${anchor}" is not read`, 'the value without it');
    if (tag !== undefined) throw this.problem(range, `the tag "${tag}" is not read`, 'the value without it');
  }

  /** The YAML reader calls itself for every level; running out of stack there ends the process, not just the cell. */
  refuseDeep(): void {
    const opened = [...this.#text.matchAll(/[[{]/gu)][MOST_BRACKETS];
    const indented = /^(?:[ \t]{100}|[ \t]*(?:[-?:][ \t]+){13})/mu.exec(this.#text);
    const found = opened ?? indented;
    if (found !== undefined && found !== null) throw this.problem([found.index, found.index + 1], TOO_DEEP);
  }
}

const CLOSING: { readonly [sign: string]: string } = { '[': ']', '{': '}', '"': '"', "'": "'" };

/** In words; everything else comes with the words of the YAML reader. */
const YAML_PROBLEMS: { readonly [code: string]: readonly [message: string, expected: string] } = {
  BAD_INDENT: ['the lines of a group do not begin in one column', 'the same spaces before each of them'],
  MULTILINE_IMPLICIT_KEY: ['a line without a colon and a blank behind it', 'name: value'],
  TAB_AS_INDENT: ['a tab indents this line', 'spaces'],
  MULTIPLE_DOCS: ['"---" starts a second document', 'one mapping'],
  MISSING_CHAR: ['a colon, a quote or a bracket is missing here', 'name: value'],
  BLOCK_AS_IMPLICIT_KEY: ['two colons in one line', 'quotes around a text with a colon'],
};

function rangeOf(node: unknown): Range | undefined {
  const { range } = (node ?? {}) as Partial<Node>;
  return range === undefined || range === null ? undefined : [range[0], range[1]];
}
