/** The torque table of a drive unit: two columns of its specification, or a file. */
import { lastOf } from '../../columns.ts';
import type { Filler } from '../fields/filler.ts';
import type { DriveUnit } from '../car.ts';
import { curveAt, curveThrough } from '../tables/curve.ts';
import type { unitFields, UnitSpec } from './fields.ts';
import { torqueRowAt } from './torque-surface.ts';
import type { TorqueTable } from './torque-surface.ts';

type Columns = NonNullable<DriveUnit['table']>;

/**
 * The torque table of a unit at its reference voltage, checked; null where there is none.
 * @param file what `spec.torqueTable` says. @param voltage V, the reference.
 * @throws SpecError
 */
export function completeTorque(
  spec: UnitSpec,
  fill: Filler<typeof unitFields>,
  file: TorqueTable | null,
  voltage: number,
): { readonly table: Columns; readonly notes: readonly string[] } | null {
  if (file === null) {
    const table = columnsOf(spec, fill);
    return table === null ? null : { table, notes: [] };
  }
  if (spec.tableSpeed !== undefined || spec.tableTorque !== undefined) {
    throw fill.error('torqueTable', 'stands beside table_speed and table_torque', 'one of the two');
  }
  const notes = atVoltage(file, voltage, fill);
  const table = withoutTail({ speed: file.speed, torque: torqueRowAt(file, voltage) });
  checkTorque(table, 'torqueTable', fill);
  return { table, notes };
}

/** How a table of several voltages is used. @throws SpecError where it does not reach the reference voltage. */
function atVoltage({ voltage }: TorqueTable, reference: number, fill: Filler<typeof unitFields>): string[] {
  const [low, high] = [voltage[0], voltage.at(-1)];
  if (low === undefined || high === undefined || voltage.length < 2) return [];
  const volts = (V: number): string => `${Number(V.toPrecision(4))} V`;
  if (reference < low || reference > high) {
    const span = `is for ${volts(low)} to ${volts(high)}, but the reference voltage is ${volts(reference)}`;
    throw fill.error('torqueTable', span, 'a table that covers it, or a reference_voltage within the table');
  }
  return [
    `the torque table is taken at the reference voltage, ${volts(reference)}; away from it the speeds of the table change in proportion to the voltage, whatever its other rows say`,
  ];
}

/** Points from the end of a table to the greatest speed: a straight line between two of them is at most 0.4 % off, up to twice the speed. */
const BEYOND = 8;

/**
 * Up to a greatest speed beyond its end, a table goes on at the power of its last point: a motor in field weakening gives no more, and to hold the torque
 * would invent power that nobody measured. Common practice, no source.
 */
export function reaching({ speed, torque }: Columns, maxSpeed: number): Columns {
  const [end, last] = [lastOf(speed), lastOf(torque)];
  if (!(maxSpeed > end * (1 + 1e-9)) || last === 0) return { speed, torque };
  const more = Array.from({ length: BEYOND }, (_, i) => 1 + (maxSpeed / end - 1) * ((i + 1) / BEYOND));
  return {
    speed: [...speed, ...more.map(factor => factor * end)],
    torque: [...torque, ...more.map(factor => last / factor)],
  };
}

/** A row ends where its torque has come down to nothing: the speeds behind that are out of reach. */
function withoutTail({ speed, torque }: Columns): Columns {
  let end = torque.length;
  while (end > 2 && torque[end - 1] === 0 && torque[end - 2] === 0) end--;
  return { speed: speed.slice(0, end), torque: torque.slice(0, end) };
}

/** The columns in the specification; null where neither is given. */
function columnsOf(spec: UnitSpec, fill: Filler<typeof unitFields>): Columns | null {
  const { tableSpeed: speed, tableTorque: torque } = spec;
  if (speed === undefined && torque === undefined) return null;
  if (speed === undefined || torque === undefined) {
    throw fill.error(
      speed === undefined ? 'tableSpeed' : 'tableTorque',
      'is missing',
      'both columns of the table',
      'missing',
    );
  }
  if (speed.length !== torque.length || speed.length < 2) {
    throw fill.error(
      'tableTorque',
      `has ${torque.length} values, table_speed has ${speed.length}`,
      'as many, 2 or more',
    );
  }
  if (speed[0] !== 0 || !speed.every((w, i) => i === 0 || w > (speed[i - 1] ?? 0))) {
    throw fill.error('tableSpeed', 'does not rise from 0 step by step', 'speeds from 0 upwards');
  }
  checkTorque({ speed, torque }, 'tableTorque', fill);
  return { speed, torque };
}

function checkTorque({ torque }: Columns, key: 'tableTorque' | 'torqueTable', fill: Filler<typeof unitFields>): void {
  const last = torque.length - 1;
  if (!torque.every((T, i) => T > 0 || (T === 0 && i === last))) {
    throw fill.error(key, 'has a torque that is not above 0 before its end', 'torques above 0, the last one perhaps 0');
  }
}

/** Points between standstill and the last speed of a table at which its power is looked at. */
const POINTS = 400;

/** Greatest power along the table, sampled between its points, W. */
export function tablePower(table: Columns): number {
  return Math.max(...powerPoints(table).map(({ power }) => power));
}

/** rad/s: the greatest speed at which a table still gives so many W, by its samples; 0 where none does. */
export function tableSpeedAtPower(table: Columns, least: number): number {
  return powerPoints(table).findLast(({ power }) => power >= least)?.speed ?? 0;
}

function powerPoints(table: Columns): readonly { readonly speed: number; readonly power: number }[] {
  const curve = curveThrough(table.speed, table.torque);
  const last = table.speed.at(-1) ?? 0;
  return Array.from({ length: POINTS + 1 }, (_, i) => {
    const speed = (last * i) / POINTS;
    return { speed, power: speed * curveAt(curve, speed) };
  });
}
