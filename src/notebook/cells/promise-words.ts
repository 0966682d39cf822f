/** A comparison in the words of a promise: `to 100 km/h (road) below 8 s`, where the author said it in none of his own. */
import { spokenPath } from '../../studies/question/path-words.ts';
import { type Token, tokenise } from '../../units/token.ts';
import type { World } from '../context.ts';
import { headOf, tailOf } from '../document/names.ts';
import { formulaNames } from '../formula/formula.ts';

const SIGNS: { readonly [sign: string]: string } = {
  '<': 'below',
  '<=': 'at most',
  '>': 'above',
  '>=': 'at least',
  '==': 'is',
  '!=': 'is not',
};
const WORDS = new Set(['and', 'or', 'not']);

export function promiseWords(text: string, world: World): string {
  const names = new Set(formulaNames(text));
  const tokens = tokenise(text);
  // Of several in a row, or with words between them, the signs say it better.
  const plain = tokens.filter(isSign).length === 1 && !tokens.some(isWord);
  let words = '';
  let end = 0;
  for (const token of tokens) {
    words += text.slice(end, token.offset) + spoken(token, names, plain, world);
    end = token.offset + token.length;
  }
  words += text.slice(end);
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function isSign({ kind, text }: Token): boolean {
  return kind === 'operator' && SIGNS[text] !== undefined;
}

function isWord({ kind, text }: Token): boolean {
  return kind === 'operator' && WORDS.has(text);
}

function spoken(token: Token, names: ReadonlySet<string>, plain: boolean, world: World): string {
  if (token.kind === 'name' && names.has(token.text)) return nameWords(token.text, world);
  return (plain && token.kind === 'operator' ? SIGNS[token.text] : undefined) ?? writtenOf(token);
}

function writtenOf({ kind, text }: Token): string {
  if (kind === 'text') return text;
  return text === 'percent' ? '%' : text;
}

function nameWords(name: string, world: World): string {
  const product = world.given(headOf(name))?.product;
  if (product?.kind === 'car') return spokenPath(name, true);
  const label = product?.kind === 'result' ? product.result.outputs[tailOf(name)]?.label : undefined;
  return label === undefined ? name.replaceAll(/[._]/g, ' ') : `${label} (${headOf(name).replaceAll('_', ' ')})`;
}
