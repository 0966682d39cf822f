/**
 * The units by their names: those of mathjs, and those of the trade that mathjs does not know or takes for something
 * else (`PS` is a petasiemens to it). Ours are defined here and not with `createUnit`, which would print every speed
 * in the unit made last.
 */
import { combine, type Dimension, PURE } from './dimension.ts';
import { math } from './math.ts';

/** A size in SI units. */
export interface Measure {
  readonly value: number;
  readonly dimension: Dimension;
}

/**
 * Units of our own: a number of units of mathjs, over another where the second is set. NIST SP 811 (2008), Appendix
 * B.8, for the foot pound-force, horsepower (550 ft lbf/s), metric horsepower (75 m kgf/s) and psi.
 */
const OWN: { readonly [name: string]: readonly [factor: number, product: string, divisor?: string] } = {
  mph: [1, 'mile', 'hour'],
  kph: [1, 'km', 'hour'],
  kmh: [1, 'km', 'hour'],
  kmph: [1, 'km', 'hour'],
  rpm: [2 * Math.PI, 'rad', 'minute'],
  rev: [2 * Math.PI, 'rad'],
  turn: [2 * Math.PI, 'rad'],
  Nm: [1, 'N m'],
  kNm: [1000, 'N m'],
  mNm: [1e-3, 'N m'],
  lbft: [1, 'lbf ft'],
  ftlbf: [1, 'lbf ft'],
  hp: [550, 'lbf ft', 's'],
  bhp: [550, 'lbf ft', 's'],
  PS: [75, 'kgf m', 's'],
  metrichp: [75, 'kgf m', 's'],
  psi: [1, 'lbf', 'inch inch'],
  gn: [9.80665, 'm', 's s'],
  g0: [9.80665, 'm', 's s'],
  percent: [0.01, ''],
};

/**
 * Scales with a zero of their own: the degree in kelvin, and the reading at which it is 0 K. NIST SP 811 (2008), B.8:
 * T/K = t/degC + 273.15 = (t/degF + 459.67) / 1.8.
 */
const SCALES: { readonly [name: string]: { readonly degree: number; readonly zero: number } } = {
  degC: { degree: 1, zero: 273.15 },
  celsius: { degree: 1, zero: 273.15 },
  degF: { degree: 1 / 1.8, zero: 459.67 },
  fahrenheit: { degree: 1 / 1.8, zero: 459.67 },
};

/** Names that mean different things to different people, and what to write instead. */
const AMBIGUOUS: { readonly [name: string]: string } = { ton: 'tonne', tons: 'tonne' };

/** Null: looked for and not there. */
const found = new Map<string, Measure | null>();

/** One of the named unit in SI; undefined when there is no such unit, or more than one. */
export function knownUnit(name: string): Measure | undefined {
  let measure = found.get(name);
  if (measure === undefined) {
    const own = Object.hasOwn(OWN, name);
    measure = insteadOf(name) !== undefined ? null : ((own ? ownUnit(name) : mathUnit(name)) ?? null);
    found.set(name, measure);
  }
  return measure ?? undefined;
}

/** What is added to a reading on the named temperature scale before it is multiplied; undefined for any other unit. */
export function zeroOf(name: string): number | undefined {
  return Object.hasOwn(SCALES, name) ? SCALES[name]?.zero : undefined;
}

/** What to write in place of a name that means more than one unit; undefined for any other name. */
export function insteadOf(name: string): string | undefined {
  return Object.hasOwn(AMBIGUOUS, name) ? AMBIGUOUS[name] : undefined;
}

function ownUnit(name: string): Measure | undefined {
  const [factor, over, under = ''] = OWN[name] ?? [1, ''];
  const [a, b] = [product(over), product(under)];
  return { value: (factor * a.value) / b.value, dimension: combine(a.dimension, 1, b.dimension, -1) };
}

function product(names: string): Measure {
  let value = 1;
  let dimension = PURE;
  for (const name of names.split(' ').filter(Boolean)) {
    const unit = mathUnit(name);
    if (unit === undefined) throw new Error(`"${name}" is no unit of mathjs`);
    value *= unit.value;
    dimension = combine(dimension, 1, unit.dimension, 1);
  }
  return { value, dimension };
}

function mathUnit(name: string): Measure | undefined {
  const { Unit } = math();
  if (!/^[A-Za-z][A-Za-z0-9]*$/.test(name) || !Unit.isValuelessUnit(name)) return undefined;
  const { value, dimensions, units } = Unit.parse(`1 ${name}`);
  if (Object.hasOwn(SCALES, name)) return { value: SCALES[name]?.degree ?? 1, dimension: dimensions };
  return units[0]?.unit.offset === 0 ? { value, dimension: dimensions } : undefined;
}
