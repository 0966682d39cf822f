/** The figures of a car in flat blocks of numbers, as the peers in other languages take them: where each stands, and how they get there. */
import type { FollowParameters } from '../src/model/backward/load.ts';
import type { BrakingFigures } from '../src/model/backward/state.ts';
import type { AxleFigures, GearFigures } from '../src/model/forward/figures.ts';
import type { PlantParameters } from '../src/model/forward/load.ts';

/** Parameters of the whole car. */
export const P = {
  mass: 0, // kg, with people and load
  inertialMass: 1, // kg, with the undriven wheels
  transfer: 2, // N per m/s2 that moves from the front to the rear axle: m h / L
  gradeForce: 3, // N
  halfRhoCdA: 4, // N s2/m2
  dragMoment: 5, // height of drag over wheelbase
  wind: 6, // m/s from the front
  capacity: 7, // C
  series: 8,
  cellResistance: 9, // pack ohm per cell ohm
  wiring: 10, // ohm
  maxCurrent: 11, // A
  minVoltage: 12, // V
  auxiliaryPower: 13, // W at the pack
  pairs: 14, // number of RC pairs
  pair0: 15, // (ohm, s) of each pair, two numbers each
  air: 19, // K, temperature of the air
  packCapacity: 20, // J/K
  packCooling: 21, // W/K
  packDerate: 22, // K
  packRange: 23, // K over which the current falls to nothing
  packActivation: 24, // K, activation energy of the resistance over the gas constant
  shiftTime: 25, // s
  axle0: 26, // first axle block
} as const;

/** Parameters of one axle, from the start of its block. Front first, then rear. */
export const A = {
  sign: 0, // +1 rear: gains load under acceleration; -1 front
  staticLoad: 1, // N, slope included
  liftFactor: 2, // N s2/m2
  c0: 3,
  c1: 4,
  c2: 5,
  radius: 6,
  driven: 7, // 1 or 0
  peak: 8, // mu at the reference load
  loadExponent: 9,
  loadReference: 10,
  shape: 11, // C of the slip curve
  stiffness: 12, // B times the slip at the peak
  slipAtPeak: 13,
  maxShare: 14, // of the peak force that the traction policy allows
  maxStretch: 15, // slip over slip at the peak there
  ratio: 16,
  efficiency: 17,
  dragTorque: 18,
  inertia: 19, // kg m2 at the wheels, all that turns with the driven axle
  wheelInertia: 20, // kg m2, wheels, gears and shafts
  rotorInertia: 21,
  peakTorque: 22,
  peakPower: 23,
  referenceVoltage: 24,
  maxSpeed: 25,
  taperSlope: 26, // N m s/rad
  copper: 27,
  iron: 28,
  windage: 29,
  fixed: 30,
  inverter: 31,
  shaftTorque: 32, // at the motor shaft, Infinity without a limit
  pedalTorque: 33, // at the motor shaft, Infinity with the pedal down
  tabled: 34, // 1 when a torque table takes the place of the ratings
  powerSpeed: 35, // rad/s above which a table counts as power limited
  taperFrom: 36, // rad/s below which the taper is far off
  spin: 37, // 1 when the wheel speed is a state
  packShare: 38, // of the pack's power that is this axle's when both want more
  torqueShare: 39, // of the wheel torque that is this axle's, 0 where the axles are free
  unitCapacity: 40, // J/K
  unitCooling: 41, // W/K
  unitDerate: 42, // K
  unitRange: 43, // K over which the peak rating falls to the continuous one
  continuous: 44, // continuous over peak rating
  flatSpeed: 45, // rad/s up to which a torque table is flat, so that no sag of the voltage lowers it
  gears: 46, // number of gears; 0 or 1 without a gearbox
  gear0: 47, // first gear block
} as const;

