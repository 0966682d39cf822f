/**
 * Reckons the tree of a formula out, walking it once. Names come from the notebook first, then from the constants, then
 * from the units: a notebook cannot take a name that a unit has (see `parseAssignments`), so that the order never shows.
 */
import { UnitError } from '../../units/error.ts';
import { insteadOf, knownUnit, zeroOf } from '../../units/known.ts';
import { nearest } from '../../units/nearest.ts';
import { spellings } from '../../units/trade.ts';
import type { Span, Tree } from '../../units/tree.ts';
import { unitOf } from '../../units/unit.ts';
import { ArithmeticError, compare, finite, isPure, type Operand, operate, pure, truth } from './arithmetic.ts';
import { applyFunction, FUNCTION_NAMES, isFunction } from './functions.ts';

/** A value in SI, a truth value or a word. */
export interface FormulaValue {
  readonly value: number | boolean | string;
  /** SI unit, '1' for a pure number, '' for a word or a truth value. */
  readonly unit: string;
  /** The unit that people read it in, asked for by a trailing `to unit` or known from its cell. */
  readonly display?: string;
  /** A point on a temperature scale, and no difference. */
  readonly onScale?: true;
}

/** Value of a name, dotted (`dash.time`) or plain; undefined when there is none. */
export type Lookup = (path: string) => FormulaValue | undefined;

export interface Scope {
  readonly lookup: Lookup;
  /** What could have been meant by a name that `lookup` does not know. */
  readonly names: readonly string[];
}

const CONSTANTS: { readonly [name: string]: number } = { pi: Math.PI };

/** What a name already means: `a unit`, `a function`, `a constant`, `a word of formulas`; '' when it is free. */
export function whatIs(name: string): string {
  if (isFunction(name)) return 'a function';
  if (Object.hasOwn(CONSTANTS, name)) return 'a constant';
  if (RESERVED.has(name)) return 'a word of formulas';
  return knownUnit(name) !== undefined || insteadOf(name) !== undefined ? 'a unit' : '';
}

const RESERVED = new Set([
  'and',
  'or',
  'not',
  'to',
  'in',
  'mod',
  'xor',
  'true',
  'false',
  'null',
  'undefined',
  'NaN',
  'Infinity',
  'end',
]);

/** Throws UnitError with the place in the text. */
export function evaluate(tree: Tree, scope: Scope): Operand {
  const all = (args: readonly Tree[]): Operand[] => args.map(arg => evaluate(arg, scope));
  switch (tree.kind) {
    case 'number':
      return at(tree, () => finite(pure(tree.value)));
    case 'truth':
    case 'text':
      return tree.value;
    case 'name':
      return named(tree.name, tree, scope);
    case 'call':
      return called(tree.name, tree, all(tree.args));
    case 'operator': {
      const onScale = temperature(tree, scope);
      if (onScale !== undefined) return onScale;
      const operands = all(tree.args);
      return at(tree, () => operate(tree.op, operands));
    }
    case 'comparison': {
      const sides = all(tree.args);
      // Each is reckoned out, for one that can not be is wrong whatever stands before it.
      const pairs = tree.ops.map((op, i) => at(tree, () => compare(op, side(sides, i), side(sides, i + 1))));
      return pairs.every(Boolean);
    }
  }
  const [test, yes, no] = tree.args;
  const holds = evaluate(test, scope);
  return evaluate(at(test, () => truth(holds)) ? yes : no, scope);
}

function side(sides: readonly Operand[], i: number): Operand {
  const found = sides[i];
  if (found === undefined) throw new ArithmeticError('a side of this comparison is missing');
  return found;
}

/** `25 degC` is a point on a scale; anywhere else a degree is a difference, as in `W/degC`. */
function temperature(tree: Tree & { readonly kind: 'operator' }, scope: Scope): Operand | undefined {
  const [left, right] = tree.args;
  if (!tree.implicit || left === undefined || right?.kind !== 'name') return undefined;
  const zero = zeroOf(right.name);
  if (zero === undefined) return undefined;
  const number = evaluate(left, scope);
  if (!isPure(number)) return undefined;
  const literal = left.kind === 'operator' && left.op === 'unaryMinus' ? left.args[0] : left;
  const degree = unitOf(right.name);
  if (literal?.kind !== 'number')
    throw new UnitError('a temperature scale follows a plain number', right.offset, right.length);
  const read = { value: (number.value + zero) * degree.factor, dimension: degree.dimension, onScale: true };
  return at(tree, () => finite(read));
}

function named(name: string, span: Span, { lookup, names }: Scope): Operand {
  const found = lookup(name);
  if (found !== undefined) return fromValue(found, name, span);
  if (Object.hasOwn(CONSTANTS, name)) return pure(CONSTANTS[name] ?? NaN);
  const unit = knownUnit(name);
  if (unit !== undefined) return unit;
  const { offset, length } = span;
  const instead = insteadOf(name);
  if (instead !== undefined) {
    throw new UnitError(`"${name}" is another unit in another country`, offset, length, '', instead);
  }
  if (isFunction(name)) throw new UnitError(`"${name}" is a function`, offset, length, `${name}(...)`);
  const likely = name.includes('.') ? names : [...names, ...spellings(), ...FUNCTION_NAMES];
  const meant = nearest(name, likely);
  throw new UnitError(`unknown name "${name}"`, offset, length, meant === '' ? cellsBefore(name, names) : '', meant);
}

/** Cells that are told to choose from. */
const MOST_CELLS = 12;

/** What may stand before the point of a name, in words that follow "expected"; '' where that is a cell already, or there is none. */
function cellsBefore(name: string, names: readonly string[]): string {
  if (!name.includes('.')) return '';
  const before = (each: string): string => each.slice(0, each.indexOf('.'));
  const cells = [...new Set(names.filter(each => each.includes('.')).map(before))];
  if (cells.length === 0 || cells.length > MOST_CELLS || cells.includes(before(name))) return '';
  return `a figure of ${cells.join(', ')}`;
}

function fromValue(
  { value, unit, display = '', onScale }: FormulaValue,
  name: string,
  { offset, length }: Span,
): Operand {
  if (typeof value !== 'number') return value;
  if (!Number.isFinite(value)) throw new UnitError(`"${name}" has no value`, offset, length);
  const { factor, zero, dimension } = unitOf(unit);
  const point = onScale === true || zeroOf(display) !== undefined;
  const read = { value: (value + zero) * factor, dimension, ...(point && { onScale: true }) };
  return at({ offset, length }, () => finite(read));
}

function called(name: string, tree: Tree & { readonly kind: 'call' }, operands: readonly Operand[]): Operand {
  if (isFunction(name)) return at(tree, () => applyFunction(name, operands));
  const expected = whatIs(name) === '' ? '' : `${name} * (...)`;
  throw new UnitError(`"${name}" is not a function`, tree.offset, name.length, expected, nearest(name, FUNCTION_NAMES));
}

/** Gives an ArithmeticError its place. */
function at<T>({ offset, length }: Span, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof ArithmeticError) throw new UnitError(error.message, offset, length);
    throw error;
  }
}
