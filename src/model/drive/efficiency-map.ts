/**
 * Losses of a drive unit from a measured table over speed and torque: from the points that were measured to a table
 * without gaps, and from that to a smooth surface. Between its points the loss in W is interpolated, not the efficiency,
 * which has no value at standstill and at zero torque.
 */
import { evaluateGrid, surfaceThrough } from '../tables/grid.ts';
import type { Grid } from '../tables/grid.ts';
import { nth } from '../../columns.ts';

/** What was measured: SI, axes ascending. Plain data, which a job of a study carries. */
export interface LossTable {
  /** V of each layer; empty for a single layer at no stated voltage. */
  readonly voltage: readonly number[];
  /** rad/s, not negative, two or more. */
  readonly speed: readonly number[];
  /** N m at the shaft, two or more above 0; negative ones drive the unit as a generator. */
  readonly torque: readonly number[];
  /** W, layer by layer, speed by speed, torque by torque; null beyond the greatest torque of a speed. */
  readonly loss: readonly (number | null)[];
}

/** Whether the losses of the inverter are among those of the table. */
export type LossScope = 'motor' | 'motor and inverter';

/** A table without gaps from standstill and zero torque on. Plain data, part of a car. */
export interface LossMap {
  readonly includes: LossScope;
  /** rad/s, from 0. */
  readonly speed: readonly number[];
  /** N m; from 0 where braking mirrors driving. */
  readonly torque: readonly number[];
  /** W, speed by speed: `loss[i * torque.length + j]`. */
  readonly loss: readonly number[];
  /** N m, the greatest torque at each speed for which a loss was stated. */
  readonly reach: readonly number[];
}

/**
 * Closes the gaps of a table, and says how.
 * @param voltage V that the unit runs at: layers are mixed in proportion, the nearest one holds outside them.
 * @throws RangeError when the table has no layer, fewer than two speeds or two torques above 0.
 */
export function lossMap(
  table: LossTable,
  includes: LossScope,
  voltage: number,
): { readonly map: LossMap; readonly notes: readonly string[] } {
  const notes: string[] = [];
  const { speed, torque } = table;
  const zero = torque.findIndex(T => T >= 0);
  if (speed.length < 2 || zero < 0 || torque.filter(T => T > 0).length < 2) {
    throw new RangeError('a loss table needs two speeds and two torques above 0');
  }
  const filled = heldBeyondEnvelope(table, zero, notes);
  const rows = layerAt(table, filled.loss, voltage, notes);
  const reach = [...filled.reach];
  const speeds = fromStandstill(speed, rows, reach, notes);
  const torques = throughZeroTorque(torque, zero, rows, notes);
  if ((torques[0] ?? 0) >= 0) notes.push('braking loses what driving loses at the same torque and speed');
  return { map: { includes, speed: speeds, torque: torques, loss: rows.flat(), reach }, notes };
}

/** Fills what lies beyond the greatest (and the most negative) torque of a speed with the loss of the nearest torque. */
function heldBeyondEnvelope(
  { voltage, speed, torque, loss }: LossTable,
  zero: number,
  notes: string[],
): { readonly loss: Float64Array; readonly reach: Float64Array } {
  const [ns, nt] = [speed.length, torque.length];
  const stated = Float64Array.from(loss, each => each ?? Number.NaN);
  const filled = stated.slice();
  const reach = new Float64Array(ns).fill(Infinity);
  let count = 0;
  for (let row = 0; row < Math.max(1, voltage.length) * ns; row++) {
    const at = row * nt;
    for (let j = zero + 1; j < nt; j++) count += holdAt(filled, at + j, at + j - 1);
    for (let j = zero - 1; j >= 0; j--) count += holdAt(filled, at + j, at + j + 1);
    let top = nt - 1;
    while (top > zero && Number.isNaN(stated[at + top])) top--;
    reach[row % ns] = Math.min(nth(reach, row % ns), nth(torque, top));
  }
  if (count > 0) {
    notes.push(
      `${count} points beyond the torque of the drive unit were filled with the loss of the nearest lower torque`,
    );
  }
  return { loss: filled, reach };
}

function holdAt(values: Float64Array, at: number, from: number): 0 | 1 {
  if (!Number.isNaN(values[at])) return 0;
  values[at] = nth(values, from);
  return 1;
}

/** One row of losses per speed, at the voltage that the unit runs at. */
function layerAt({ voltage, speed, torque }: LossTable, loss: Float64Array, V: number, notes: string[]): number[][] {
  const [first = Number.NaN, last = Number.NaN] = [voltage[0], voltage.at(-1)];
  let upper = voltage.findIndex(each => each >= V);
  if (upper < 0) upper = Math.max(0, voltage.length - 1);
  const lower = Math.max(0, upper - 1);
  const [low, high] = [voltage[lower] ?? V, voltage[upper] ?? V];
  const share = high > low ? Math.min(1, Math.max(0, (V - low) / (high - low))) : 0;
  if (voltage.length > 0) {
    const held = V < first ? first : V > last ? last : V;
    notes.push(
      `the losses are those at ${shown(held, 'V')}${held === V ? '' : `, the nearest to ${shown(V, 'V')} in the table`}`,
    );
  }
  const nt = torque.length;
  const layer = speed.length * nt;
  return speed.map((_, i) => {
    const a = loss.subarray(lower * layer + i * nt, lower * layer + (i + 1) * nt);
    if (share === 0) return Array.from(a);
    const b = loss.subarray(upper * layer + i * nt, upper * layer + (i + 1) * nt);
    return Array.from(a, (each, j) => each + share * (nth(b, j) - each));
  });
}

