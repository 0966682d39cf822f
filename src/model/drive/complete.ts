/** Drive unit and gears from what is said about them. */
import { lastOf } from '../../columns.ts';
import { usualQuantity } from '../../units/usual.ts';
import { filler, notebookKey } from '../fields/filler.ts';
import { RPM } from '../fields/table.ts';
import { curveThrough } from '../tables/curve.ts';
import { taperOf } from './taper.ts';
import type { Filler } from '../fields/filler.ts';
import type { Drive, DriveUnit, Pack, Traction } from '../car.ts';
import { completeBus } from './bus.ts';
import { completeGearbox } from './gearbox.ts';
import { completeUnitHeat } from './heat.ts';
import { completeLosses } from './complete-losses.ts';
import { completeRegeneration } from './regeneration.ts';
import { completeTorque, reaching, tablePower } from './torque-table.ts';
import { withoutContained } from './contained-losses.ts';
import { openVoltage } from '../pack/voltage-window.ts';
import type { LossMap, LossTable } from './efficiency-map.ts';
import { lossSpreads, scaledLosses } from './losses.ts';
import type { Input } from '../fields/input.ts';
import { driveFields, LOWEST_TAPER, unitFields } from './fields.ts';
import type { DriveSpec, UnitSpec } from './fields.ts';
import type { TorqueTable } from './torque-surface.ts';

/** What the files say that a drive unit names. */
export interface MeasuredUnit {
  readonly loss: LossTable | null;
  readonly torque: TorqueTable | null;
  /** Sentences that the reader must see. */
  readonly notes: readonly string[];
}

/** What a drive must know of the rest of the car. */
export interface DriveContext {
  /** The pack it runs on: its nominal voltage is the default reference voltage. */
  readonly pack: Pack;
  /** By the path of the unit, which is that of the drive with `.unit` behind it. */
  readonly measured: ReadonlyMap<string, MeasuredUnit>;
  /**
   * Share of the iron loss that a measured road load contains, with all of windage and the drag of the gears; null where it
   * contains nothing of the drive.
   */
  readonly contained: number | null;
}

/** rad/s, 3.6 times the speed where peak torque (N m) and peak power (W) meet: the shipped units have 3.4 to 4. */
export function usualMaxSpeed(peakPower: number, peakTorque: number): number {
  return (3.6 * peakPower) / peakTorque;
}

/** Of a live axle whose gears nobody counted: the larger the ratio, the less its propeller shaft lifts a wheel. */
const KINDEST =
  'axle_ratio is not given, so all of ratio is taken to sit in the live axle, the kindest case; with a gear between motor and propeller shaft it is the ratio of the axle alone, and one wheel is lifted more';

/**
 * The drive of one axle; of both, where one unit drives both: then two drives with their shares of the unit.
 * @throws SpecError
 */
export function completeDrive(path: string, spec: DriveSpec, context: DriveContext, inputs: Input[]): CompletedDrive {
  const fill = filler(path, driveFields, spec, inputs);
  fill.need('unit');
  const axle = fill.choice('axle');
  const unitPath = `${path}.unit`;
  const { unit, notes } = completeUnit(unitPath, spec.unit ?? {}, context, inputs);
  const dragged = context.contained === null;
  if (spec.suspension === 'live' && spec.differential !== 'locking' && !spec.gearbox && spec.axleRatio === undefined)
    notes.push(`${path}: ${KINDEST}`);
  if (!dragged && spec.dragTorque !== undefined)
    notes.push(`${path}: drag_torque is in the measured road load already`);
  const drive: Drive = {
    axle: axle === 'front' ? 'front' : 'rear',
    unit,
    ratio: fill.number('ratio'),
    ...gearboxOf(path, spec, unit, inputs),
    efficiency: fill.number('efficiency'),
    dragTorque: dragged ? fill.number('dragTorque') : 0,
    coldOil: dragged ? fill.number('coldOil') : 0,
    inertia: fill.number('inertia'),
    shaftTorque: spec.shaftTorque === undefined ? null : fill.number('shaftTorque'),
    ...liveAxle(fill),
    traction: traction(fill),
    regeneration: completeRegeneration(`${path}.regeneration`, spec.regeneration ?? {}, unit, inputs),
  };
  if (axle !== 'both') return { drives: [drive], notes };
  const front = fill.number('frontTorqueShare');
  return {
    drives: [
      { ...share(drive, front), axle: 'front' },
      { ...share(drive, 1 - front), axle: 'rear' },
    ],
    notes,
    frontTorqueShare: front,
  };
}

/** One or two drives, and the fixed share of the wheel torque at the front where one unit drives both axles. */
export interface CompletedDrive {
  readonly drives: readonly Drive[];
  readonly frontTorqueShare?: number;
  /** Sentences that the reader must see. */
  readonly notes: readonly string[];
}

const NO_FILES: MeasuredUnit = { loss: null, torque: null, notes: [] };

