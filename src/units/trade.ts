/** What people call a quantity, an example of it, and the units it is written in: for messages and nearest spellings. */
import { angleOf, type Dimension, equalDimension } from './dimension.ts';
import { unitOf } from './unit.ts';

interface Trade {
  /** With the article it takes. */
  readonly noun: string;
  readonly example: string;
  readonly spellings: readonly string[];
}

/**
 * By SI unit. Where two quantities have one dimension (torque and energy; force and energy per distance), the spelling
 * of the unit decides, and the first of them stands for a computed value.
 */
const TRADE: { readonly [unit: string]: Trade } = {
  '1': { noun: 'a pure number', example: '0.85', spellings: ['%', 'percent'] },
  rad: { noun: 'an angle', example: '30 deg', spellings: ['rad', 'deg', '°'] },
  kg: { noun: 'a mass', example: '1010 kg', spellings: ['kg', 'g', 'lb', 'tonne', 't'] },
  m: { noun: 'a length', example: '2.4 m', spellings: ['m', 'mm', 'cm', 'km', 'mile', 'mi', 'ft', 'in', 'inch'] },
  s: { noun: 'a time', example: '8 s', spellings: ['s', 'ms', 'min', 'minute', 'h', 'hour'] },
  A: { noun: 'a current', example: '300 A', spellings: ['A', 'mA', 'kA'] },
  K: { noun: 'a temperature', example: '20 degC', spellings: ['°C', '°F', 'K', 'degC', 'degF'] },
  'm^2': { noun: 'an area', example: '0.65 m^2', spellings: ['m^2', 'cm^2', 'mm^2', 'ft^2'] },
  'm^3': { noun: 'a volume', example: '40 l', spellings: ['m^3', 'l'] },
  'm/s': { noun: 'a speed', example: '100 km/h', spellings: ['km/h', 'mph', 'm/s', 'kph', 'ft/s'] },
  'm/s^2': { noun: 'an acceleration', example: '3 m/s^2', spellings: ['m/s^2', 'g0', 'ft/s^2'] },
  'rad/s': { noun: 'a rotational speed', example: '9000 rpm', spellings: ['rpm', 'rad/s', 'rev/min'] },
  '1/s': { noun: 'a rate', example: '5 1/s', spellings: ['1/s', 'Hz'] },
  N: { noun: 'a force', example: '500 N', spellings: ['N', 'kN', 'lbf', 'kgf'] },
  'J/m': { noun: 'an energy per distance', example: '150 Wh/km', spellings: ['Wh/km', 'Wh/mi', 'kWh/100 km'] },
  J: { noun: 'an energy', example: '20 kWh', spellings: ['kWh', 'Wh', 'J', 'kJ', 'MJ'] },
  'N m': { noun: 'a torque', example: '250 N m', spellings: ['Nm', 'N m', 'lbf ft', 'lbft', 'kNm'] },
  W: { noun: 'a power', example: '80 kW', spellings: ['kW', 'W', 'hp', 'PS', 'bhp', 'metrichp'] },
  Pa: { noun: 'a pressure', example: '2.4 bar', spellings: ['bar', 'kPa', 'psi', 'Pa', 'hPa'] },
  V: { noun: 'a voltage', example: '350 V', spellings: ['V', 'mV', 'kV'] },
  ohm: { noun: 'a resistance', example: '2 mohm', spellings: ['ohm', 'mohm', 'Ω', 'mΩ', 'uohm'] },
  C: { noun: 'a charge', example: '60 Ah', spellings: ['Ah', 'mAh', 'C'] },
  F: { noun: 'a capacitance', example: '600 uF', spellings: ['F', 'mF', 'uF', 'µF'] },
  'A^2 s': { noun: 'the heat of a pulse', example: '20000 A^2 s', spellings: ['A^2 s'] },
  'kg m^2': { noun: 'a moment of inertia', example: '0.9 kg m^2', spellings: ['kg m^2', 'kg m²'] },
  'kg/m^3': { noun: 'a density', example: '1.2 kg/m^3', spellings: ['kg/m^3'] },
  'J/K': { noun: 'a heat capacity', example: '20 kJ/K', spellings: ['J/K', 'kJ/K'] },
  'W/K': { noun: 'a heat conductance', example: '8 W/K', spellings: ['W/K'] },
  'J/(kg K)': { noun: 'a specific heat', example: '900 J/(kg K)', spellings: ['J/(kg K)'] },
  '1/J': { noun: 'a price of energy', example: '0.32 1/kWh', spellings: ['1/kWh'] },
  'J/kg': { noun: 'an energy per mass', example: '160 Wh/kg', spellings: ['Wh/kg'] },
};

/** Every spelling of the table, those of `unit` first. */
export function spellings(unit = '1'): readonly string[] {
  return [...tradeOf(unit).spellings, ...Object.values(TRADE).flatMap(trade => trade.spellings)];
}

/** The SI unit that a computed value of this dimension is given in; undefined when the table has none. */
export function tradeUnit(dimension: Dimension): string | undefined {
  const same = Object.keys(TRADE).filter(unit => equalDimension(unitOf(unit).dimension, dimension));
  return same.find(unit => angleOf(unitOf(unit).dimension) === angleOf(dimension)) ?? same[0];
}

/** The table's entry for a unit: by its spelling, else by its dimension. */
export function tradeOf(unit: string): Trade {
  const named = Object.hasOwn(TRADE, unit) ? TRADE[unit] : undefined;
  const other = named === undefined ? TRADE[tradeUnit(unitOf(unit).dimension) ?? ''] : named;
  return other ?? { noun: `a quantity in ${unit}`, example: `1 ${unit}`, spellings: [unit] };
}

/** `mass`, `speed`, `torque`; `quantity in s/m` where there is no word. */
export function dimensionName(unit: string): string {
  return tradeOf(unit).noun.replace(/^an? /, '');
}

/** `a mass such as "1010 kg"`. */
export function describeUnit(unit: string): string {
  const { noun, example } = tradeOf(unit);
  return `${noun} such as "${example}"`;
}
