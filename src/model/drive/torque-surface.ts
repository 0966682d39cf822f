/** Peak torque of a drive unit over speed and voltage at its inverter, from a table for several voltages. */
import { nth } from '../../columns.ts';
import { gridAt, surfaceThrough } from '../tables/grid.ts';
import type { Grid } from '../tables/grid.ts';

/** SI, axes ascending. */
export interface TorqueTable {
  /** V, two or more; empty for one voltage that is not stated. */
  readonly voltage: readonly number[];
  /** rad/s, from 0. */
  readonly speed: readonly number[];
  /** N m, not negative, voltage by voltage, speed by speed. */
  readonly torque: readonly number[];
}

const packed = new WeakMap<TorqueTable, Grid>();

/**
 * The surface through a table of several voltages, made once for each table: x of the grid is the speed, y the voltage, so that
 * `evaluateGrid(grid, omega, V, out)` gives the torque and its slopes in both.
 * @throws RangeError for a table of one voltage.
 */
export function torqueSurface(table: TorqueTable): Grid {
  const known = packed.get(table);
  if (known !== undefined) return known;
  const { voltage, speed, torque } = table;
  const turned = speed.flatMap((_, i) => voltage.map((_, k) => nth(torque, k * speed.length + i)));
  const made = surfaceThrough(speed, voltage, turned);
  packed.set(table, made);
  return made;
}

/** Torque over the speeds of the table at one voltage, N m. */
export function torqueRowAt(table: TorqueTable, V: number): number[] {
  if (table.voltage.length < 2) return [...table.torque];
  const grid = torqueSurface(table);
  return table.speed.map(omega => gridAt(grid, omega, V));
}

/** Share by which the voltage may leave the table; within it the torque goes on in a straight line. */
const MOST_BEYOND = 0.1;

/**
 * Whether a table covers the voltages of a pack.
 * @param lowest V at the inverter. @param highest V.
 * @returns `missing`: why it does not, '' when it does; `notes`: where its edges are passed by a little.
 */
export function torqueCover(
  { voltage }: TorqueTable,
  lowest: number,
  highest: number,
): { readonly missing: string; readonly notes: readonly string[] } {
  const [low, high] = [voltage[0], voltage.at(-1)];
  if (low === undefined || high === undefined) return { missing: '', notes: [] };
  const volts = (V: number): string => `${Number(V.toPrecision(4))} V`;
  const span = `is for ${volts(low)} to ${volts(high)}, but the pack has ${volts(lowest)} to ${volts(highest)}`;
  if (lowest < low * (1 - MOST_BEYOND) || highest > high * (1 + MOST_BEYOND)) return { missing: span, notes: [] };
  if (lowest >= low && highest <= high) return { missing: '', notes: [] };
  return { missing: '', notes: [`the torque table ${span}: beyond, the torque goes on in a straight line`] };
}
