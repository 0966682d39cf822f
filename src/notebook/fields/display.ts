/** The unit in which people read a value that names none itself. */
import { formatQuantity, toDisplay, type System } from '../../units.ts';
import type { FormulaValue } from '../formula/formula.ts';

const DISPLAY: { readonly [unit: string]: readonly [metric: string, imperial: string] } = {
  m: ['m', 'ft'],
  'm^2': ['m^2', 'ft^2'],
  'm/s': ['km/h', 'mph'],
  'm/s^2': ['m/s^2', 'ft/s^2'],
  kg: ['kg', 'lb'],
  N: ['N', 'lbf'],
  'N m': ['N m', 'lbf ft'],
  Pa: ['bar', 'psi'],
  J: ['kWh', 'kWh'],
  'J/m': ['Wh/km', 'Wh/mi'],
  W: ['kW', 'hp'],
  K: ['degC', 'degF'],
  'rad/s': ['rpm', 'rpm'],
  C: ['Ah', 'Ah'],
};

/** Digits that a result in prose deserves: a car is not known better. */
const DIGITS = 3;

/** Unit for people; the SI unit itself where the trade has no other, and for a difference of temperatures. */
export function displayUnit({ unit, onScale }: Pick<FormulaValue, 'unit' | 'onScale'>, system: System): string {
  if (unit === 'K' && onScale !== true) return unit;
  const pair = Object.hasOwn(DISPLAY, unit) ? DISPLAY[unit] : undefined;
  return pair?.[system === 'metric' ? 0 : 1] ?? unit;
}

/** A value as people read it: `8.31 s`, `−3.9 °C`, `yes`, a word as it is. */
export function formatValue(value: FormulaValue, system: System, digits = DIGITS): string {
  if (typeof value.value === 'boolean') return value.value ? 'yes' : 'no';
  if (typeof value.value === 'string') return value.value;
  const asked = value.display ?? displayUnit(value, system);
  const display = Number.isFinite(toDisplay(value.value, value.unit, asked)) ? asked : value.unit;
  return formatQuantity(value.value, value.unit, display, { digits }).replace(/^-/u, '−');
}
