/** The sides of a comparison, and whether it holds at the ends of an interval too. */
import { endsText } from '../../plots/kit/interval.ts';
import type { World } from '../context.ts';
import type { CheckOutcome } from '../document/outcome.ts';
import { FormulaError, type FormulaValue } from '../formula/formula.ts';

/** Operators of a comparison, and what may hide them. */
const PIECES = /"[^"]*"|'[^']*'|(<=|>=|==|!=|<|>|≤|≥|≠)/g;

/** Those of which an end of an interval can be judged. */
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
 * The check, with what the interval of its figure makes of it: where one side is a figure by its name and the other one has no
 * interval. Two figures move together, and a word has no ends.
 */
export function checkAtEnds(check: CheckOutcome, world: World): CheckOutcome {
  const { sides, operators } = sidesOf(check.text);
  const [sign = '', second] = operators;
  if (second !== undefined || !ORDERS.includes(sign)) return check;
  const [left = '', right = ''] = sides;
  const [atLeft, atRight] = [world.figure(left), world.figure(right)];
  const figure = atLeft ?? atRight;
  if (figure?.ends === undefined || (atLeft !== null && atRight !== null)) return check;
  const [a, b] = sideValues(sides, world)?.map(({ value }) => value) ?? [];
  if (typeof a !== 'number' || typeof b !== 'number') return check;
  const { low, high } = figure.ends;
  const holds = (end: number): boolean => (atLeft === null ? compared(a, sign, end) : compared(end, sign, b));
  const text = endsText(atLeft === null ? b : a, figure.ends, figure.output, world.system);
  return { ...check, ends: { hold: holds(low) && holds(high), text } };
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
