/** Drive unit and gears from what is said about them. */
import { filler } from './assume.ts';
import type { Filler } from './assume.ts';
import type { Drive, DriveUnit, Pack, Traction } from './car.ts';
import { completeGearbox } from './complete-gearbox.ts';
import { completeUnitHeat } from './complete-heat.ts';
import { curveAt, packCurve } from './curve.ts';
import { scaledLosses } from './losses.ts';
import type { Input } from './quantity.ts';
import { driveFields, unitFields } from './spec.ts';
import type { DriveSpec, UnitSpec } from './spec.ts';

/** Share of the greatest speed below which a straight line is no picture of how the torque falls off. */
const LOWEST_TAPER = 2 / 3;

/**
 * The drive of one axle; of both, where one unit drives both: then two drives with their shares of the unit.
 * @param pack the pack it runs on: its nominal voltage is the default reference voltage.
 * @throws SpecError
 */
export function completeDrive(path: string, spec: DriveSpec, pack: Pack, inputs: Input[]): CompletedDrive {
  const fill = filler(path, driveFields, spec, inputs);
  fill.require('unit');
  const axle = fill.choice('axle');
  const unit = completeUnit(`${path}.unit`, spec.unit ?? {}, pack, inputs);
  const drive = {
    unit,
    ratio: fill.number('ratio'),
    ...gearboxOf(path, spec, unit, inputs),
    efficiency: fill.number('efficiency'),
    dragTorque: fill.number('dragTorque'),
    inertia: fill.number('inertia'),
    shaftTorque: spec.shaftTorque === undefined ? null : fill.number('shaftTorque'),
    traction: traction(fill),
  };
  if (axle !== 'both') return { drives: [{ ...drive, axle: axle === 'front' ? 'front' : 'rear' }] };
  const front = fill.number('frontTorqueShare');
  return {
    drives: [
      { ...share(drive, front), axle: 'front' },
      { ...share(drive, 1 - front), axle: 'rear' },
    ],
    frontTorqueShare: front,
  };
}

/** One or two drives, and the fixed share of the wheel torque at the front where one unit drives both axles. */
export interface CompletedDrive {
  readonly drives: readonly Drive[];
  readonly frontTorqueShare?: number;
}

function gearboxOf(path: string, spec: DriveSpec, unit: DriveUnit, inputs: Input[]): Pick<Drive, 'gearbox'> {
  if (spec.gearbox === undefined) return {};
  return { gearbox: completeGearbox(`${path}.gearbox`, spec.gearbox, unit, inputs) };
}

function traction(fill: Filler<typeof driveFields>): Traction {
  const policy = fill.choice('traction');
  if (policy === 'share') return { policy, share: fill.number('tractionShare') };
  return { policy: policy === 'spin' ? 'spin' : 'held', share: 1 };
}

/**
 * The part of a drive that one axle has of a unit that drives both: torque, power, losses and inertia in proportion, so that
 * the two parts together are the whole at equal wheel speeds: kc T^2 = kc/s (s T)^2 + kc/(1-s) ((1-s) T)^2.
 */
function share<D extends Omit<Drive, 'axle'>>(drive: D, s: number): D {
  const { unit } = drive;
  const { copper, iron, windage, fixed } = unit.losses;
  const table = unit.table === null ? null : { ...unit.table, torque: unit.table.torque.map(T => s * T) };
  const heat = unit.heat && { ...unit.heat, capacity: s * unit.heat.capacity, cooling: s * unit.heat.cooling };
  return {
    ...drive,
    dragTorque: s * drive.dragTorque,
    shaftTorque: drive.shaftTorque === null ? null : s * drive.shaftTorque,
    unit: {
      ...unit,
      ...(heat && { heat }),
      table,
      peakTorque: s * unit.peakTorque,
      peakPower: s * unit.peakPower,
      inertia: s * unit.inertia,
      losses: { copper: copper / s, iron: s * iron, windage: s * windage, fixed: s * fixed },
    },
  };
}

function completeUnit(path: string, spec: UnitSpec, pack: Pack, inputs: Input[]): DriveUnit {
  const fill = filler(path, unitFields, spec, inputs);
  const table = torqueTable(spec, fill);
  const peakTorque = table === null ? fill.number('peakTorque') : Math.max(...table.torque);
  const peakPower = table === null ? fill.number('peakPower') : tablePower(table);
  const base = peakPower / peakTorque;
  const maxSpeed = fill.derived('maxSpeed', () => (table === null ? 3.6 * base : table.speed.at(-1)!), {
    kind: 'rectangular',
    low: 2.5 * base,
    high: 5 * base,
  });
  const taperSpeed = fill.derived('taperSpeed', () => 0.96 * maxSpeed);
  if (taperSpeed >= maxSpeed) throw fill.error('taperSpeed', 'is not below the greatest speed', 'a lower speed');
  if (taperSpeed < LOWEST_TAPER * maxSpeed) {
    throw fill.error('taperSpeed', 'is below two thirds of the greatest speed', 'a torque table for so long a fall');
  }
  const losses = scaledLosses(peakPower, peakTorque, maxSpeed);
  const unit: DriveUnit = {
    peakTorque,
    peakPower,
    referenceVoltage: fill.derived('referenceVoltage', () => nominalVoltage(pack)),
    maxSpeed,
    taperSpeed,
    table,
    inertia: fill.number('inertia'),
    losses: {
      copper: fill.derived('copperLoss', () => losses.copperLoss),
      iron: fill.derived('ironLoss', () => losses.ironLoss),
      windage: fill.derived('windageLoss', () => losses.windageLoss),
      fixed: fill.derived('fixedLoss', () => losses.fixedLoss),
    },
    inverterEfficiency: fill.number('inverterEfficiency'),
  };
  const heat = completeUnitHeat(spec, fill, unit);
  return heat === undefined ? unit : { ...unit, heat };
}

/** The columns of a torque table, checked; null where none is given. */
function torqueTable(
  spec: UnitSpec,
  fill: ReturnType<typeof filler<typeof unitFields>>,
): { readonly speed: readonly number[]; readonly torque: readonly number[] } | null {
  const { tableSpeed: speed, tableTorque: torque } = spec;
  if (speed === undefined && torque === undefined) return null;
  if (speed === undefined || torque === undefined) {
    throw fill.error(speed === undefined ? 'tableSpeed' : 'tableTorque', 'is missing', 'both columns of the table');
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
  if (!torque.every(t => t > 0)) throw fill.error('tableTorque', 'has a value that is not above 0');
  return { speed, torque };
}

/** Greatest power along the table, sampled between its points. */
function tablePower(table: { readonly speed: readonly number[]; readonly torque: readonly number[] }): number {
  const curve = packCurve(table.speed, table.torque);
  const last = table.speed[table.speed.length - 1] ?? 0;
  let best = 0;
  for (let i = 0; i <= 400; i++) {
    const w = (last * i) / 400;
    best = Math.max(best, w * curveAt(curve, w));
  }
  return best;
}

/** V, open-circuit at half charge. */
function nominalVoltage(pack: Pack): number {
  const { charge, voltage } = pack.cell.ocv;
  return pack.series * curveAt(packCurve(charge, voltage), 0.5);
}
