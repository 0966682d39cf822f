/** Numbers between SI and the units that people read. */
import { angleOf, equalDimension } from './dimension.ts';
import { UnitError } from './error.ts';
import { dimensionName } from './trade.ts';
import { type Unit, unitOf } from './unit.ts';

/** A value in `unit` as a number of `display`. Throws UnitError when the two do not measure the same. */
export function toDisplay(value: number, unit: string, display: string): number {
  const [from, to] = pair(unit, display);
  return toSI(value, from) / to.factor - to.zero;
}

/** A number of `display` as a value in `unit`; the inverse of `toDisplay`. */
export function fromDisplay(value: number, display: string, unit: string): number {
  return toDisplay(value, display, unit);
}

/** A difference, or a spread: like `toDisplay`, without the zeros of the temperature scales. */
export function toDisplayDifference(value: number, unit: string, display: string): number {
  const [from, to] = pair(unit, display);
  return (value * from.factor) / to.factor;
}

function toSI(value: number, unit: Unit): number {
  return (value + unit.zero) * unit.factor;
}

/** True when the two units measure the same, an angle counting as a pure number. */
export function sameDimension(a: string, b: string): boolean {
  return equalDimension(unitOf(a).dimension, unitOf(b).dimension);
}

function pair(unit: string, display: string): readonly [Unit, Unit] {
  const [from, to] = [unitOf(unit), unitOf(display)];
  if (equalDimension(from.dimension, to.dimension)) return [from, to];
  const message = `"${display}" cannot show a ${dimensionName(unit)}`;
  throw new UnitError(message, 0, display.length, `a unit of ${dimensionName(unit)}`);
}

/**
 * What a value in `found` is multiplied by to be in the SI unit `wanted`, or undefined when it does not measure that. An
 * angle must be said where it decides the number: `3 deg` is not a slope of 0.05, and `50 Hz` may count turns or
 * radians. `1/min` always counts turns, as on every data sheet.
 */
export function factorTo(found: Unit, wanted: Unit): number | undefined {
  if (!equalDimension(found.dimension, wanted.dimension)) return undefined;
  const [angle, wantedAngle] = [angleOf(found.dimension), angleOf(wanted.dimension)];
  if (angle === wantedAngle || !countsTurns(wanted)) return found.factor / wanted.factor;
  const perMinute = angle === 0 && wantedAngle === 1 && Math.abs(found.factor * 60 - 1) < 1e-12;
  return perMinute ? (found.factor * 2 * Math.PI) / wanted.factor : undefined;
}

function countsTurns(unit: Unit): boolean {
  const pure = equalDimension(unit.dimension, unitOf('1').dimension);
  return pure || equalDimension(unit.dimension, unitOf('rad/s').dimension);
}