/** Puts a row for standstill before the others: in a straight line through the two lowest speeds. */
function fromStandstill(speed: readonly number[], rows: number[][], reach: number[], notes: string[]): number[] {
  const [w1 = 0, w2 = 0] = speed;
  const [first = [], second = []] = rows;
  if (w1 === 0) return [...speed];
  rows.unshift(first.map((loss, j) => within(loss - ((nth(second, j) - loss) * w1) / (w2 - w1), loss)));
  reach.unshift(nth(reach, 0));
  notes.push(`below ${rpm(w1)}, where the map begins, the loss goes on in a straight line down to standstill`);
  return [0, ...speed];
}

/** Puts zero torque into every row: a + b T^2, as copper loss goes, through the two lowest torques above 0. */
function throughZeroTorque(
  torque: readonly number[],
  zero: number,
  rows: readonly number[][],
  notes: string[],
): number[] {
  const [T1 = 0, T2 = 0] = [torque[zero], torque[zero + 1]];
  if (T1 === 0) return [...torque];
  let least = Infinity;
  let most = 0;
  for (const row of rows) {
    const [loss, next] = [nth(row, zero), nth(row, zero + 1)];
    const idle = within(loss - ((next - loss) * T1 * T1) / (T2 * T2 - T1 * T1), loss);
    row.splice(zero, 0, idle);
    least = Math.min(least, idle);
    most = Math.max(most, idle);
  }
  const [a, b] = [least, most].map(loss => shown(loss, 'W'));
  notes.push(
    `below ${shown(T1, 'N m')}, where the map begins, the loss follows the square of the torque down to zero torque, where it is ${a} to ${b}`,
  );
  return torque.toSpliced(zero, 0, 0);
}

/** An extrapolated loss; where it leaves 0 to the loss it starts from, that loss holds. */
function within(extrapolated: number, from: number): number {
  return extrapolated >= 0 && extrapolated <= from ? extrapolated : from;
}

export function shown(value: number, unit: string): string {
  return `${Number(value.toPrecision(4))} ${unit}`;
}

export function rpm(speed: number): string {
  return shown((speed * 30) / Math.PI, 'rpm');
}

/** A map ready for evaluation. */
export interface LossSurface {
  /** x is speed, y torque. */
  readonly grid: Grid;
  /** Whether only the driving half is stored. */
  readonly mirrored: boolean;
}

const packed = new WeakMap<LossMap, LossSurface>();

/** A map ready for evaluation: made once for each map, as a sweep takes the same one into thousands of cars. */
export function lossSurface(map: LossMap): LossSurface {
  const known = packed.get(map);
  if (known !== undefined) return known;
  const mirrored = map.torque[0] === 0;
  const made = { grid: surfaceThrough(map.speed, map.torque, map.loss, { even: mirrored }), mirrored };
  packed.set(map, made);
  return made;
}

/**
 * Loss in W, its slope in speed (W s/rad) and in torque (W/(N m)), into `out[0]` to `out[2]`. Negative torque brakes.
 * Smooth everywhere; beyond the map in a straight line. Allocates nothing.
 */
export function evaluateLoss({ grid, mirrored }: LossSurface, torque: number, omega: number, out: Float64Array): void {
  if (mirrored && torque < 0) {
    evaluateGrid(grid, omega, -torque, out);
    out[2] = -out[2]!;
  } else evaluateGrid(grid, omega, torque, out);
}

const MOST_PASSES = 60;
const TOLERANCE = 1e-13;

const found = new Float64Array(3);

/**
 * The driving torque at which shaft power and loss together take `power` W, and its slope in speed at constant power,
 * into `out[0]` (N m) and `out[1]` (N m s/rad): 0 where idling takes more, Infinity where no torque takes as much (at
 * standstill). Newton's method inside a bracket, from `guess` N m. Allocates nothing.
 */
export function torqueTaking(loss: LossSurface, power: number, omega: number, guess: number, out: Float64Array): void {
  const { grid } = loss;
  out[1] = 0;
  evaluateGrid(grid, omega, 0, found);
  if (!(found[0]! < power)) {
    out[0] = Number.isNaN(power + found[0]!) ? Number.NaN : 0;
    return;
  }
  let low = 0;
  let high = nth(grid.y, grid.y.length - 1);
  evaluateGrid(grid, omega, high, found);
  const last = high * omega + found[0]!;
  let T = guess > low && guess < high ? guess : 0.5 * high;
  if (last <= power) {
    // Beyond the map the loss is a straight line.
    const rise = omega + found[2]!;
    if (!(rise > 0) && last < power) {
      out[0] = Infinity;
      return;
    }
    T = last < power ? high + (power - last) / rise : high;
    evaluateGrid(grid, omega, T, found);
  } else {
    for (let pass = 0; pass < MOST_PASSES; pass++) {
      evaluateGrid(grid, omega, T, found);
      const excess = T * omega + found[0]! - power;
      if (excess > 0) high = T;
      else low = T;
      let next = T - excess / (omega + found[2]!);
      if (!(next > low && next < high)) next = 0.5 * (low + high);
      const settled = excess === 0 || Math.abs(next - T) <= TOLERANCE * next;
      if (settled) break;
      T = next;
    }
  }
  out[0] = T;
  out[1] = -(T + found[1]!) / (omega + found[2]!);
}
