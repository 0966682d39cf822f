/**
 * A car, its tyres and its drives as the forward model takes them: figures that do not change while it is driven, and may be shared.
 * Classes of plain fields that are never added to: to the engine each is one shape, and its numbers are doubles from the first
 * (NaN in place of 0, so that a field that nobody fills shows).
 */
import type { LossSurface } from '../drive/efficiency-map.ts';
import type { Curve } from '../tables/curve.ts';

/** The whole car, its road and its air. */
export class CarFigures {
  /** kg, with people, load and trailer. */
  mass = Number.NaN;
  /** kg, with the undriven wheels. */
  inertialMass = Number.NaN;
  /** N per m/s2 that moves from the front to the rear axle: m h / L, and for a trailer its mass times the height of the hitch over L. */
  transfer = Number.NaN;
  /** N s2/m2 and N of a trailer: its drag, and its rolling resistance on a level road and on this slope. */
  towedDrag = Number.NaN;
  towedLevel = Number.NaN;
  towedRoll = Number.NaN;
  /** Height of the hitch over wheelbase. */
  hitchLever = Number.NaN;
  /** rad by which the road rises, and N by which it pulls backwards. */
  angle = Number.NaN;
  gradeForce = Number.NaN;
  /** kg/m3, half of the density of the air. */
  halfRho = Number.NaN;
  /** N s2/m2. */
  halfRhoCdA = Number.NaN;
  /** Height of drag over wheelbase. */
  dragMoment = Number.NaN;
  /** m/s from the front. */
  wind = Number.NaN;
  /** K, temperature of the air. */
  air = Number.NaN;
  /** W at the pack. */
  auxiliaryPower = Number.NaN;
  /** s. */
  shiftTime = Number.NaN;
}

/** A gear of a drive; the only one, where the ratio is fixed. */
export class GearFigures {
  /** Motor turns per wheel turn. */
  ratio = Number.NaN;
  efficiency = Number.NaN;
  /** kg m2 at the wheels, all that turns with the driven axle. */
  inertia = Number.NaN;
  /** kg m2 at the wheels without the rotor: wheels, gears and shafts. */
  wheelInertia = Number.NaN;
  /** Motor torque over wheel torque, where the motor turns the gears and where the wheels do. */
  driving = Number.NaN;
  dragged = Number.NaN;
  /** N m at the motor shaft, Infinity without a limit. */
  shaftTorque = Number.NaN;
  /** m/s of the car from which the next gear takes over, Infinity in the highest. */
  upshift = Number.NaN;
}

export const NO_CURVE: Curve = new Float64Array(5);
const NO_LIMITS = new Int32Array(0);
export const NO_GEAR = new GearFigures();
const NO_GEARS: readonly GearFigures[] = [NO_GEAR];

/** An axle with its tyres, and its drive where it has one. */
export class AxleFigures {
  /** +1 rear: gains load under acceleration; -1 front. */
  sign = Number.NaN;
  /** N on a level road, and on this slope. */
  levelLoad = Number.NaN;
  staticLoad = Number.NaN;
  /** N s2/m2. */
  liftFactor = Number.NaN;
  /** Rolling resistance: c0 + c1 v + c2 v^2. */
  c0 = Number.NaN;
  c1 = Number.NaN;
  c2 = Number.NaN;
  /** N of bearings and brakes, at the tread. */
  hubDrag = Number.NaN;
  /** m, and 1/m. */
  radius = Number.NaN;
  perRadius = Number.NaN;
  /** mu at the reference load. */
  peak = Number.NaN;
  loadExponent = Number.NaN;
  /** N. */
  loadReference = Number.NaN;
  /** Of a live axle, see `TyreFriction`. */
  unloading = Number.NaN;
  /** C of the slip curve. */
  shape = Number.NaN;
  /** B times the slip at the peak. */
  stiffness = Number.NaN;
  slipAtPeak = Number.NaN;
  /** Of the peak force that the traction policy allows, and slip over slip at the peak there. */
  maxShare = Number.NaN;
  maxStretch = Number.NaN;
  /** N m at the motor shaft. */
  dragTorque = Number.NaN;
  /** kg m2. */
  rotorInertia = Number.NaN;
  peakTorque = Number.NaN;
  peakPower = Number.NaN;
  /** T = powerAtRest / w - powerFall: the torque that the power leaves, see `drive/field-weakening.ts`. W and N m. */
  powerAtRest = Number.NaN;
  powerFall = Number.NaN;
  referenceVoltage = Number.NaN;
  /** W/V, `powerAtRest` over `referenceVoltage`. */
  powerPerVolt = Number.NaN;
  maxSpeed = Number.NaN;
  /** N m s/rad, and rad/s below which the taper is far off. */
  taperSlope = Number.NaN;
  taperFrom = Number.NaN;
  /** Loss in W = copper T^2 + iron w + windage w^3 + fixed. */
  copper = Number.NaN;
  iron = Number.NaN;
  windage = Number.NaN;
  fixed = Number.NaN;
  /** Efficiency of the inverter. */
  inverter = Number.NaN;
  perInverter = Number.NaN;
  /** N m at the motor shaft, Infinity with the pedal down. */
  pedalTorque = Number.NaN;
  /** N m/s by which the torque grows from when the pedal goes down, Infinity where it is there at once. */
  torqueGrowth = Number.NaN;
  /** rad/s above which a torque table counts as power limited. */
  powerSpeed = Number.NaN;
  /** rad/s up to which a torque table is flat, so that no sag of the voltage lowers it. */
  flatSpeed = Number.NaN;
  /** Of the pack's power that is this axle's when both want more. */
  packShare = Number.NaN;
  /** Of the wheel torque that is this axle's, 0 where the axles are free. */
  torqueShare = Number.NaN;
  /** J/K and W/K. */
  unitCapacity = Number.NaN;
  unitCooling = Number.NaN;
  /** K from which, and over which, the peak rating falls to the continuous one. */
  unitDerate = Number.NaN;
  unitRange = Number.NaN;
  /** Continuous over peak rating. */
  continuous = Number.NaN;
  driven = false;
  /** A torque table takes the place of the ratings. */
  tabled = false;
  /** The wheel speed is a state. */
  spin = false;
  /** N m over rad/s; of no meaning without a table. */
  torque: Curve = NO_CURVE;
  /** Measured losses in place of the formula. */
  loss: LossSurface | null = null;
  /** First gear first. */
  gears: readonly GearFigures[] = NO_GEARS;
  /** The limits that can come into force. */
  used: Int32Array = NO_LIMITS;
}
