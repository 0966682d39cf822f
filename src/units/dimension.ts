/**
 * Dimensions: exponents of the base quantities in the order that mathjs gives them, and the names people have for them.
 * Angle is kept as an exponent, so that `rpm` can be told from `1/s`, but it never counts in a comparison: a radian is
 * the number 1 (SI Brochure, 9th ed., 2.3.4), and torque times angular speed is a power.
 */

/** Exponents of mass, length, time, current, temperature, luminous intensity, substance, angle, bits. */
export type Dimension = readonly number[];

export const PURE: Dimension = [0, 0, 0, 0, 0, 0, 0, 0, 0];
const ANGLE = 7;
const SYMBOLS = ['kg', 'm', 's', 'A', 'K', 'cd', 'mol', 'rad', 'bit'];

/** a^p b^q. */
export function combine(a: Dimension, p: number, b: Dimension = PURE, q = 0): Dimension {
  return a.map((exponent, i) => exponent * p + (b[i] ?? 0) * q);
}

export function angleOf(a: Dimension): number {
  return a[ANGLE] ?? 0;
}

export function equalDimension(a: Dimension, b: Dimension): boolean {
  return a.every((exponent, i) => i === ANGLE || Math.abs(exponent - (b[i] ?? 0)) < 1e-9);
}

/** SI unit of a dimension in base units: `kg m^2/(s^3 A)`, as `unit.ts` reads it. The angle is left out. */
export function baseUnit(a: Dimension): string {
  const factors = (sign: number): string[] =>
    a.flatMap((exponent, i) => {
      const size = Math.round(exponent * sign * 1e9) / 1e9;
      return i === ANGLE || size <= 0 ? [] : [`${SYMBOLS[i]}${size === 1 ? '' : `^${size}`}`];
    });
  const over = factors(1).join(' ') || '1';
  const under = factors(-1);
  if (under.length === 0) return over;
  return `${over}/${under.length === 1 ? under[0] : `(${under.join(' ')})`}`;
}
