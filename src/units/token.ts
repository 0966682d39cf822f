/**
 * Cuts a unit or a formula into tokens, each with its place in the text and its spelling for mathjs. Whatever is not
 * part of the language is refused here, before mathjs sees it: brackets of arrays and objects, assignments, comments,
 * statements, remainders. The signs that people write (°C, Ω, µ, ², ·, ≤, %) become their plain spellings.
 */
import { UnitError } from './error.ts';

export interface Token {
  /** `operator` includes brackets, commas and the words and, or, not, to. */
  readonly kind: 'number' | 'name' | 'text' | 'operator';
  /** Plain spelling: `degC` for °C, `percent` for %, `*` for ·; the content of a text. */
  readonly text: string;
  readonly offset: number;
  readonly length: number;
}

/** A formula longer than this, in characters, tokens or nested brackets, is refused: each bounds the work of parsing. */
const LONGEST = 1000;
const MOST_TOKENS = 200;
const DEEPEST = 32;

const PIECE =
  /\s*(?:(?<number>(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)|(?<name>[A-Za-zµμΩΩ°℃℉][A-Za-z0-9_µμΩΩ]*(?:\.[A-Za-z][A-Za-z0-9_]*)*)|(?<text>"[^"\\]*"|'[^'\\]*')|(?<power>[⁻]?[¹²³⁴]+)|(?<operator><=|>=|==|!=|->|[-+*/^(),<>?:·⋅×−≤≥≠→])|(?<percent>%)|(?<other>\S))/uy;

const OPERATORS: { readonly [sign: string]: string } = {
  '·': '*',
  '⋅': '*',
  '×': '*',
  '−': '-',
  '≤': '<=',
  '≥': '>=',
  '≠': '!=',
  '→': 'to',
  '->': 'to',
};
const WORDS = new Set(['and', 'or', 'not', 'to']);
const SUPERSCRIPTS = '⁰¹²³⁴';

/** What to say about a character that stands outside the language. */
const HINTS: { readonly [sign: string]: string } = {
  '=': 'two sides are compared with "=="',
  '&': 'write "and"',
  '|': 'write "or"',
  '!': 'write "not"',
  _: 'digits are written without "_" between them',
  '"': 'the text has no closing quote',
  "'": 'the text has no closing quote',
  '[': 'lists are not part of a formula',
  '{': 'objects are not part of a formula',
  ';': 'one formula a line',
};

/** Tokens of `text`. Throws UnitError. */
export function tokenise(text: string): readonly Token[] {
  if (text.length > LONGEST) throw new UnitError(`longer than ${LONGEST} characters`, LONGEST, text.length - LONGEST);
  const tokens: Token[] = [];
  let depth = 0;
  PIECE.lastIndex = 0;
  for (let match = PIECE.exec(text); match !== null; match = PIECE.exec(text)) {
    const end = PIECE.lastIndex;
    const offset = end - match[0].trimStart().length;
    for (const token of tokensOf(match.groups ?? {}, offset, text.slice(end), tokens.at(-1))) {
      if (token.text === '(' && ++depth > DEEPEST) throw new UnitError('too many nested brackets', offset, 1);
      if (token.text === ')') depth--;
      tokens.push(token);
    }
    if (tokens.length > MOST_TOKENS) throw new UnitError(`more than ${MOST_TOKENS} words and signs`, offset, 1);
    PIECE.lastIndex = end;
  }
  return tokens;
}

/** Comparisons that are written the other way round. */
const TURNED: { readonly [sign: string]: string | undefined } = { '<': '<=', '>': '>=' };

function tokensOf(
  groups: { readonly [name: string]: string | undefined },
  offset: number,
  rest: string,
  before: Token | undefined,
): readonly Token[] {
  const { number, name, text, power, operator, percent, other } = groups;
  if (number !== undefined) return [numberToken(number, offset, rest)];
  if (name !== undefined) return [nameToken(name, offset, rest, before)];
  if (text !== undefined) return [{ kind: 'text', text: text.slice(1, -1), offset, length: text.length }];
  if (power !== undefined) return powerTokens(power, offset);
  if (operator !== undefined) {
    return [{ kind: 'operator', text: OPERATORS[operator] ?? operator, offset, length: operator.length }];
  }
  if (percent !== undefined) return [percentToken(offset, rest)];
  const sign = other ?? '';
  const turned = sign === '=' ? TURNED[rest.charAt(0)] : undefined;
  if (turned !== undefined) throw new UnitError(`"=${rest.charAt(0)}" has no meaning here`, offset, 2, '', turned);
  throw new UnitError(`"${sign}" has no meaning here`, offset, sign.length, HINTS[sign] ?? '');
}

function numberToken(text: string, offset: number, rest: string): Token {
  if (!Number.isFinite(Number(text))) throw new UnitError(`the number ${text} is too large`, offset, text.length);
  if (rest.startsWith('_')) {
    throw new UnitError('digits are written without "_" between them', offset, text.length + 1);
  }
  return { kind: 'number', text: String(Number(text)), offset, length: text.length };
}

function nameToken(written: string, offset: number, rest: string, before: Token | undefined): Token {
  const text = written
    .replace(/^°$/u, 'deg')
    .replace(/^(°C|℃)$/u, 'degC')
    .replace(/^(°F|℉)$/u, 'degF')
    .replace(/[ΩΩ]/gu, 'ohm')
    .replace(/[µμ]/gu, 'u');
  const { length } = written;
  if (text === 'mod' || text === 'xor') throw new UnitError(`"${text}" is not part of a formula`, offset, length);
  if (WORDS.has(text)) return { kind: 'operator', text, offset, length };
  if (text !== 'in') return { kind: 'name', text, offset, length };
  // mathjs takes `x in km` for a conversion; here `in` is the inch, and a conversion is spelled `to`.
  if (before?.kind !== 'number' && /^\s*[A-Za-z°]/u.test(rest)) {
    throw new UnitError('"in" is the inch', offset, length, 'a conversion is written with "to"', 'to');
  }
  return { kind: 'name', text: 'inch', offset, length };
}

/** `m²` is `m ^ 2`, `s⁻¹` is `s ^ - 1`; all of it stands at the one sign. */
function powerTokens(written: string, offset: number): readonly Token[] {
  const place = { offset, length: written.length };
  const digits = written.replace(/[¹²³⁴]/gu, sign => String(SUPERSCRIPTS.indexOf(sign))).replace('⁻', '');
  const minus: Token[] = written.startsWith('⁻') ? [{ kind: 'operator', text: '-', ...place }] : [];
  return [{ kind: 'operator', text: '^', ...place }, ...minus, { kind: 'number', text: digits, ...place }];
}

/** mathjs reads `5 % 3` as a remainder and `100 + 3 %` as 103: here % is a hundredth and nothing else. */
function percentToken(offset: number, rest: string): Token {
  if (/^\s*(?!(?:and|or|to)\b)[\w("'.]/u.test(rest)) {
    throw new UnitError('a percent sign ends a number', offset, 1, 'an operator after it');
  }
  return { kind: 'name', text: 'percent', offset, length: 1 };
}
