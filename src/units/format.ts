/** SI numbers as people read them, in any unit that can be written. */
import { toDisplay, toDisplayDifference } from './convert.ts';
import { type FormatOptions, quantityText } from './number-text.ts';

/**
 * `1010 kg ± 15 kg`, `0.8 m .. 1 m`, `20 °C`: the SI value in the unit `display`, as `readQuantity` reads it. A standard
 * uncertainty is given to two digits and the value to the same place (JCGM 100:2008, 7.2.6); zeros that both end in are
 * dropped. Throws RangeError for a value that is not finite, UnitError for a display unit of another kind.
 */
export function formatQuantity(value: number, unit: string, display: string, options: FormatOptions = {}): string {
  const conversion = {
    value: (si: number) => toDisplay(si, unit, display),
    difference: (si: number) => toDisplayDifference(si, unit, display),
  };
  return quantityText(value, display, conversion, options);
}
