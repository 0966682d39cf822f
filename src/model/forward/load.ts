/** The figures of a car and its surroundings that the forward model works with. */
import * as elementary from '../../elementary.ts';
import { densityAt } from '../air.ts';
import { loadedMass } from '../body/loaded-mass.ts';
import { towed } from '../body/trailer.ts';
import type { AxleName, Car, Drive, DriveUnit, Surface, Surroundings, Tyre } from '../car.ts';
import { lossSurface } from '../drive/efficiency-map.ts';
import { powerLine } from '../drive/field-weakening.ts';
import { unloadingOf } from '../drive/live-axle.ts';
import { taperOf } from '../drive/taper.ts';
import { STANDARD_GRAVITY } from '../gravity.ts';
import { packFigures } from '../pack/state.ts';
import type { PackFigures } from '../pack/state.ts';
import { curveAt, curveThrough } from '../tables/curve.ts';
import type { Curve } from '../tables/curve.ts';
import { rollingAtTemperature } from '../tyre/rolling.ts';
import { shapeFactor, slipAtShare, stiffnessFactor } from '../tyre/slip.ts';
import { AxleFigures, CarFigures, GearFigures } from './figures.ts';
import { usedLimits } from './limits.ts';
import { shapeOf } from './shape.ts';
import type { PlantShape } from './shape.ts';

const MOST_GEARS = 6;

/** Everything about one car in one place that does not change while it is driven. */
export interface PlantParameters {
  readonly shape: PlantShape;
  readonly car: CarFigures;
  readonly pack: PackFigures;
  readonly front: AxleFigures;
  readonly rear: AxleFigures;
  /** State of charge at the start. */
  readonly charge: number;
  /** K of pack and drive units at the start. */
  readonly soaked: number;
}

/**
 * @param pedal 0 to 1, share of the peak torque asked for.
 * @param builds whether the torque builds up: the pedal goes down at time 0.
 * @param seconds that it is driven for at most, from its own charge: what can not come into force until then is left out.
 * @throws RangeError when the car has no driven axle, one axle is driven twice, or the pack has more RC pairs than the
 * plant carries.
 */
export function plantParameters(
  car: Car,
  surroundings: Surroundings,
  pedal = 1,
  builds = false,
  seconds = Infinity,
): PlantParameters {
  const pack = packFigures(car.pack);
  // An inverter switches off below its least voltage, and gives just what keeps the sagging pack there.
  for (const { unit } of car.drives) pack.minVoltage = Math.max(pack.minVoltage, unit.voltage?.least ?? 0);
  const soaked = surroundings.soaked ?? surroundings.temperature;
  if (seconds < Infinity) leaveOut(pack, car.pack.charge, Math.min(soaked, surroundings.temperature), seconds);
  const shape = shapeOf(car);
  if (shape.front === 'free' && shape.rear === 'free') throw new RangeError('a driven axle is needed');
  const whole = carFigures(car, surroundings);
  return {
    shape,
    car: whole,
    pack,
    front: axleFigures('front', car, whole, pack, surroundings, pedal, builds),
    rear: axleFigures('rear', car, whole, pack, surroundings, pedal, builds),
    charge: car.pack.charge,
    soaked,
  };
}

/** Neither cold nor a low charge holds back a pack that stays above both. @param coldest K. */
function leaveOut(pack: PackFigures, charge: number, coldest: number, seconds: number): void {
  if (coldest >= pack.frostFull) pack.frostFull = -Infinity;
  if (charge - pack.maxCurrent * seconds * pack.perCapacity >= pack.lowCharge) pack.lowCharge = 0;
}

function carFigures(car: Car, surroundings: Surroundings): CarFigures {
  const { body, tyres } = car;
  const figures = new CarFigures();
  const loaded = loadedMass(body);
  const behind = towed(car.trailer, body);
  const m = loaded + behind.mass;
  const driven = car.drives.map(drive => drive.axle);
  let undriven = 0;
  for (const name of ['front', 'rear'] as const) {
    if (!driven.includes(name)) undriven += (2 * tyres[name].inertia) / elementary.pow(tyres[name].radius, 2);
  }
  figures.mass = m;
  figures.inertialMass = m + undriven;
  figures.transfer = (loaded * body.cgHeight) / body.wheelbase + behind.mass * behind.lever;
  figures.halfRho = 0.5 * densityAt(surroundings);
  figures.halfRhoCdA = figures.halfRho * body.dragArea;
  figures.dragMoment = body.dragHeight / body.wheelbase;
  figures.towedDrag = figures.halfRho * (car.trailer?.dragArea ?? 0);
  const rolling = (car.trailer?.rolling ?? 0) * rollingAtTemperature(surroundings.temperature);
  figures.towedLevel = rolling * behind.own * STANDARD_GRAVITY;
  figures.hitchLever = behind.lever;
  leanCar(figures, elementary.atan(surroundings.slope));
  figures.wind = surroundings.wind;
  figures.air = surroundings.temperature;
  figures.auxiliaryPower = car.auxiliaries.power / car.auxiliaries.converterEfficiency;
  figures.shiftTime = car.drives.find(drive => drive.gearbox !== undefined)?.gearbox?.shiftTime ?? 0;
  return figures;
}