/** One gear, from the start of its block in the axle's block. */
export const G = {
  ratio: 0,
  efficiency: 1,
  inertia: 2, // kg m2 at the wheels, rotor included
  wheelInertia: 3, // kg m2 at the wheels without the rotor
  shaftTorque: 4,
  upshift: 5, // m/s of the car from which the next gear takes over, Infinity in the highest
} as const;
export const GEAR_SIZE = 6;
const MAX_GEARS = 6;
export const AXLE_SIZE = A.gear0 + GEAR_SIZE * MAX_GEARS;
export const PARAMETER_COUNT = P.axle0 + 2 * AXLE_SIZE;

/** What braking and charging need, of the whole car. */
export const F = {
  maxVoltage: 0, // V of the whole pack
  maxCharge: 1, // A, positive
  coldNone: 2, // K
  coldFull: 3, // K
  pairRate: 4, // 1/s of each of two RC pairs, 0 where there is none
  pairOhm: 6, // ohm of each
  pairSiemens: 8, // 1/ohm of each, 0 where there is none
  axle0: 10,
} as const;

/** And of one axle, from the start of its block. Front first, then rear. */
export const FA = {
  torque: 0, // N m at the motor, the most it brakes with
  power: 1, // W
  fadeFrom: 2, // m/s
  fadeTo: 3,
  gripShare: 4,
  standstill: 5, // W at the terminals of the inverter
  cornerSpeed: 6, // rad/s at which peak torque and peak power meet
  perRadius: 7, // 1/m
  forward: 8, // turns of the motor per turn of the wheel and efficiency: motor over wheel torque, gears driven by the motor
  backward: 9, // the same, gears driven by the wheels
  share: 10, // of what brakes beyond coasting, that the drive is asked for
  slip: 11, // slip over share of the peak force: ten coefficients of odd powers
} as const;
export const FA_SIZE = 24;
export const F_COUNT = F.axle0 + 2 * FA_SIZE;

/** The block of a car; what an axle does not have is 0. */
export function blockOf({ car, pack, front, rear }: PlantParameters): Float64Array {
  const block = new Float64Array(PARAMETER_COUNT);
  block[P.mass] = car.mass;
  block[P.inertialMass] = car.inertialMass;
  block[P.transfer] = car.transfer;
  block[P.gradeForce] = car.gradeForce;
  block[P.halfRhoCdA] = car.halfRhoCdA;
  block[P.dragMoment] = car.dragMoment;
  block[P.wind] = car.wind;
  block[P.air] = car.air;
  block[P.shiftTime] = car.shiftTime;
  block[P.auxiliaryPower] = car.auxiliaryPower;
  block[P.capacity] = pack.capacity;
  block[P.series] = pack.series;
  block[P.cellResistance] = pack.perCell;
  block[P.wiring] = pack.wiring;
  block[P.maxCurrent] = pack.maxCurrent;
  block[P.minVoltage] = pack.minVoltage;
  block[P.pairs] = pack.pairs;
  const pairs = [pack.ohm1, pack.ohm1 * pack.farad1, pack.ohm2, pack.ohm2 * pack.farad2];
  block.set(pairs.slice(0, 2 * pack.pairs), P.pair0);
  block[P.packCapacity] = pack.heatCapacity;
  block[P.packCooling] = pack.cooling;
  block[P.packDerate] = pack.derateAt;
  block[P.packRange] = pack.derateRange;
  block[P.packActivation] = pack.activation;
  axleBlock(block, P.axle0, front);
  axleBlock(block, P.axle0 + AXLE_SIZE, rear);
  return block;
}

type AxleNumber = {
  [key in keyof typeof A & keyof AxleFigures]: AxleFigures[key] extends number ? key : never;
}[keyof typeof A & keyof AxleFigures];

