/** Packs a car and its surroundings into the block of parameters that the plant works on. */
import { densityAt } from '../air.ts';
import type { AxleName, Car, Drive, DriveUnit, Surroundings, Tyre } from '../car.ts';
import { curveAt, packCurve } from '../tables/curve.ts';
import type { Curve } from '../tables/curve.ts';
import { packLoss } from '../drive/efficiency-map.ts';
import type { PackedLoss } from '../drive/efficiency-map.ts';
import { STANDARD_GRAVITY } from '../gravity.ts';
import { A, AXLE_SIZE, G, GEAR_SIZE, MAX_GEARS, P, PARAMETER_COUNT } from './state.ts';
import { packFigures } from '../pack/state.ts';
import type { PackFigures } from '../pack/state.ts';
import type { PlantShape } from './plant.ts';
import { rollingAtTemperature } from '../tyre/rolling.ts';
import { shapeFactor, slipAtShare, stiffnessFactor } from '../tyre/slip.ts';
import { loadedMass } from '../body/loaded-mass.ts';

/** Everything about one car in one place that does not change while it is driven. */
export interface PlantParameters {
  readonly shape: PlantShape;
  readonly block: Float64Array;
  readonly pack: PackFigures;
  /** V of one cell over state of charge. */
  readonly ocv: Curve;
  /** ohm of one cell over state of charge. */
  readonly resistance: Curve;
  /** N m over rad/s of front and rear drive unit, where it has a table. */
  readonly torque: readonly [Curve | null, Curve | null];
  /** W over rad/s and N m of front and rear drive unit, where it has a map. */
  readonly loss: readonly [PackedLoss | null, PackedLoss | null];
  /** State of charge at the start. */
  readonly charge: number;
}

/**
 * @param pedal 0 to 1, share of the peak torque asked for.
 * @throws RangeError when the car has no driven axle, one axle is driven twice, or the pack has more RC pairs than the
 * plant carries.
 */
export function packPlant(car: Car, surroundings: Surroundings, pedal = 1): PlantParameters {
  const pack = packFigures(car.pack);
  const front = drivesOf(car, 'front');
  const rear = drivesOf(car, 'rear');
  if (front === undefined && rear === undefined) throw new RangeError('a driven axle is needed');
  const block = new Float64Array(PARAMETER_COUNT);
  packBody(block, car, surroundings);
  packPack(block, pack);
  block[P.auxiliaryPower] = car.auxiliaries.power / car.auxiliaries.converterEfficiency;
  const torque: [Curve | null, Curve | null] = [null, null];
  const loss: [PackedLoss | null, PackedLoss | null] = [null, null];
  for (const [index, name, drive] of [
    [0, 'front', front],
    [1, 'rear', rear],
  ] as const) {
    const o = axleAt(name);
    packAxle(block, name, car, surroundings);
    if (drive === undefined) continue;
    const { table, losses } = drive.unit;
    torque[index] = table === null ? null : packCurve(table.speed, table.torque);
    loss[index] = losses.map === undefined ? null : packLoss(losses.map);
    packDrive(block, o, drive, car.tyres[name], torque[index], pedal);
    packShares(block, o, name, car);
  }
  return {
    shape: shapeOf(car),
    block,
    pack,
    ocv: pack.ocv,
    resistance: pack.ohm,
    torque,
    loss,
    charge: car.pack.charge,
  };
}

/** Which states the plant of a car has. */
export function shapeOf(car: Car): PlantShape {
  const kind = (axle: AxleName): 'free' | 'driven' | 'spin' => {
    const drive = drivesOf(car, axle);
    return drive === undefined ? 'free' : drive.traction.policy === 'spin' ? 'spin' : 'driven';
  };
  return {
    pairs: car.pack.cell.pairs.length,
    heat: car.pack.heat !== undefined || car.drives.some(drive => drive.unit.heat !== undefined),
    front: kind('front'),
    rear: kind('rear'),
    gears: car.drives.some(drive => drive.gearbox !== undefined),
  };
}

function drivesOf(car: Car, axle: AxleName): Drive | undefined {
  const [drive, second] = car.drives.filter(each => each.axle === axle);
  if (second !== undefined) throw new RangeError(`the ${axle} axle is driven twice`);
  return drive;
}