/** Puts a car on a slope. @param angle rad, uphill positive. */
export function leanCar(car: CarFigures, angle: number): void {
  car.angle = angle;
  car.gradeForce = car.mass * STANDARD_GRAVITY * elementary.sin(angle);
  car.towedRoll = car.towedLevel * elementary.cos(angle);
}

/** The same for an axle of it: what rests there, and what the weight of car and trailer moves to the rear as acceleration would. */
export function leanAxle(axle: AxleFigures, car: CarFigures, angle: number): void {
  axle.staticLoad =
    axle.levelLoad * elementary.cos(angle) + axle.sign * car.transfer * STANDARD_GRAVITY * elementary.sin(angle);
}

function axleFigures(
  name: AxleName,
  car: Car,
  whole: CarFigures,
  pack: PackFigures,
  surroundings: Surroundings,
  pedal: number,
  builds: boolean,
): AxleFigures {
  const { body } = car;
  const figures = new AxleFigures();
  const tyre = car.tyres[name];
  const sign = name === 'front' ? -1 : 1;
  const share = name === 'front' ? body.frontShare : 1 - body.frontShare;
  const warm = rollingAtTemperature(surroundings.temperature);
  figures.sign = sign;
  figures.levelLoad = STANDARD_GRAVITY * (loadedMass(body) * share + towed(car.trailer, body)[name]);
  leanAxle(figures, whole, whole.angle);
  figures.liftFactor = whole.halfRho * (name === 'front' ? body.liftAreaFront : body.liftAreaRear);
  figures.c0 = tyre.rolling.c0 * warm;
  figures.c1 = tyre.rolling.c1 * warm;
  figures.c2 = tyre.rolling.c2 * warm;
  figures.hubDrag = 0.5 * (body.hubDrag ?? 0);
  figures.radius = tyre.radius;
  figures.perRadius = 1 / tyre.radius;
  const drive = car.drives.find(each => each.axle === name);
  tyreFigures(figures, tyre, surroundings.surface, unloadingOf(drive?.liveAxle, name, body, tyre.radius));
  if (drive === undefined) return figures;
  driveFigures(figures, drive, tyre, pedal, oilDrag(drive, surroundings.temperature));
  const { peakTorque, torqueRise } = drive.unit;
  figures.torqueGrowth = builds && torqueRise > 0 ? peakTorque / torqueRise : Infinity;
  shares(figures, name, car);
  const shafts = figures.gears[0]?.shaftTorque !== Infinity;
  figures.used = usedLimits(figures, pack, shafts);
  return figures;
}

function tyreFigures(figures: AxleFigures, tyre: Tyre, surface: Surface, unloading: number): void {
  const found = tyre[surface];
  if (found === undefined) throw new RangeError(`the friction of the tyres on ${surface} is not known`);
  const { peak, slide } = found;
  const C = shapeFactor(slide / peak);
  figures.peak = peak;
  figures.loadExponent = tyre.loadExponent;
  figures.loadReference = tyre.loadReference;
  figures.unloading = unloading;
  figures.shape = C;
  figures.stiffness = stiffnessFactor(1, C);
  figures.slipAtPeak = tyre.slipAtPeak;
}

/** @param dragTorque N m of the drive in its oil. */
function driveFigures(figures: AxleFigures, drive: Drive, tyre: Tyre, pedal: number, dragTorque: number): void {
  const { unit } = drive;
  const { share, policy } = drive.traction;
  if (policy === 'spin' && tyre.slipAtPeak === 0) throw new RangeError('a rigid tyre cannot spin');
  figures.driven = true;
  figures.spin = policy === 'spin';
  figures.maxShare = share;
  figures.maxStretch = share === 1 ? 1 : slipAtShare(share, figures.stiffness, figures.shape);
  figures.dragTorque = dragTorque;
  figures.rotorInertia = unit.inertia;
  figures.gears = gearsOf(drive, tyre, dragTorque);
  unitFigures(figures, unit, pedal);
}

