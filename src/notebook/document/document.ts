/** A Markdown file cut into its front matter, prose and cells. Nothing is evaluated here. */
import MarkdownIt from 'markdown-it';
import type { Token } from 'markdown-it';
import { answerIn } from './answer.ts';
import { type FrontMatter, NO_FRONT_MATTER, readFrontMatter } from './frontmatter.ts';
import { problemAt } from './located.ts';
import { nearest } from '../../units/nearest.ts';
import { meantFences } from './meant-fences.ts';
import { placeOf, type SourceText } from './place.ts';
import { plainText } from './plain-text.ts';
import type { ProblemData } from './problem.ts';

export interface NotebookDocument {
  readonly text: SourceText;
  readonly frontMatter: FrontMatter;
  /** Text of the first heading, '' without one. */
  readonly heading: string;
  readonly pieces: readonly Piece[];
  /** Problems that belong to no cell: those of the front matter. */
  readonly problems: readonly ProblemData[];
}

export type Piece = ProsePiece | CellPiece;

/** Consecutive Markdown blocks between two cells. */
export interface ProsePiece {
  readonly kind: 'prose';
  readonly tokens: readonly Token[];
  /** Whether it is the answer of the notebook itself. */
  readonly answers?: true;
}

export interface CellPiece {
  readonly kind: 'cell';
  /** Kind of the cell, as written. */
  readonly cell: string;
  /** As written, or made up for a cell that may go without: `check 2`. Unique among the cells without a problem. */
  readonly name: string;
  /** 1-based line of the opening fence; the content starts on the next one. */
  readonly line: number;
  /** Content between the fences. */
  readonly source: string;
  readonly problem: ProblemData | null;
}

/** What the document needs to know of a kind of cell. */
export interface CellHead {
  readonly kind: string;
  /** First word of the info string. */
  readonly language: 'yaml' | 'calc';
  /** Whether other cells refer to it, so that it must have a name. */
  readonly named: boolean;
}

/** Markdown as notebooks use it: raw HTML is text, and so are links to scripts. */
export const markdown = new MarkdownIt({ html: false, linkify: false, typographer: false });

/** Characters of a notebook apart from the pictures inside it, a thick book of them, and its cells. */
const LONGEST = 1_000_000;
const MOST_CELLS = 1000;
const PICTURE = /data:image\/[a-z+]+;base64,[A-Za-z0-9+/=]*/giu;

/** Reads a notebook. Never throws: what is wrong stands in `problems` or with its cell. */
export function parseDocument(content: string, file: string, kinds: readonly CellHead[]): NotebookDocument {
  const lines = content.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/);
  const text: SourceText = { file, lines };
  const length = content.length > LONGEST ? content.replace(PICTURE, '').length : content.length;
  if (length > LONGEST) {
    const problem = problemAt(placeOf(text, 1), '', `${length} characters`, `a notebook of at most ${LONGEST}`);
    return { text, frontMatter: NO_FRONT_MATTER, heading: '', pieces: [], problems: [problem] };
  }
  const front = readFrontMatter(text);
  // Blank lines in place of the front matter keep every line number right.
  const body = [...lines.slice(0, front.lines).fill(''), ...lines.slice(front.lines)].join('\n');
  const tokens = markdown.parse(body, {});
  const cells = new CellReader(text, kinds);
  const pieces: Piece[] = [];
  let prose: Token[] = [];
  const answer = answerIn(tokens, front.matter);
  let answers = false;
  const endProse = () => {
    if (prose.length > 0) pieces.push({ kind: 'prose', tokens: prose, ...(answers && { answers }) });
    prose = [];
    answers = false;
  };
  for (const [at, token] of tokens.entries()) {
    if (at === answer?.from || at === answer?.to) endProse();
    answers ||= at === answer?.from;
    const cell = token.type === 'fence' && cells.count < MOST_CELLS ? cells.read(token) : null;
    if (cell === null) {
      prose.push(token);
    } else if (token.level > 0) {
      // Cutting a list or a quotation in two would lose its shape: the cell stays visible as text, the problem is told.
      prose.push(token);
      cells.nested(cell);
    } else {
      endProse();
      pieces.push(cell);
    }
  }
  endProse();
  if (cells.count >= MOST_CELLS) cells.tooMany();
  const fenced = new Set(tokens.flatMap(({ type, map }) => (type === 'fence' ? linesFrom(map) : [])));
  const meant = meantFences(text, new Set(kinds.map(({ kind }) => kind)), line => fenced.has(line));
  return {
    text,
    frontMatter: front.matter,
    heading: firstHeading(tokens),
    pieces,
    problems: [...front.problems, ...(answer?.problem ? [answer.problem] : []), ...cells.problems, ...meant],
  };
}

