/** A number with a unit that a cell takes as text, because its unit is only known when other cells have run. */
import { SpecError } from '../../model/fields/spec-error.ts';
import { readQuantity, UnitError } from '../../units.ts';

/** In SI. @param path of the text in the cell. @throws SpecError for what is no quantity of this unit, and for one with a spread. */
export function plainQuantity(path: string, text: string, unit: string): number {
  try {
    const { value, spread } = readQuantity(text, unit);
    if (spread !== undefined) throw new SpecError(path, `"${text}" has a spread`, 'a plain value');
    return value;
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
    const { message, expected, nearest } = error;
    throw new SpecError(path, message.includes(text) ? message : `${message} in "${text}"`, expected, nearest);
  }
}

/** A difference, in the SI unit: of temperatures, the degrees without the zero of their scale. @throws SpecError */
export function plainDifference(path: string, text: string, unit: string): number {
  const nothing = text.replace(/[\d.]+(?:e[-+]?\d+)?/iu, '0');
  return plainQuantity(path, text, unit) - plainQuantity(path, nothing, unit);
}
