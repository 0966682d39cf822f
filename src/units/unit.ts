/** A unit as text (`kg`, `Wh/km`, `W/(N m)^2`, `°C`) to its size in SI. */
import { combine, type Dimension, PURE } from './dimension.ts';
import { UnitError } from './error.ts';
import { insteadOf, knownUnit, type Measure, zeroOf } from './known.ts';
import { nearest } from './nearest.ts';
import { parseTree, type Tree } from './tree.ts';

export interface Unit {
  /** SI value of one of it. */
  readonly factor: number;
  /** What is added before the factor is applied: 273.15 for degC, 0 for all but the two temperature scales. */
  readonly zero: number;
  readonly dimension: Dimension;
}

type Spellings = () => readonly string[];

const cache = new Map<string, Unit>();

/**
 * The unit that `text` spells; '' and '1' are pure. Exponents bind first, then factors side by side, then `*` and `/`
 * from the left: `J/kg K` is J/(kg K). `likely` gives what an unknown name may have been meant to be, the likeliest first.
 * Throws UnitError with the place in `text`.
 */
export function unitOf(text: string, likely: Spellings = () => []): Unit {
  const known = cache.get(text);
  if (known !== undefined) return known;
  const unit = text.trim() === '' ? { factor: 1, zero: 0, dimension: PURE } : resolved(text, likely);
  cache.set(text, unit);
  return unit;
}

function resolved(text: string, likely: Spellings): Unit {
  const tree = parseTree(text);
  const { value, dimension } = sizeOf(tree, likely);
  const name = tree.kind === 'name' ? tree.name : '';
  return {
    factor: value,
    zero: zeroOf(name) ?? 0,
    dimension,
  };
}

/** Products, quotients and whole powers of units and plain numbers (`kWh/100 km`); nothing else is a unit. */
function sizeOf(tree: Tree, likely: Spellings): Measure {
  if (tree.kind === 'number') return { value: tree.value, dimension: PURE };
  if (tree.kind === 'name') return namedUnit(tree.name, tree, likely);
  if (tree.kind === 'operator') {
    const [left, right] = tree.args;
    if (left !== undefined && right !== undefined && tree.op !== 'pow') {
      const sign = tree.op === 'multiply' ? 1 : tree.op === 'divide' ? -1 : 0;
      if (sign !== 0) return times(sizeOf(left, likely), sizeOf(right, likely), sign);
    }
    const exponent = right === undefined ? undefined : exponentOf(right);
    if (tree.op === 'pow' && left !== undefined && exponent !== undefined) {
      return times({ value: 1, dimension: PURE }, sizeOf(left, likely), exponent);
    }
  }
  throw new UnitError('this is no unit', tree.offset, tree.length);
}

function times(a: Measure, b: Measure, power: number): Measure {
  return { value: a.value * b.value ** power, dimension: combine(a.dimension, 1, b.dimension, power) };
}

function exponentOf(tree: Tree): number | undefined {
  if (tree.kind === 'number') return tree.value;
  const [only] = tree.kind === 'operator' && tree.op === 'unaryMinus' ? tree.args : [];
  return only?.kind === 'number' ? -only.value : undefined;
}

/** The unit with this name; throws UnitError with the nearest name. */
function namedUnit(name: string, at: { readonly offset: number; readonly length: number }, likely: Spellings): Measure {
  const unit = knownUnit(name);
  if (unit !== undefined) return unit;
  const instead = insteadOf(name);
  if (instead !== undefined) {
    throw new UnitError(`"${name}" is another unit in another country`, at.offset, at.length, '', instead);
  }
  throw new UnitError(`unknown unit "${name}"`, at.offset, at.length, '', nearest(name, likely()));
}
