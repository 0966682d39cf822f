/** Numbers as people read them: in the unit of display, rounded to what a reader can use. */
import type { System } from '../units.ts';
import { toDisplay } from './convert.ts';
import { unitLabel } from './number-text.ts';

/** Anything that says in which unit it is kept and in which it is read: an output, a column. */
export interface Described {
  readonly unit: string;
  readonly display: { readonly metric: string; readonly imperial: string };
}

/** A unit conversion fixed once: `value * factor + offset` is the number in `unit`. */
export interface Scale {
  /** Display unit as `units.ts` writes it. */
  readonly unit: string;
  readonly factor: number;
  readonly offset: number;
}

/** The scale from the SI unit of `what` to the unit in which `system` shows it. All conversions in use are linear. */
export function scaleOf(what: Described, system: System): Scale {
  const unit = what.display[system];
  if (what.unit === '' || unit === what.unit) return { unit, factor: 1, offset: 0 };
  const offset = toDisplay(0, what.unit, unit);
  return { unit, factor: toDisplay(1, what.unit, unit) - offset, offset };
}

/** The unit as people write it, on one line: `m/s²`, `°C`; nothing for a pure number. */
export function unitText(unit: string): string {
  return unit === '1' ? '' : unitLabel(unit).replaceAll(' ', '\u00a0');
}

/** Decimals shown for a result of this size in this unit: times to hundredths, all else to three figures or so. */
export function decimalsFor(value: number, unit: string): number {
  const size = Math.abs(value);
  if (unit === 's') return size < 100 ? 2 : 1;
  if (unit === '%') return size < 10 && size > 0 ? 1 : 0;
  if (size >= 100 || size === 0) return 0;
  if (size >= 10) return 1;
  if (size >= 1) return 2;
  return Math.min(8, 2 - Math.floor(Math.log10(size)));
}

/** `1234.5` as `1 234.5`, groups parted by narrow spaces from five digits on; a true minus sign. */
export function digits(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  const [whole = '', fraction] = text.split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, '\u202f') : whole;
  const sign = value < 0 && Number(text) !== 0 ? '−' : '';
  return sign + grouped + (fraction === undefined ? '' : `.${fraction}`);
}

/** A number with its unit, already in the unit of display: `8.43 s`, `34 %`, `0.95`. */
export function written(value: number, unit: string, decimals: number = decimalsFor(value, unit)): string {
  const text = unitText(unit);
  return digits(value, decimals) + (text === '' ? '' : `\u00a0${text}`);
}

/** A temperature in K inside a sentence: `−2.2 °C`, never `-0`; trailing zeros are left out. */
export function celsius(kelvin: number, decimals = 1): string {
  return `${Number((kelvin - 273.15).toFixed(decimals)) || 0} °C`.replace('-', '−');
}

/** A result in SI units as people read it: `27.8` m/s as `100 km/h`. */
export function figure(value: number, what: Described, system: System, decimals?: number): string {
  const { unit, factor, offset } = scaleOf(what, system);
  const shown = value * factor + offset;
  return written(shown, unit, decimals ?? decimalsFor(shown, unit));
}

/** `62 ± 4 %`, with twice the standard error of the share; `under 5 %` for one that its error does not tell from nothing. */
export function shareText(share: number, error: number): string {
  const [percent, reach] = [100 * share, 200 * error];
  if (!(reach > 0)) return `${Math.max(0, Math.round(percent))} %`;
  const most = Math.max(1, Math.ceil(Math.max(0, percent) + reach));
  return percent <= reach ? `under ${most} %` : `${Math.round(percent)} ± ${Math.max(1, Math.round(reach))} %`;
}

/** `Speed, km/h`. */
export function columnHeading(label: string, unit: string): string {
  const text = unitText(unit);
  return text === '' ? label : `${label}, ${text}`;
}

/** The first letter as a capital. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