/** From 0. */
function linesFrom(map: Token['map']): number[] {
  const [from, to] = map ?? [0, 0];
  return Array.from({ length: to - from }, (_, i) => from + i);
}

function firstHeading(tokens: readonly Token[]): string {
  const at = tokens.findIndex(token => token.type === 'heading_open');
  return at < 0 ? '' : plainText(tokens[at + 1]?.children ?? []);
}

/** A name that can stand inside a formula. */
const NAME = /^[A-Za-z][A-Za-z0-9_]*$/;
/** Files of rows and tables are named after cells. */
const LONGEST_NAME = 100;

/** A word behind the fence, which a setting of some renderer is not. */
const WORD = /^[\w-]+$/u;

/** Kinds of cell by what a workshop calls them. */
const SPOKEN: ReadonlyMap<string, string> = new Map([
  ['acceleration', 'launch'],
  ['accelerate', 'launch'],
  ['sprint', 'launch'],
  ['0-100', 'launch'],
  ['0-60', 'launch'],
  ['vehicle', 'car'],
  ['battery', 'part'],
  ['pack', 'part'],
  ['tyre', 'part'],
  ['tyres', 'part'],
  ['motor', 'part'],
  ['trip', 'drive'],
  ['journey', 'drive'],
  ['charging', 'charge'],
  ['optimise', 'seek'],
  ['optimize', 'seek'],
]);

/** Turns fences into cells and keeps the names that are taken. */
class CellReader {
  readonly problems: ProblemData[] = [];
  /** Cells that were found. */
  count = 0;
  readonly #text: SourceText;
  readonly #kinds: ReadonlyMap<string, CellHead>;
  readonly #taken = new Map<string, number>();
  /** Cells without a name, by kind. */
  readonly #nameless = new Map<string, number>();
  #lastLine = 1;

  constructor(text: SourceText, kinds: readonly CellHead[]) {
    this.#text = text;
    this.#kinds = new Map(kinds.map(kind => [kind.kind, kind]));
  }

  /** The cell that a fence is, or null for a fence that is prose. */
  read(token: Token): CellPiece | null {
    const cell = this.#read(token);
    if (cell === null) return null;
    this.count += 1;
    this.#lastLine = cell.line;
    return cell;
  }

