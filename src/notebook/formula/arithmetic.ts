/**
 * Arithmetic of formulas: numbers with dimensions, truth values and words. Ours and not that of mathjs, to which an
 * angle is a dimension (torque times speed would be no power), whose errors have no place in the text, and which can be
 * made to run out of memory.
 */
import * as elementary from '../../elementary.ts';
import { baseUnit, combine, type Dimension, equalDimension, PURE } from '../../units/dimension.ts';
import { dimensionName, tradeUnit } from '../../units/trade.ts';
import type { Comparison, Operator } from '../../units/tree.ts';

/** A number in SI. `onScale`: a point on a temperature scale, which cannot be added to another or multiplied. */
export interface Measured {
  readonly value: number;
  readonly dimension: Dimension;
  readonly onScale?: boolean;
}
export type Operand = Measured | boolean | string;

/** What cannot be done, in words; the caller knows where it stands. */
export class ArithmeticError extends Error {}

/** The SI unit in which a result of this dimension is given. */
export function resultUnit(dimension: Dimension): string {
  return tradeUnit(dimension) ?? baseUnit(dimension);
}

/** `a mass`, `a pure number`, `a truth value`, for messages. */
export function kindOf(operand: Operand): string {
  if (typeof operand === 'boolean') return 'a truth value';
  if (typeof operand === 'string') return 'a word';
  const name = dimensionName(resultUnit(operand.dimension));
  return `${/^[aeiou]/u.test(name) ? 'an' : 'a'} ${name}`;
}

export function pure(value: number): Measured {
  return { value, dimension: PURE };
}

export function isPure(operand: Operand): operand is Measured {
  return typeof operand === 'object' && equalDimension(operand.dimension, PURE);
}

/** Throws ArithmeticError, as everything below. */
export function operate(op: Operator, operands: readonly Operand[]): Operand {
  if (op === 'and' || op === 'or' || op === 'not') {
    const [a, b] = operands.map(truth);
    return op === 'not' ? a !== true : op === 'and' ? a === true && b === true : a === true || b === true;
  }
  const [a, b = pure(1)] = operands.map(measured);
  if (a === undefined) throw new ArithmeticError('nothing to reckon with');
  if (op === 'unaryPlus') return a;
  if (op === 'unaryMinus') return { value: -offScale(a).value, dimension: a.dimension };
  return finite(op === 'add' || op === 'subtract' ? sum(op, a, b) : product(op, offScale(a), offScale(b)));
}

/** Twice 20 degC is 40 degC to some and 313 degC to others. */
export function offScale(operand: Measured): Measured {
  if (operand.onScale !== true) return operand;
  throw new ArithmeticError('a temperature on a scale cannot be multiplied; take its distance from another one first');
}

function sum(op: 'add' | 'subtract', a: Measured, b: Measured): Measured {
  if (!equalDimension(a.dimension, b.dimension)) {
    const doing = op === 'add' ? 'added to' : 'taken from';
    throw new ArithmeticError(`${kindOf(b)} cannot be ${doing} ${kindOf(a)}`);
  }
  const [left, right] = [a.onScale === true, b.onScale === true];
  if (op === 'add' && left && right) {
    throw new ArithmeticError('two temperatures cannot be added; a difference is in K');
  }
  // Between two points lies a difference; that many kelvins before or after a point lies another one.
  const onScale = op === 'add' ? left || right : left && !right;
  const value = op === 'add' ? a.value + b.value : a.value - b.value;
  return { value, dimension: a.dimension, ...(onScale && { onScale }) };
}

function product(op: 'multiply' | 'divide' | 'pow', a: Measured, b: Measured): Measured {
  if (op === 'multiply') return { value: a.value * b.value, dimension: combine(a.dimension, 1, b.dimension, 1) };
  if (op === 'divide') {
    if (b.value === 0) throw new ArithmeticError('division by zero');
    return { value: a.value / b.value, dimension: combine(a.dimension, 1, b.dimension, -1) };
  }
  if (!isPure(b)) throw new ArithmeticError(`an exponent must be a pure number, not ${kindOf(b)}`);
  return { value: elementary.pow(a.value, b.value), dimension: combine(a.dimension, b.value) };
}

/** Numbers closer than this, relative to the larger, count as equal: rounding must not decide a check. */
const SAME = 1e-12;

export function compare(op: Comparison, left: Operand, right: Operand): boolean {
  if (typeof left !== 'object' || typeof right !== 'object') {
    if (typeof left !== typeof right)
      throw new ArithmeticError(`${kindOf(left)} cannot be compared with ${kindOf(right)}`);
    if (op !== 'equal' && op !== 'unequal') throw new ArithmeticError(`${kindOf(left)} is compared with == or !=`);
    return (left === right) === (op === 'equal');
  }
  if (!equalDimension(left.dimension, right.dimension)) {
    const unitless = isPure(left) !== isPure(right) ? ': a unit is missing on one side' : '';
    throw new ArithmeticError(`${kindOf(left)} cannot be compared with ${kindOf(right)}${unitless}`);
  }
  const [a, b] = [left.value, right.value];
  const same = Math.abs(a - b) <= SAME * Math.max(Math.abs(a), Math.abs(b));
  if (op === 'equal' || op === 'unequal') return same === (op === 'equal');
  if (same) return op === 'smallerEq' || op === 'largerEq';
  return op === 'smaller' || op === 'smallerEq' ? a < b : a > b;
}

export function truth(operand: Operand): boolean {
  if (typeof operand === 'boolean') return operand;
  throw new ArithmeticError(`${kindOf(operand)} is neither true nor false`);
}

export function measured(operand: Operand): Measured {
  if (typeof operand === 'object') return operand;
  throw new ArithmeticError(`${kindOf(operand)} is not a number`);
}

/** Nothing that anybody measures; any unit of people holds it, and so do the products of a few such numbers. */
const LARGEST = 1e100;

export function finite(result: Measured): Measured {
  if (Number.isNaN(result.value)) throw new ArithmeticError('this has no real value');
  if (!(Math.abs(result.value) <= LARGEST)) throw new ArithmeticError('the result is too large');
  return result;
}
