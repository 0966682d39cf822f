/** The sides of a comparison, and whether it may be promised. */
import { chanceText, endText } from '../../plots/kit/interval.ts';
import type { World } from '../context.ts';
import type { CheckOutcome } from '../document/outcome.ts';
import { FormulaError, type FormulaValue } from '../formula/formula.ts';

/** Operators of a comparison, and what may hide them. */
const PIECES = /"[^"]*"|'[^']*'|(<=|>=|==|!=|<|>|≤|≥|≠)/g;

/** Those that can be promised. */
const ORDERS: readonly string[] = ['<', '<=', '≤', '>', '>=', '≥'];

/** One side more than there are operators. */
export function sidesOf(text: string): { readonly sides: readonly string[]; readonly operators: readonly string[] } {
  const operators = [...text.matchAll(PIECES)].filter(match => match[1] !== undefined);
  const starts = [0, ...operators.map(match => match.index + match[0].length)];
  return {
    sides: starts.map((start, k) => text.slice(start, operators[k]?.index).trim()),
    operators: operators.map(([sign]) => sign),
  };
}

/**
 * The check, with what the samples of its figure make of it: where one side is a figure by its name and the other one has no interval. Two figures
 * move together, and a word has no interval. It is sure where it holds with the probability of the intervals, as under a `confidence` of a seek.
 */
export function checkPromise(check: CheckOutcome, world: World): CheckOutcome {
  const { sides, operators } = sidesOf(check.text);
  const [sign = '', second] = operators;
  if (second !== undefined || !ORDERS.includes(sign)) return check;
  const [left = '', right = ''] = sides;
  const [atLeft, atRight] = [world.figure(left), world.figure(right)];
  const figure = atLeft ?? atRight;
  if (figure?.ends === undefined || (atLeft !== null && atRight !== null)) return check;
  const [a, b] = sideValues(sides, world)?.map(({ value }) => value) ?? [];
  if (typeof a !== 'number' || typeof b !== 'number') return check;
  const { atLeast, atMost } = figure.ends.promised;
  const chance = `in ${chanceText(figure.probability)}`;
  const sense = /[<≤]/u.test(sign) === (atLeft !== null) ? 'most' : 'least';
  const end = sense === 'most' ? atMost : atLeast;
  if (end === null)
    return { ...check, sure: { hold: false, text: `too many cases have no answer to say so ${chance}` } };
  const hold = atLeft === null ? compared(a, sign, end) : compared(end, sign, b);
  const value = atLeft === null ? b : a;
  const known = { low: atLeast ?? value, high: atMost ?? value, error: figure.ends.error };
  const text = `${chance} at ${sense} ${endText(value, known, sense, figure.output, world.system)}`;
  return { ...check, sure: { hold, text } };
}

/** What the sides come to, each by itself; null where one is no formula: with `and` or brackets around all of it. */
export function sideValues(sides: readonly string[], world: World): readonly FormulaValue[] | null {
  try {
    return sides.map(side => world.evaluate(side));
  } catch (error) {
    if (error instanceof FormulaError) return null;
    throw error;
  }
}

function compared(a: number, sign: string, b: number): boolean {
  if (sign === '<') return a < b;
  if (sign === '<=' || sign === '≤') return a <= b;
  if (sign === '>') return a > b;
  return a >= b;
}