function packBody(block: Float64Array, car: Car, surroundings: Surroundings): void {
  const { body, tyres } = car;
  const m = loadedMass(body);
  const driven = car.drives.map(drive => drive.axle);
  let undriven = 0;
  for (const name of ['front', 'rear'] as const) {
    if (!driven.includes(name)) undriven += (2 * tyres[name].inertia) / tyres[name].radius ** 2;
  }
  const rho = densityAt(surroundings);
  block[P.mass] = m;
  block[P.inertialMass] = m + undriven;
  block[P.transfer] = (m * body.cgHeight) / body.wheelbase;
  block[P.gradeForce] = m * STANDARD_GRAVITY * Math.sin(Math.atan(surroundings.slope));
  block[P.halfRhoCdA] = 0.5 * rho * body.dragArea;
  block[P.dragMoment] = body.dragHeight / body.wheelbase;
  block[P.wind] = surroundings.wind;
  block[P.air] = surroundings.temperature;
  block[P.shiftTime] = car.drives.find(drive => drive.gearbox !== undefined)?.gearbox?.shiftTime ?? 0;
  for (const [name, area] of [
    ['front', body.liftAreaFront],
    ['rear', body.liftAreaRear],
  ] as const) {
    block[axleAt(name) + A.liftFactor] = 0.5 * rho * area;
  }
}

function packPack(block: Float64Array, pack: PackFigures): void {
  block[P.capacity] = pack.capacity;
  block[P.series] = pack.series;
  block[P.cellResistance] = pack.perCell;
  block[P.wiring] = pack.wiring;
  block[P.maxCurrent] = pack.maxCurrent;
  block[P.minVoltage] = pack.minVoltage;
  block[P.pairs] = pack.pairs;
  block.set([pack.ohm1, pack.time1, pack.ohm2, pack.time2], P.pair0);
  block[P.packCapacity] = pack.heatCapacity;
  block[P.packCooling] = pack.cooling;
  block[P.packDerate] = pack.derateAt;
  block[P.packRange] = pack.derateRange;
  block[P.packActivation] = pack.activation;
}

function axleAt(name: AxleName): number {
  return name === 'front' ? P.axle0 : P.axle0 + AXLE_SIZE;
}

function packAxle(block: Float64Array, name: AxleName, car: Car, surroundings: Surroundings): void {
  const { body } = car;
  const o = axleAt(name);
  const tyre = car.tyres[name];
  const sign = name === 'front' ? -1 : 1;
  const share = name === 'front' ? body.frontShare : 1 - body.frontShare;
  const angle = Math.atan(surroundings.slope);
  const weight = block[P.mass]! * STANDARD_GRAVITY;
  const warm = rollingAtTemperature(surroundings.temperature);
  block[o + A.sign] = sign;
  block[o + A.staticLoad] =
    weight * (share * Math.cos(angle) + (sign * Math.sin(angle) * body.cgHeight) / body.wheelbase);
  block[o + A.c0] = tyre.rolling.c0 * warm;
  block[o + A.c1] = tyre.rolling.c1 * warm;
  block[o + A.c2] = tyre.rolling.c2 * warm;
  block[o + A.radius] = tyre.radius;
  packTyre(block, o, tyre, surroundings.surface);
}

function packTyre(block: Float64Array, o: number, tyre: Tyre, surface: 'dry' | 'wet'): void {
  const { peak, slide } = surface === 'dry' ? tyre.dry : tyre.wet;
  const C = shapeFactor(slide / peak);
  block[o + A.peak] = peak;
  block[o + A.loadExponent] = tyre.loadExponent;
  block[o + A.loadReference] = tyre.loadReference;
  block[o + A.shape] = C;
  block[o + A.stiffness] = stiffnessFactor(1, C);
  block[o + A.slipAtPeak] = tyre.slipAtPeak;
}

function packDrive(
  block: Float64Array,
  o: number,
  drive: Drive,
  tyre: Tyre,
  torque: Curve | null,
  pedal: number,
): void {
  const { unit } = drive;
  const wheels = 2 * tyre.inertia + drive.inertia;
  const { share, policy } = drive.traction;
  if (policy === 'spin' && tyre.slipAtPeak === 0) throw new RangeError('a rigid tyre cannot spin');
  block[o + A.driven] = 1;
  block[o + A.spin] = policy === 'spin' ? 1 : 0;
  block[o + A.maxShare] = share;
  block[o + A.maxStretch] = share === 1 ? 1 : slipAtShare(share, block[o + A.stiffness]!, block[o + A.shape]!);
  block[o + A.dragTorque] = drive.dragTorque;
  block[o + A.rotorInertia] = unit.inertia;
  packRatio(block, o, drive, drive.ratio, drive.efficiency, wheels);
  packUnit(block, o, unit, torque, pedal);
  packGears(block, o, drive, wheels, tyre.radius);
}

/** The figures that change with the gear, into the axle's own places. */
function packRatio(
  block: Float64Array,
  o: number,
  drive: Drive,
  ratio: number,
  efficiency: number,
  wheels: number,
): void {
  block[o + A.ratio] = ratio;
  block[o + A.efficiency] = efficiency;
  block[o + A.wheelInertia] = wheels;
  block[o + A.inertia] = wheels + efficiency * ratio ** 2 * drive.unit.inertia;
  block[o + A.shaftTorque] =
    drive.shaftTorque === null ? Infinity : drive.shaftTorque / (efficiency * ratio) + drive.dragTorque;
}

