/**
 * Bounds beyond which a figure of a run is no answer: a number that no car can have comes of a calculation that has lost its
 * footing, and to hand it on would be worse than to say so. They are wide on purpose. Most follow from the largest car that
 * the field tables let anybody write; where another reason holds, it stands beside the bound.
 */
import type { Output } from './result.ts';

/** Least and greatest value in SI units, and the greatest one in the words of a sentence. */
interface Bounds {
  readonly least: number;
  readonly most: number;
  readonly words: string;
}

/** Round-off may carry a share, a time or an energy past its end by this much, in SI units. */
const ROUND_OFF = 1e-6;

const bounds = (least: number, most: number, words: string): Bounds => ({ least, most, words });
const either = (most: number, words: string): Bounds => bounds(-most, most, words);

/** By SI unit; a size that has a sign is told in `SIGNED`. */
const BY_UNIT: { readonly [unit: string]: Bounds } = {
  // Thirty years: the largest pack on the weakest supply.
  s: bounds(0, 1e9, 'thirty years'),
  // The greatest speed that a run may be asked for.
  'm/s': bounds(0, 150, '540 km/h'),
  // Ten times standard gravity: three times what the stickiest tyre of the field tables gives.
  'm/s^2': either(98.1, 'ten times gravity'),
  m: bounds(0, 1e9, 'a million kilometres'),
  kg: bounds(0, 1e6, 'a thousand tonnes'),
  // 500 cells of 6 V in series, 1,000 of 1,000 Ah in parallel: 3 GWh.
  J: bounds(0, 2e13, '5 GWh'),
  // The heaviest car on the steepest road takes 0.2 MJ/m, 20 kW of consumers at walking pace a tenth of that.
  'J/m': either(1e6, '280 kWh/km'),
  // Two units of 3 MW each, and what slowing down brings back.
  W: bounds(0, 1e8, '100 MW'),
  // 1,000 cells in parallel with 10,000 A each.
  A: bounds(0, 1.1e7, '11 MA'),
  // 500 cells in series with 6 V each.
  V: bounds(0, 3300, '3,300 V'),
  // Below the coldest air on earth (184 K, Vostok, 1983; from memory); iron melts at 1,811 K.
  K: bounds(150, 2000, '1,700 °C'),
  // 20,000 N m through a first gear of 20 and a ratio of 100.
  'N m': bounds(0, 1e8, '100 MN m'),
  // Units are described up to 40,000 rpm; twice that bursts any rotor (common practice, no source).
  'rad/s': bounds(0, 8400, '80,000 rpm'),
  // Counts, money, litres for 100 km.
  '1': either(1e9, 'a thousand million'),
};

const SHARE = bounds(0, 1, '100 %');

/** By key of a summary, where the unit alone says too much or too little. */
const BY_KEY: { readonly [key: string]: Bounds } = {
  from: SHARE,
  to: SHARE,
  charge_start: SHARE,
  charge_end: SHARE,
  thirty_minute_charge: SHARE,
  efficiency: SHARE,
  braking_recovered: SHARE,
  grip_withheld: SHARE,
  first_share: SHARE,
  steady_share: SHARE,
  front_share: SHARE,
  before_front_share: SHARE,
  kerb_front_share: SHARE,
  full_front_share: SHARE,
  front_share_change: either(1, '100 %'),
  // Kilometres a charger gives in an hour: no speed of a car.
  range_per_hour: bounds(0, 1e9, 'a million kilometres in a second'),
};

/** Below zero where it means something: less than before, too much by, downhill. */
const SIGNED = new Set([
  'control_worth',
  'gain_per_friction',
  'consumption_wall',
  'energy',
  'power',
  'cg_x',
  'before_cg_x',
  'kerb_cg_x',
  'full_cg_x',
  'mass_change',
  'payload',
  'train_margin',
  'hitch_margin',
  'gross_margin',
  'front_margin',
  'rear_margin',
  'front_tyre_margin',
  'rear_tyre_margin',
  'move_by',
  'move_to',
]);

/** Runs of one car; the figures of studies are differences and quotients of theirs as well, and keep their signs. */
const RUNS = new Set(['launch', 'repeat', 'sheet', 'drive', 'range', 'steady', 'standard', 'charge', 'coast', 'weigh']);

/** Why a figure can not be what a car does, in words that follow its name; null where it can. */
export function whyImplausible(
  kind: string,
  key: string,
  { unit }: Pick<Output, 'unit'>,
  value: number,
): string | null {
  if (Number.isNaN(value)) return 'the run gives no number here';
  const found = RUNS.has(kind) ? (BY_KEY[key] ?? BY_UNIT[unit]) : BY_UNIT[unit];
  if (found === undefined) return Number.isFinite(value) ? null : 'the run gives no finite number here';
  const least = RUNS.has(kind) && !SIGNED.has(key) ? found.least : -found.most;
  if (value > found.most + ROUND_OFF) {
    return `what comes out is above ${found.words}, which no car can have: the run has no answer here`;
  }
  if (value >= least - ROUND_OFF) return null;
  return least < 0
    ? `what comes out is below -${found.words}, which no car can have: the run has no answer here`
    : 'what comes out is less than there can be: the run has no answer here';
}

/** Whether a value of a column can be one; a column keeps signs, as forces and currents have them. */
export function isPlausible(unit: string, value: number): boolean {
  const most = BY_UNIT[unit]?.most;
  return most === undefined ? Number.isFinite(value) : Math.abs(value) <= most;
}
