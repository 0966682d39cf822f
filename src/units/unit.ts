/** A unit as text (`kg`, `Wh/km`, `W/(N m)^2`, `°C`) to its size in SI. */
import { combine, type Dimension, equalDimension, PURE } from './dimension.ts';
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

/** Where in a unit something stands: `dividend` for all that is divided, `factor` for one side of a product in it. */
type Spot = 'whole' | 'dividend' | 'factor' | 'divisor';

/** Numbers that a unit may count its divisor in: `kWh/100 km`. */
const COUNTS = new Set([100, 1000]);

/**
 * Products, quotients and powers of named units, and nothing else: a number in a unit would be multiplied into the quantity,
 * and `1240 .5 kg` would be half of it. The 1 of `1/min` and the 100 of `kWh/100 km` are parts of units.
 */
function sizeOf(tree: Tree, likely: Spellings, spot: Spot = 'whole'): Measure {
  if (tree.kind === 'number' && tree.value === 1 && spot !== 'factor' && spot !== 'divisor') return ONE;
  if (tree.kind === 'number')
    throw new UnitError('a second number', tree.offset, tree.length, 'one number and its unit');
  if (tree.kind === 'name') return namedFactor(tree.name, tree, likely, spot);
  const [left, right] = tree.kind === 'operator' ? tree.args : [];
  if (tree.kind !== 'operator' || left === undefined || right === undefined) throw noUnit(tree);
  if (tree.op === 'divide') return times(sizeOf(left, likely, dividend(spot)), sizeOf(right, likely, 'divisor'), -1);
  if (tree.op === 'multiply') {
    const counts = spot === 'divisor' && tree.implicit && left.kind === 'number' && COUNTS.has(left.value);
    const inner = spot === 'divisor' ? 'divisor' : 'factor';
    const a = counts ? { value: left.value, dimension: PURE } : sizeOf(left, likely, inner);
    return times(a, sizeOf(right, likely, inner), 1);
  }
  const exponent = exponentOf(right);
  if (tree.op !== 'pow' || exponent === undefined) throw noUnit(tree);
  return times(ONE, sizeOf(left, likely, spot === 'divisor' ? 'divisor' : 'factor'), exponent);
}

const ONE: Measure = { value: 1, dimension: PURE };

function dividend(spot: Spot): Spot {
  return spot === 'whole' ? 'dividend' : spot;
}

function noUnit({ offset, length }: Tree): UnitError {
  return new UnitError('this is no unit', offset, length);
}

/** A percent or an angle beside another unit would change the number without changing what it measures: `5 % kg`. */
function namedFactor(name: string, at: Tree, likely: Spellings, spot: Spot): Measure {
  const unit = namedUnit(name, at, likely);
  if (spot !== 'factor' || unit.value === 1 || !equalDimension(unit.dimension, PURE)) return unit;
  const { offset, length } = at;
  throw new UnitError(`"${name}" cannot stand beside another unit`, offset, length, 'one unit');
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