function packGears(block: Float64Array, o: number, drive: Drive, wheels: number, radius: number): void {
  const { gearbox } = drive;
  if (gearbox === undefined) return;
  if (gearbox.gears.length > MAX_GEARS) throw new RangeError(`at most ${MAX_GEARS} gears`);
  block[o + A.gears] = gearbox.gears.length;
  // From the highest down, so that the first gear is the one left in the axle's own places.
  for (let i = gearbox.gears.length - 1; i >= 0; i--) {
    const gear = gearbox.gears[i]!;
    packRatio(block, o, drive, gear.ratio * drive.ratio, gear.efficiency * drive.efficiency, wheels + gear.inertia);
    const g = o + A.gear0 + i * GEAR_SIZE;
    block[g + G.ratio] = block[o + A.ratio]!;
    block[g + G.efficiency] = block[o + A.efficiency]!;
    block[g + G.inertia] = block[o + A.inertia]!;
    block[g + G.wheelInertia] = block[o + A.wheelInertia]!;
    block[g + G.shaftTorque] = block[o + A.shaftTorque]!;
    block[g + G.upshift] = i === gearbox.gears.length - 1 ? Infinity : (gear.upshift * radius) / block[o + A.ratio]!;
  }
}

function packUnit(block: Float64Array, o: number, unit: DriveUnit, torque: Curve | null, pedal: number): void {
  const taperTorque =
    torque === null ? Math.min(unit.peakTorque, unit.peakPower / unit.taperSpeed) : curveAt(torque, unit.taperSpeed);
  block[o + A.peakTorque] = unit.peakTorque;
  block[o + A.peakPower] = unit.peakPower;
  block[o + A.referenceVoltage] = unit.referenceVoltage;
  block[o + A.maxSpeed] = unit.maxSpeed;
  block[o + A.taperSlope] = taperTorque / (unit.maxSpeed - unit.taperSpeed);
  // The line of the taper crosses the power hyperbola twice; only the upper crossing is meant.
  block[o + A.taperFrom] = 0.5 * unit.taperSpeed;
  block[o + A.copper] = unit.losses.copper;
  block[o + A.iron] = unit.losses.iron;
  block[o + A.windage] = unit.losses.windage;
  block[o + A.fixed] = unit.losses.fixed;
  block[o + A.inverter] = unit.inverterEfficiency;
  block[o + A.pedalTorque] = pedal === 1 ? Infinity : pedal * unit.peakTorque;
  block[o + A.tabled] = torque === null ? 0 : 1;
  block[o + A.powerSpeed] = torque === null ? Infinity : lastSpeedAt(0.98, torque, unit);
  block[o + A.flatSpeed] = torque === null ? 0 : lastSpeedAt(1 - 2e-4, torque, unit);
  block[o + A.unitCapacity] = unit.heat?.capacity ?? Infinity;
  block[o + A.unitCooling] = unit.heat?.cooling ?? 0;
  block[o + A.unitDerate] = unit.heat?.derateAt ?? 0;
  block[o + A.unitRange] = unit.heat?.derateRange ?? Infinity;
  block[o + A.continuous] = unit.heat?.continuousShare ?? 1;
}

/** How two drives share the pack, by peak power, and the wheel torque, where a fixed split says so. */
function packShares(block: Float64Array, o: number, name: AxleName, car: Car): void {
  const all = car.drives.reduce((sum, drive) => sum + drive.unit.peakPower, 0);
  block[o + A.packShare] = block[o + A.peakPower]! / all;
  const split = car.drives.length === 2 ? car.frontTorqueShare : undefined;
  block[o + A.torqueShare] = split === undefined ? 0 : name === 'front' ? split : 1 - split;
}

/**
 * rad/s up to which a torque table keeps this share of its peak. From where it has fallen by 2 % on it counts as power
 * limited.
 */
function lastSpeedAt(share: number, torque: Curve, unit: DriveUnit): number {
  const enough = (w: number): boolean => curveAt(torque, w) >= share * unit.peakTorque;
  let high = unit.maxSpeed;
  while (high > 0 && !enough(high)) high -= unit.maxSpeed / 400;
  if (high <= 0 || high === unit.maxSpeed) return Math.max(0, high);
  let low = high;
  high += unit.maxSpeed / 400;
  while (high - low > 1e-9 * high) {
    const middle = 0.5 * (low + high);
    if (enough(middle)) low = middle;
    else high = middle;
  }
  return low;
}
