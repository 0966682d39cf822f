/** Prose with its quoted results: inline code that starts with `=` becomes the value it asks for. */
import type { Token } from 'markdown-it';
import { formulaProblem, type World } from '../context.ts';
import { markdown } from './document.ts';
import { FormulaError } from '../formula/formula.ts';
import { faultAt, type Place, problemAt } from './located.ts';
import type { ProseBlock } from './outcome.ts';
import { placeOf, type SourceText } from './place.ts';
import type { ProblemData } from './problem.ts';
import { quoted } from './quote.ts';

export interface RenderedProse {
  readonly block: ProseBlock;
  readonly problems: readonly ProblemData[];
}

/** Inline code that asks for a value; `==` and `=>` are code of other kinds. */
const ASKS = /^=(?![=>])\s*(\S.*)$/;

/** Pictures that are in the notebook itself; any other would have to be loaded. */
const EMBEDDED = /^data:image\/(?:png|jpeg|gif|webp);/i;

/** What prose asks for, in the order in which its answers stand; nothing once it is rendered. */
export function quotedFormulas(tokens: readonly Token[]): readonly string[] {
  return tokens.flatMap(({ children }) =>
    (children ?? []).flatMap(({ type, content }) => {
      const formula = type === 'code_inline' ? ASKS.exec(content)?.[1] : undefined;
      return formula === undefined ? [] : [formula.trimEnd()];
    }),
  );
}

/** Renders the blocks between two cells, and uses the tokens up. Never throws for what the user wrote. */
export function renderProse(tokens: readonly Token[], text: SourceText, world: World): RenderedProse {
  const problems: ProblemData[] = [];
  let from: Cursor = { line: 1, column: 0 };
  /** Last line of the block that is read. */
  let last = 1;
  const ask = (token: Token, formula: string): void => {
    const found = findCode(text, token.content, formula, { from, last });
    from = found.after;
    try {
      const shown = quoted(formula, world);
      become(token, 'html_inline', `<output>${markdown.utils.escapeHtml(shown)}</output>`, shown);
    } catch (error) {
      const data =
        error instanceof FormulaError
          ? formulaProblem(error, (offset, length) => within(found.place, offset, length)).data
          : faultAt(found.place, '', 'this quoted result', error);
      problems.push(data);
      // All of it stands at the head of the page; a sentence takes no more than this.
      const shown = `⚠ line ${data.line}: ${data.message}`;
      become(token, 'html_inline', `<output class="problem">${markdown.utils.escapeHtml(shown)}</output>`, shown);
    }
  };
  for (const token of tokens) {
    if (token.map !== null) {
      from = later(from, { line: token.map[0] + 1, column: 0 });
      last = token.map[1];
    }
    for (const inner of token.children ?? []) {
      const formula = inner.type === 'code_inline' ? ASKS.exec(inner.content)?.[1] : undefined;
      if (formula !== undefined) ask(inner, formula.trimEnd());
      if (inner.type === 'text') problems.push(...unclosed(inner.content, text, { from, last }));
      if (inner.type === 'link_open') inner.attrSet('rel', 'noopener noreferrer');
      if (inner.type === 'image' && !EMBEDDED.test(String(inner.attrGet('src') ?? ''))) {
        become(inner, 'text', `[${inner.content}]`, '');
      }
    }
  }
  const html = markdown.renderer.render([...tokens], markdown.options, {});
  return { block: { kind: 'prose', html, text: proseText(tokens) }, problems };
}

/** Text that would quote a result if its code were closed: a backtick before an equals sign, or behind what stands after one. */
function unclosed(content: string, text: SourceText, where: Stretch): readonly ProblemData[] {
  const found = /`\s*=(?![=>])[^`]*$/u.exec(content) ?? /(?<![\w=<>!])=\s*[A-Za-z][\w.]*`/u.exec(content);
  if (found === null) return [];
  const { place } = findCode(text, found[0].trim(), found[0].trim(), where);
  return [problemAt(place, '', 'this quoted result has one backtick only', 'one on either side, as in `= dash.time`')];
}

/** A part of a stretch of a line; the whole of it where the formula was not found in one piece. */
function within(place: Place, offset: number, length: number): Place {
  const end = Math.max(1, Math.min(length, place.length - offset));
  return offset >= place.length ? place : { ...place, column: place.column + offset, length: end };
}

function become(token: Token, type: string, content: string, shown: string): void {
  Object.assign(token, { type, content, children: null, attrs: null, meta: { shown } });
}

/** 1-based line, 0-based column. */
interface Cursor {
  readonly line: number;
  readonly column: number;
}

function later(a: Cursor, b: Cursor): Cursor {
  return b.line > a.line ? b : a;
}

/** The lines of a block from the last find on. */
interface Stretch {
  readonly from: Cursor;
  readonly last: number;
}

/** Tokens inside a paragraph carry no position: the code is looked for in the source of the paragraph. */
function findCode(
  text: SourceText,
  code: string,
  formula: string,
  { from, last }: Stretch,
): { place: Place; after: Cursor } {
  for (let line = from.line; line <= last; line += 1) {
    const at = (text.lines[line - 1] ?? '').indexOf(code, line === from.line ? from.column : 0);
    if (at < 0) continue;
    const place = placeOf(text, line, formula, at + code.indexOf(formula));
    return { place, after: { line, column: at + code.length } };
  }
  // Code that runs over the end of a line is not found in one piece.
  return { place: placeOf(text, from.line), after: from };
}

/** The prose for a terminal: paragraphs apart, marks gone, list items with a dash. */
function proseText(tokens: readonly Token[]): string {
  let text = '';
  for (const [k, token] of tokens.entries()) {
    if (token.type === 'inline') text += inlineText(token.children ?? []);
    else if (token.type === 'fence' || token.type === 'code_block') text += `${token.content.trimEnd()}\n\n`;
    else if (token.type === 'list_item_open') text += '- ';
    else if (token.type === 'td_close' || token.type === 'th_close') text += '  ';
    else if (token.type === 'tr_close' || token.type === 'list_item_close') text += '\n';
    else if (/^(paragraph|heading)_close$/.test(token.type)) {
      text += tokens[k + 1]?.type === 'list_item_close' ? '' : '\n\n';
    } else if (/^(bullet_list|ordered_list|table)_close$/.test(token.type)) text += '\n';
  }
  return text.replace(/\n{3,}/g, '\n\n').trim();
}

function inlineText(tokens: readonly Token[]): string {
  return tokens
    .map(token => {
      if (token.type === 'softbreak') return ' ';
      if (token.type === 'hardbreak') return '\n';
      if (token.type === 'html_inline') return (token.meta as { shown?: string } | null)?.shown ?? '';
      return token.content;
    })
    .join('');
}
