/** The functions of formulas: a closed list. */
import * as elementary from '../../elementary.ts';
import { combine, equalDimension } from '../../units/dimension.ts';
import {
  ArithmeticError,
  finite,
  isPure,
  kindOf,
  type Measured,
  measured,
  offScale,
  type Operand,
  pure,
} from './arithmetic.ts';

/** How many operands a function takes, and how their dimensions go together. */
interface Formula {
  readonly least: number;
  readonly most: number;
  /** `pure`: pure numbers in and out. `same`: operands of one dimension, which the result has too. */
  readonly takes: 'pure' | 'same' | 'same to pure' | 'any';
  readonly of: (...values: number[]) => number;
  /** Exponent of the operand's dimension in the result, for `any`. */
  readonly power?: number;
}

const PURE_FUNCTIONS = ['sin', 'cos', 'tan', 'asin', 'acos', 'atan', 'exp', 'log10', 'floor', 'ceil'] as const;

const FUNCTIONS: { readonly [name: string]: Formula } = {
  ...Object.fromEntries(PURE_FUNCTIONS.map(name => [name, { least: 1, most: 1, takes: 'pure', of: Math[name] }])),
  log: {
    least: 1,
    most: 2,
    takes: 'pure',
    of: (x, base) => elementary.log(x ?? NaN) / (base === undefined ? 1 : elementary.log(base)),
  },
  round: { least: 1, most: 2, takes: 'pure', of: round },
  sqrt: { least: 1, most: 1, takes: 'any', of: Math.sqrt, power: 1 / 2 },
  cbrt: { least: 1, most: 1, takes: 'any', of: Math.cbrt, power: 1 / 3 },
  sign: { least: 1, most: 1, takes: 'any', of: Math.sign, power: 0 },
  abs: { least: 1, most: 1, takes: 'any', of: Math.abs, power: 1 },
  min: { least: 1, most: 20, takes: 'same', of: Math.min },
  max: { least: 1, most: 20, takes: 'same', of: Math.max },
  hypot: { least: 1, most: 20, takes: 'same', of: elementary.hypot },
  atan2: { least: 2, most: 2, takes: 'same to pure', of: Math.atan2 },
};

export const FUNCTION_NAMES: readonly string[] = Object.keys(FUNCTIONS);

export function isFunction(name: string): boolean {
  return Object.hasOwn(FUNCTIONS, name);
}

/** Throws ArithmeticError. */
export function applyFunction(name: string, operands: readonly Operand[]): Measured {
  const formula = isFunction(name) ? FUNCTIONS[name] : undefined;
  if (formula === undefined) throw new ArithmeticError(`"${name}" is not a function`);
  const { least, most, takes, of, power = 0 } = formula;
  if (operands.length < least || operands.length > most) {
    throw new ArithmeticError(
      `${name} takes ${least === most ? least : `${least} to ${most}`} value${most === 1 ? '' : 's'}`,
    );
  }
  const values = operands.map(measured);
  const first = values[0] ?? pure(0);
  for (const value of values) {
    if (takes === 'pure' && !isPure(value)) {
      throw new ArithmeticError(`${name} takes a pure number, not ${kindOf(value)}; divide by a unit first`);
    }
    if (!equalDimension(value.dimension, first.dimension)) {
      throw new ArithmeticError(`${name} cannot mix ${kindOf(first)} and ${kindOf(value)}`);
    }
  }
  const onScale = name === 'min' || name === 'max' ? values.some(each => each.onScale === true) : false;
  const value = of(...values.map(operand => (onScale ? operand : offScale(operand)).value));
  const exponent = takes === 'same' ? 1 : takes === 'any' ? power : 0;
  return finite({ value, dimension: combine(first.dimension, exponent), ...(onScale && { onScale }) });
}

/** To a number of places after the point, 0 to 15; halves away from zero, as people round. */
function round(x = NaN, places = 0): number {
  if (!Number.isInteger(places) || places < 0 || places > 15) {
    throw new ArithmeticError('round takes a whole number of places from 0 to 15');
  }
  return Math.sign(x) * shift(Math.round(shift(Math.abs(x), places)), -places);
}

/** Moves the point in the decimal text, which keeps round(1.005, 2) at 1.01. */
function shift(value: number, by: number): number {
  const [mantissa = '', power = '0'] = String(value).split('e');
  return Number(`${mantissa}e${Number(power) + by}`);
}
