/**
 * Sizes of the units in which fields and results are shown, without the parser of units and the library beneath it: all that a car, a run
 * and the scales need to speak.
 */
import { type FormatOptions, quantityText } from './number-text.ts';
import { USUAL_SIZES } from './usual-sizes.ts';

function sizeOf(unit: string): readonly [factor: number, zero: number] {
  const size = Object.hasOwn(USUAL_SIZES, unit) ? USUAL_SIZES[unit] : undefined;
  if (size === undefined) throw new RangeError(`"${unit}" is no unit of a field`);
  return size;
}

/** `toDisplay` for units of the field tables. @throws RangeError for any other unit. */
export function toUsual(value: number, unit: string, display: string): number {
  const [[factor, zero], [to, below]] = [sizeOf(unit), sizeOf(display)];
  return ((value + zero) * factor) / to - below;
}

/** `formatQuantity` for units of the field tables. @throws RangeError for any other unit. */
export function usualQuantity(value: number, unit: string, display: string, options: FormatOptions = {}): string {
  const conversion = {
    value: (si: number) => toUsual(si, unit, display),
    difference: (si: number) => (si * sizeOf(unit)[0]) / sizeOf(display)[0],
  };
  return quantityText(value, display, conversion, options);
}