function gearboxOf(path: string, spec: DriveSpec, unit: DriveUnit, inputs: Input[]): Pick<Drive, 'gearbox'> {
  if (spec.gearbox === undefined) return {};
  return { gearbox: completeGearbox(`${path}.gearbox`, spec.gearbox, unit, inputs) };
}

function liveAxle(fill: Filler<typeof driveFields>): Pick<Drive, 'liveAxle'> {
  if (fill.choice('suspension') === 'independent' || fill.choice('differential') === 'locking') return {};
  return { liveAxle: { ratio: fill.derived('axleRatio', () => fill.number('ratio')) } };
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
function share(drive: Drive, s: number): Drive {
  const { unit } = drive;
  const { copper, iron, windage, fixed, map } = unit.losses;
  const losses = { copper: copper / s, iron: s * iron, windage: s * windage, fixed: s * fixed };
  const table = unit.table === null ? null : { ...unit.table, torque: unit.table.torque.map(T => s * T) };
  const heat = unit.heat && { ...unit.heat, capacity: s * unit.heat.capacity, cooling: s * unit.heat.cooling };
  return {
    ...drive,
    dragTorque: s * drive.dragTorque,
    shaftTorque: drive.shaftTorque === null ? null : s * drive.shaftTorque,
    regeneration: {
      ...drive.regeneration,
      torque: s * drive.regeneration.torque,
      power: s * drive.regeneration.power,
    },
    unit: {
      ...unit,
      ...(heat && { heat }),
      table,
      peakTorque: s * unit.peakTorque,
      peakPower: s * unit.peakPower,
      inertia: s * unit.inertia,
      standstillLoss: s * unit.standstillLoss,
      losses: map === undefined ? losses : { ...losses, map: shareOfMap(map, s) },
    },
  };
}

/** s loss(T/s, w): the same map on other scales. */
function shareOfMap(map: LossMap, s: number): LossMap {
  const scaled = (values: readonly number[]): number[] => values.map(each => s * each);
  return { ...map, torque: scaled(map.torque), loss: scaled(map.loss), reach: scaled(map.reach) };
}

function completeUnit(
  path: string,
  spec: UnitSpec,
  { pack, measured, contained }: DriveContext,
  inputs: Input[],
): { readonly unit: DriveUnit; readonly notes: string[] } {
  const fill = filler(path, unitFields, spec, inputs);
  const files = measured.get(path) ?? NO_FILES;
  needFile('map', spec, files.loss, fill);
  needFile('torqueTable', spec, files.torque, fill);
  const torque = completeTorque(spec, fill, files.torque, spec.referenceVoltage ?? nominalVoltage(pack));
  const given = torque?.table ?? null;
  const peakTorque = given === null ? fill.number('peakTorque') : Math.max(...given.torque);
  const peakPower = given === null ? fill.number('peakPower') : tablePower(given);
  const base = peakPower / peakTorque;
  const maxSpeed = fill.derived(
    'maxSpeed',
    () => (given === null ? usualMaxSpeed(peakPower, peakTorque) : lastOf(given.speed)),
    given === null ? { kind: 'rectangular', low: 2.5 * base, high: 5 * base } : undefined,
    given === null ? undefined : 'the last speed of the torque table',
  );
  const table = given === null ? null : reaching(given, maxSpeed);
  const taperSpeed = fill.derived('taperSpeed', () => 0.96 * maxSpeed);
  if (taperSpeed >= maxSpeed) throw fill.error('taperSpeed', 'is not below the greatest speed', 'a lower speed');
  if (taperSpeed < LOWEST_TAPER * maxSpeed) {
    throw fill.error('taperSpeed', 'is below two thirds of the greatest speed', 'a torque table for so long a fall');
  }
  // The torque of a table falls as its points say.
  const powerAtTop = table === null ? fill.number('powerAtTop') : 1;
  const referenceVoltage = fill.derived('referenceVoltage', () => nominalVoltage(pack));
  const torqueRise = fill.number('torqueRise');
  const inertia = fill.number('inertia');
  const ratings = { peakTorque, peakPower, powerAtTop, referenceVoltage, maxSpeed };
  const lossy = unitLosses(fill, spec, files.loss, ratings, contained, inputs);
  const bus = completeBus(fill, spec, referenceVoltage, pack);
  // Written out: thousands of cars of a study are completed, and to spread what is known already takes longer than all of it.
  const unit: DriveUnit = {
    peakTorque,
    peakPower,
    powerAtTop,
    referenceVoltage,
    maxSpeed,
    taperSpeed,
    table,
    torqueRise,
    inertia,
    losses: lossy.losses,
    standstillLoss: lossy.standstillLoss,
    inverterEfficiency: lossy.inverterEfficiency,
    voltage: bus.voltage,
  };
  const heat = completeUnitHeat(spec, fill, unit);
  const unused = given === null ? [] : tableNotes(spec, unit, given);
  const all = [...files.notes, ...(torque?.notes ?? []), ...unused, ...lossy.notes, ...bus.notes];
  const said = all.map(note => `${path}: ${note}`);
  return { unit: heat === undefined ? unit : { ...unit, heat }, notes: said };
}

/** @throws SpecError where the specification names a file that nobody read. */
function needFile(
  key: 'map' | 'torqueTable',
  spec: UnitSpec,
  file: LossTable | TorqueTable | null,
  fill: Filler<typeof unitFields>,
): void {
  if (spec[key] !== undefined && file === null) throw fill.error(key, 'names a file that was not read');
}

/** What of the ratings beside a torque table says nothing, and what holds where the table says nothing. */
function tableNotes(spec: UnitSpec, unit: DriveUnit, table: NonNullable<DriveUnit['table']>): string[] {
  const said = (['peakTorque', 'peakPower', 'powerAtTop'] as const).filter(key => spec[key] !== undefined);
  const unused = said.map(key => `the torque table takes the place of ${notebookKey(key)}`);
  const [end, last] = [lastOf(table.speed), lastOf(table.torque)];
  const rpm = (speed: number): string => usualQuantity(speed, 'rad/s', 'rpm');
  const whole = unit.table ?? table;
  const { speed: bent } = taperOf(unit, curveThrough(whole.speed, whole.torque));
  return [
    ...unused,
    ...(unit.maxSpeed > (1 + 1e-9) * end && last > 0
      ? [
          `the torque table ends at ${rpm(end)}; from there to max_speed, ${rpm(unit.maxSpeed)}, the power of its last point is held, ${usualQuantity(last * end, 'W', 'kW')}`,
        ]
      : []),
    ...(spec.taperSpeed === undefined && last > 0 && bent < unit.maxSpeed
      ? [
          `from ${rpm(bent)} on its torque goes in a straight line to nothing at max_speed, ${rpm(unit.maxSpeed)}, whatever the torque table says there; taper_speed moves that`,
        ]
      : []),
    ...(end > FASTEST
      ? [
          `the torque table goes to ${rpm(end)}, and hardly any motor of a car beyond ${rpm(FASTEST)}: is its speed in another unit?`,
        ]
      : []),
  ];
}

/** rad/s, 20,000 rpm: common practice, no source. */
const FASTEST = 20_000 * RPM;

type Ratings = Pick<DriveUnit, 'peakTorque' | 'peakPower' | 'powerAtTop' | 'referenceVoltage' | 'maxSpeed'>;

/** The losses by map, by stated efficiencies or by constants, and the efficiency of the inverter beside them. */
function unitLosses(
  fill: Filler<typeof unitFields>,
  spec: UnitSpec,
  file: LossTable | null,
  { peakTorque, peakPower, powerAtTop, maxSpeed, referenceVoltage: voltage }: Ratings,
  contained: number | null,
  inputs: Input[],
): Pick<DriveUnit, 'losses' | 'standstillLoss' | 'inverterEfficiency'> & { readonly notes: readonly string[] } {
  const scaled = scaledLosses(peakPower, peakTorque, Math.max(maxSpeed, usualMaxSpeed(peakPower, peakTorque)));
  const usual = {
    copper: scaled.copperLoss,
    iron: scaled.ironLoss,
    windage: scaled.windageLoss,
    fixed: scaled.fixedLoss,
  };
  const limits = { peakTorque, peakPower, powerAtTop, maxSpeed, voltage };
  const { map, fit, withInverter, notes } = completeLosses(fill.path, spec, file, limits, usual, inputs);
  const spreads = lossSpreads(scaled);
  const constants = (): DriveUnit['losses'] => ({
    copper: fill.derived('copperLoss', () => usual.copper, spreads.copperLoss),
    iron: fill.derived('ironLoss', () => usual.iron, spreads.ironLoss),
    windage: contained === null ? fill.derived('windageLoss', () => usual.windage, spreads.windageLoss) : 0,
    fixed: fill.derived('fixedLoss', () => usual.fixed, spreads.fixedLoss),
  });
  const all = map !== null ? { copper: 0, iron: 0, windage: 0, fixed: 0, map } : (fit?.losses ?? constants());
  const own = contained === null ? { losses: all, notes: [] } : withoutContained(all, contained);
  const idle = map === null ? all.fixed : usual.fixed;
  const standing = idle > 0 ? ({ kind: 'rectangular', low: 0, high: 0.5 * idle } as const) : undefined;
  return {
    losses: own.losses,
    standstillLoss: fill.derived('standstillLoss', () => 0, standing),
    inverterEfficiency: withInverter ? 1 : fill.number('inverterEfficiency'),
    notes: [...notes, ...own.notes],
  };
}

/** V, open-circuit at half charge. */
function nominalVoltage(pack: Pack): number {
  return openVoltage(pack, 0.5);
}