const AXLE_NUMBERS: readonly AxleNumber[] = [
  'sign',
  'staticLoad',
  'liftFactor',
  'c0',
  'c1',
  'c2',
  'radius',
  'peak',
  'loadExponent',
  'loadReference',
  'shape',
  'stiffness',
  'slipAtPeak',
  'maxShare',
  'maxStretch',
  'dragTorque',
  'rotorInertia',
  'peakTorque',
  'peakPower',
  'referenceVoltage',
  'maxSpeed',
  'taperSlope',
  'copper',
  'iron',
  'windage',
  'fixed',
  'inverter',
  'pedalTorque',
  'powerSpeed',
  'taperFrom',
  'packShare',
  'torqueShare',
  'unitCapacity',
  'unitCooling',
  'unitDerate',
  'unitRange',
  'continuous',
  'flatSpeed',
];

function axleBlock(block: Float64Array, o: number, axle: AxleFigures): void {
  for (const key of AXLE_NUMBERS) block[o + A[key]] = axle.driven || !Number.isNaN(axle[key]) ? axle[key] : 0;
  if (!axle.driven) return;
  block[o + A.driven] = 1;
  block[o + A.tabled] = axle.tabled ? 1 : 0;
  block[o + A.spin] = axle.spin ? 1 : 0;
  const [first] = axle.gears;
  if (first !== undefined) gearBlock(block, o, first);
  if (axle.gears.length < 2) return;
  block[o + A.gears] = axle.gears.length;
  axle.gears.forEach((gear, i) => {
    const g = o + A.gear0 + i * GEAR_SIZE;
    block.set(
      [gear.ratio, gear.efficiency, gear.inertia, gear.wheelInertia, gear.shaftTorque, gear.upshift],
      g + G.ratio,
    );
  });
}

/** The figures of the gear in use, in the axle's own places. */
function gearBlock(block: Float64Array, o: number, gear: GearFigures): void {
  block[o + A.ratio] = gear.ratio;
  block[o + A.efficiency] = gear.efficiency;
  block[o + A.inertia] = gear.inertia;
  block[o + A.wheelInertia] = gear.wheelInertia;
  block[o + A.shaftTorque] = gear.shaftTorque;
}

/** The block beside it. */
export function followBlockOf({ pack, front, rear, brakingFront, brakingRear }: FollowParameters): Float64Array {
  const block = new Float64Array(F_COUNT);
  block[F.maxVoltage] = pack.maxVoltage;
  block[F.maxCharge] = pack.maxChargeCurrent;
  block[F.coldNone] = pack.coldNone;
  block[F.coldFull] = pack.coldFull;
  [
    [pack.ohm1, pack.ohm1 * pack.farad1],
    [pack.ohm2, pack.ohm2 * pack.farad2],
  ].forEach(([ohm = 0, time = 0], i) => {
    if (i >= pack.pairs) return;
    block[F.pairRate + i] = 1 / time;
    block[F.pairOhm + i] = ohm;
    block[F.pairSiemens + i] = 1 / ohm;
  });
  if (front.driven) sideBlock(block, F.axle0, front, brakingFront);
  if (rear.driven) sideBlock(block, F.axle0 + FA_SIZE, rear, brakingRear);
  return block;
}

function sideBlock(block: Float64Array, g: number, axle: AxleFigures, braking: BrakingFigures): void {
  const [gear] = axle.gears;
  for (const key of [
    'torque',
    'power',
    'fadeFrom',
    'fadeTo',
    'gripShare',
    'standstill',
    'cornerSpeed',
    'share',
  ] as const) {
    block[g + FA[key]] = braking[key];
  }
  block[g + FA.perRadius] = 1 / axle.radius;
  block[g + FA.forward] = gear?.driving ?? Number.NaN;
  block[g + FA.backward] = gear?.dragged ?? Number.NaN;
  const { slip1, slip3, slip5, slip7, slip9, slip11, slip13, slip15, slip17, slip19 } = braking;
  block.set([slip1, slip3, slip5, slip7, slip9, slip11, slip13, slip15, slip17, slip19], g + FA.slip);
}

/** JSON has no infinity; nothing that a car does comes near these. */
export function finite(list: ArrayLike<number>): number[] {
  return Array.from(list, x => (Number.isFinite(x) ? x : Math.sign(x) * 1e30));
}