/** All gears, the first one first; a fixed ratio is one. @param dragTorque N m of the drive in its oil. */
export function gearsOf(drive: Drive, tyre: Tyre, dragTorque: number): readonly GearFigures[] {
  const { gearbox } = drive;
  const wheels = 2 * tyre.inertia + drive.inertia;
  if (gearbox === undefined) return [gearFigures(drive, drive.ratio, drive.efficiency, wheels, dragTorque)];
  const { gears } = gearbox;
  if (gears.length > MOST_GEARS) throw new RangeError(`at most ${MOST_GEARS} gears`);
  return gears.map((gear, i) => {
    const figures = gearFigures(
      drive,
      gear.ratio * drive.ratio,
      gear.efficiency * drive.efficiency,
      wheels + gear.inertia,
      dragTorque,
    );
    figures.upshift = i === gears.length - 1 ? Infinity : (gear.upshift * tyre.radius) / figures.ratio;
    return figures;
  });
}

function gearFigures(drive: Drive, ratio: number, efficiency: number, wheels: number, dragTorque: number): GearFigures {
  const figures = new GearFigures();
  figures.ratio = ratio;
  figures.efficiency = efficiency;
  figures.driving = 1 / (efficiency * ratio);
  figures.dragged = efficiency / ratio;
  figures.wheelInertia = wheels;
  figures.inertia = wheels + efficiency * elementary.pow(ratio, 2) * drive.unit.inertia;
  figures.shaftTorque = drive.shaftTorque === null ? Infinity : drive.shaftTorque / (efficiency * ratio) + dragTorque;
  figures.upshift = Infinity;
  return figures;
}

function unitFigures(figures: AxleFigures, unit: DriveUnit, pedal: number): void {
  const { table, losses, heat } = unit;
  const torque = table === null ? null : curveThrough(table.speed, table.torque);
  const { power, fall } = powerLine(unit);
  const taper = taperOf(unit, torque);
  figures.peakTorque = unit.peakTorque;
  figures.peakPower = unit.peakPower;
  figures.powerAtRest = power;
  figures.powerFall = torque === null ? fall : 0;
  figures.referenceVoltage = unit.referenceVoltage;
  figures.powerPerVolt = power / unit.referenceVoltage;
  figures.maxSpeed = unit.maxSpeed;
  figures.taperSlope = taper.slope;
  figures.taperFrom = taper.from;
  figures.copper = losses.copper;
  figures.iron = losses.iron;
  figures.windage = losses.windage;
  figures.fixed = losses.fixed;
  figures.loss = losses.map === undefined ? null : lossSurface(losses.map);
  figures.inverter = unit.inverterEfficiency;
  figures.perInverter = 1 / unit.inverterEfficiency;
  figures.pedalTorque = pedal === 1 ? Infinity : pedal * unit.peakTorque;
  if (torque !== null) figures.torque = torque;
  figures.tabled = torque !== null;
  figures.powerSpeed = torque === null ? Infinity : lastSpeedAt(0.98, torque, unit);
  figures.flatSpeed = torque === null ? 0 : lastSpeedAt(1 - 2e-4, torque, unit);
  figures.unitCapacity = heat?.capacity ?? Infinity;
  figures.unitCooling = heat?.cooling ?? 0;
  figures.unitDerate = heat?.derateAt ?? 0;
  figures.unitRange = heat?.derateRange ?? Infinity;
  figures.continuous = heat?.continuousShare ?? 1;
}

/** K of the air in which the drag of a drive's oil is stated. */
const OIL_REFERENCE = 293.15;

/** N m of a drive whose oil has the temperature of the air, K: it stays so on the short ways on which it matters. */
function oilDrag({ coldOil = 0, dragTorque }: Drive, temperature: number): number {
  return dragTorque * elementary.exp(coldOil * (OIL_REFERENCE - temperature));
}

/** What two drives have of the pack's power, and of the wheel torque where the car says so. */
function shares(figures: AxleFigures, name: AxleName, car: Car): void {
  const all = car.drives.reduce((sum, drive) => sum + drive.unit.peakPower, 0);
  figures.packShare = figures.peakPower / all;
  const split = car.drives.length === 2 ? car.frontTorqueShare : undefined;
  figures.torqueShare = split === undefined ? 0 : name === 'front' ? split : 1 - split;
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
