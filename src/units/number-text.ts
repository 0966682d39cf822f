/** Numbers and units as people read them, whatever the language of the machine: a point, no gaps. Knows no unit's size. */
import type { Spread } from '../model/fields/input.ts';

export interface FormatOptions {
  /** Significant digits of a number without spread; default 4. Digits before the point are never cut. */
  readonly digits?: number;
  /** In SI, like the value. */
  readonly spread?: Spread | undefined;
}

/** From SI to the unit of display: a value, and a difference or a spread. */
export interface Conversion {
  value(si: number): number;
  difference(si: number): number;
}

/** See `formatQuantity`. */
export function quantityText(si: number, display: string, to: Conversion, options: FormatOptions): string {
  const { digits = 4, spread } = options;
  const label = unitLabel(display);
  const after = label === '' ? '' : ` ${label}`;
  const shown = to.value(si);
  if (spread === undefined) return formatNumber(shown, digits) + after;
  if (spread.kind === 'rectangular') {
    const [low, high] = [spread.low, spread.high].map(end => formatNumber(to.value(end), digits));
    return `${low}${after} .. ${high}${after}`;
  }
  const [middle, u] = alike(shown, to.difference(spread.standard));
  return `${middle}${after} ± ${u}${after}`;
}

/** `digits` significant digits, trailing zeros dropped: 4.8123 is `4.812`, 12345.6 is `12346`, 1e-7 is `1e-7`. */
export function formatNumber(value: number, digits = 4): string {
  if (!Number.isFinite(value)) throw new RangeError(`${value} cannot be shown as a number`);
  const size = magnitude(value, digits);
  if (size < -4 || size >= 15) return dropZeros(value.toExponential(digits - 1)).replace('e+', 'e');
  return dropZeros(value.toFixed(Math.max(0, digits - 1 - size)));
}

/** The unit as people write it, which `readQuantity` reads as well: `m²`, `°C`, `mΩ`; '' for a pure number. */
export function unitLabel(unit: string): string {
  if (unit === '1') return '';
  return unit
    .replace(/\bdeg([CF])\b/gu, '°$1')
    .replace(/\bpercent\b/gu, '%')
    .replace(/\b(u|m|k|M)?ohm\b/gu, (_, prefix: string = '') => `${prefix === 'u' ? 'µ' : prefix}Ω`)
    .replace(/\bNm\b/gu, 'N m')
    .replace(/\blbft\b/gu, 'lbf ft')
    .replace(/\^2(?!\d)/gu, '²')
    .replace(/\^3(?!\d)/gu, '³');
}

/** Power of ten of the first digit once rounded: 9.9999 to four digits is 10.00. */
function magnitude(value: number, digits: number): number {
  if (value === 0) return 0;
  return Number(value.toExponential(digits - 1).split('e')[1]);
}

function dropZeros(text: string): string {
  const [mantissa = '', power] = text.split('e');
  const short = mantissa.includes('.') ? mantissa.replace(/\.?0+$/u, '') : mantissa;
  return plainZero(power === undefined ? short : `${short}e${power}`);
}

/** Both to the place of the second digit of `u`. */
function alike(value: number, u: number): readonly [string, string] {
  const place = magnitude(u, 2) - 1;
  if (u === 0 || place < -12 || place > 15) return [formatNumber(value), formatNumber(u, 2)];
  const unit = 10 ** Math.max(0, place);
  const decimals = Math.max(0, -place);
  const texts = [value, u].map(x => (Math.round(x / unit) * unit).toFixed(0));
  const [a = '', b = ''] = decimals === 0 ? texts : [value.toFixed(decimals), u.toFixed(decimals)];
  let zeros = 0;
  while (zeros < decimals && a.at(-1 - zeros) === '0' && b.at(-1 - zeros) === '0') zeros++;
  const cut = zeros === decimals && decimals > 0 ? zeros + 1 : zeros;
  return [a, b].map(text => (cut === 0 ? text : text.slice(0, -cut))).map(plainZero) as [string, string];
}

function plainZero(text: string): string {
  return Number(text) === 0 ? '0' : text;
}