  /** What stands behind the last cell that is read is prose. */
  tooMany(): void {
    const message = `the ${MOST_CELLS}th cell of this notebook, and no cell after it is read`;
    this.problems.push(problemAt(placeOf(this.#text, this.#lastLine), '', message, 'notebooks of fewer cells'));
  }

  #read(token: Token): CellPiece | null {
    const [language = '', ...rest] = token.info.trim().split(/\s+/);
    const line = (token.map?.[0] ?? 0) + 1;
    const cell = { kind: 'cell', line, source: token.content } as const;
    const kindWord = language === 'calc' ? 'calc' : (rest.shift() ?? '');
    const kind = this.#kinds.get(kindWord);
    if (kind === undefined || kind.language !== language) {
      const problem = this.#notQuiteACell(line, language, kindWord, rest);
      return problem === null ? null : { ...cell, cell: kindWord || language, name: rest[0] ?? '', problem };
    }
    const problem = this.#unclosed(token) ?? this.#wrongName(line, kind, rest);
    if (problem !== null) return { ...cell, cell: kind.kind, name: rest[0] ?? '', problem };
    const name = rest[0] ?? this.#madeUpName(kind.kind);
    this.#taken.set(name, line);
    return { ...cell, cell: kind.kind, name, problem: null };
  }

  nested(cell: CellPiece): void {
    const message = `a ${cell.cell} cell stands inside a list or a quotation`;
    const problem = problemAt(placeOf(this.#text, cell.line), '', message, 'cells at the left margin');
    this.problems.push(cell.problem ?? problem);
  }

  /** A fence that is no cell as it stands, but was probably meant as one. */
  #notQuiteACell(line: number, language: string, word: string, rest: readonly string[]): ProblemData | null {
    const known = this.#kinds.get(word) ?? this.#kinds.get(language);
    if (known !== undefined) {
      const message = `a ${known.kind} cell does not start with "${language}"`;
      return problemAt(placeOf(this.#text, line, language), '', message, `\`\`\`${head(known)} NAME`);
    }
    if (language !== 'yaml' || rest.length > 1 || ![word, ...rest].every(each => WORD.test(each))) return null;
    const kinds = [...this.#kinds.keys()];
    const place = placeOf(this.#text, line, word);
    const expected = `one of ${kinds.join(', ')}; or \`\`\`yaml alone for a text that is no cell`;
    return problemAt(place, '', `unknown kind of cell "${word}"`, expected, SPOKEN.get(word) ?? nearest(word, kinds));
  }

  /** A fence without an end swallows the rest of the file; the cause is told instead of what follows from it. */
  #unclosed(token: Token): ProblemData | null {
    const [opened = 0, end = 0] = token.map ?? [];
    const last = this.#text.lines[end - 1]?.trim() ?? '';
    const expected = `a line ${token.markup} after its last line`;
    const closed = end > opened + 1 && last.startsWith(token.markup) && /^(`+|~+)$/.test(last);
    // Another fence inside is that of the next cell, or an end that lacks a sign.
    const inside = token.content.split('\n').findIndex(text => /^\s*(?:`{2,}|~{2,})/u.test(text));
    if (closed && inside < 0) return null;
    if (closed) {
      const line = opened + inside + 2;
      const behind = /^\s*(?:`{3,}|~{3,})\s*(?!(?:yaml|calc)\b)(\S.*)$/u.exec(this.#text.lines[line - 1] ?? '')?.[1];
      if (behind !== undefined) {
        const place = placeOf(this.#text, line, behind);
        return problemAt(
          place,
          '',
          `text behind the ${token.markup} that ends a cell`,
          `${token.markup} alone in its line`,
        );
      }
      const message = `this cell is not closed before line ${line}`;
      return problemAt(placeOf(this.#text, opened + 1), '', message, expected);
    }
    return problemAt(placeOf(this.#text, opened + 1), '', 'this cell is never closed', expected);
  }

  #wrongName(line: number, kind: CellHead, words: readonly string[]): ProblemData | null {
    const [name, second] = words;
    if (name === undefined) {
      if (!kind.named) return null;
      const message = `this ${kind.kind} cell has no name`;
      return problemAt(placeOf(this.#text, line), '', message, `\`\`\`${head(kind)} NAME`);
    }
    const afterKind = (this.#text.lines[line - 1] ?? '').indexOf(kind.kind) + kind.kind.length;
    const place = placeOf(this.#text, line, name, afterKind);
    if (name.length > LONGEST_NAME) {
      const message = `a name of ${name.length} letters`;
      return problemAt(place, '', message, `at most ${LONGEST_NAME}`);
    }
    if (!NAME.test(name)) {
      const cure = name.replace(/[^A-Za-z0-9_]+/g, '_').replace(/^(?=[^A-Za-z])/, 'a');
      const expected = 'a letter, then letters, digits or "_", because formulas use it';
      return problemAt(place, '', `"${name}" cannot be the name of a cell`, expected, cure);
    }
    if (second !== undefined) {
      const at = placeOf(this.#text, line, second, place.column + name.length - 1);
      const joined = words.join('_');
      const message = `"${second}" after the name of the cell`;
      return problemAt(at, '', message, 'one name without spaces', NAME.test(joined) ? joined : '');
    }
    const first = this.#taken.get(name);
    if (first === undefined) return null;
    const message = `the name "${name}" is used twice: on line ${first} and on line ${line}`;
    return problemAt(place, '', message, 'a name of its own for each cell');
  }

  /** The blank keeps it apart from every name that can be written. */
  #madeUpName(kind: string): string {
    const count = (this.#nameless.get(kind) ?? 0) + 1;
    this.#nameless.set(kind, count);
    return `${kind} ${count}`;
  }
}

/** How the info string of such a cell begins. */
function head(kind: CellHead): string {
  return kind.language === 'calc' ? 'calc' : `yaml ${kind.kind}`;
}
