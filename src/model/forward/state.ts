/**
 * Where each number stands in the blocks that the plant works on. One flat block of parameters and one of scratch memory
 * keep the innermost loop free of objects: a right-hand side on objects with as many fields runs several times slower.
 */

/** States of the plant; the RC voltages follow from `RC` on, then temperatures, then the wheel speeds of spinning axles. */
export const SPEED = 0;
export const DISTANCE = 1;
export const CHARGE = 2;
export const RC = 3;

/** Quadratures, J, counted from the first quadrature. */
export const QUADRATURES = [
  'chemical', // open-circuit voltage times current
  'packHeat', // ohmic and polarisation
  'unitHeat', // motor and inverter
  'gearHeat', // gears and shafts
  'spinUp', // into the rotating parts of the driven axles
  'slip', // at the contact patches
  'rolling',
  'drag',
  'grade',
  'auxiliaries', // dc-dc converter included
  'withheld', // what the drive units could have given at the shaft while grip held them back
] as const;
export const QUADRATURE_COUNT = QUADRATURES.length;

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
export const MAX_GEARS = 6;
export const AXLE_SIZE = A.gear0 + GEAR_SIZE * MAX_GEARS;
export const PARAMETER_COUNT = P.axle0 + 2 * AXLE_SIZE;

/** What the last call of `rates` found, for the whole car. */
export const W = {
  emf: 0, // V, open circuit less polarisation
  resistance: 1, // ohm
  acceleration: 2, // m/s2
  busPower: 3, // W
  current: 4, // A
  voltage: 5, // V
  drag: 6, // N
  packTemperature: 7, // K
  shiftEnd: 8, // s, when the torque comes back
  axle0: 9,
} as const;

/** What it found for one axle, from the start of its block. */
export const B = {
  load: 0, // N
  force: 1, // N at the contact patch, forwards
  stretch: 2, // slip over slip at the peak; kept as the first guess of the next call
  slip: 3,
  motorSpeed: 4, // rad/s
  torque: 5, // N m at the motor shaft
  available: 6, // N m that the drive could give at this motor speed
  grip: 7, // N, peak friction times load
  unloaded: 8, // N, load at no acceleration
  rolling: 9, // coefficient
  wheelSpeed: 10, // rad/s
  wheelSpin: 11, // rad/s2
  slipSpeed: 12, // m/s at the contact patch
  power: 13, // W at the inverter's terminals
  otherPower: 14, // W of the other axle's inverter
  otherAtPack: 15, // 1 when the other axle is held back by the pack
  otherWheel: 16, // N m at the other axle's wheels
  temperature: 17, // K of the drive unit
  limit: 18, // N m, answer of `limit`
  limitSlope: 19, // its derivative after motor speed
  anchorLoad: 20, // N, load at which the friction was last taken to a power
  anchorFriction: 21, // friction there
  low: 22, // bracket of the slip iteration
  high: 23,
  tangent: 24, // slope and intercept of force over load, or wheel force and inertia, within one pass
  intercept: 25,
  otherFollows: 26, // 1 when the other axle keeps its share to the torque of this one
  stretchSpeed: 27, // m/s at which `stretch` was found, and how it went with speed there
  stretchSlope: 28,
  share: 29, // of the peak force at the slip asked for last, its slope and its bend
  shareSlope: 30,
  shareBend: 31,
  center: 32, // slip times stiffness about which `series` runs
  series: 33, // seven coefficients
} as const;
export const AXLE_SCRATCH = 40;
export const SCRATCH_COUNT = W.axle0 + 2 * AXLE_SCRATCH;

/** What can set the torque of a drive. */
export const L = {
  torque: 1,
  power: 2,
  busVoltage: 3,
  speed: 4,
  minVoltage: 5,
  current: 6,
  shaft: 7,
  pedal: 8,
  heatTorque: 9,
  heatPower: 10,
  packHeat: 11,
  split: 12,
} as const;
export const LIMIT_COUNT = 12;

/**
 * A mode is one number: six bits for the front axle, six for the rear, three for the gear (0 is the first), one for the
 * break in the torque while a gear is changed. The bits of an axle are 0 when it is not driven; else the limit in force, plus
 * `GRIP` when grip comes before it, or `SLIDE` when its wheels spin past the peak of friction.
 */
export const GRIP = 16;
export const SLIDE = 32;
export const AXLE_BITS = 63;
export const REAR_SHIFT = 6;
export const GEAR_SHIFT = 12;
export const GEAR_BITS = 7;
export const BREAK = 1 << 15;

/** Bits of an axle in a mode: 0 front, 1 rear. */
export function axleMode(mode: number, axle: number): number {
  return (mode >> (REAR_SHIFT * axle)) & AXLE_BITS;
}

/** The mode with other bits for an axle. */
export function withAxleMode(mode: number, axle: number, bits: number): number {
  return (mode & ~(AXLE_BITS << (REAR_SHIFT * axle))) | (bits << (REAR_SHIFT * axle));
}

/** Whether a driven axle is at its grip limit, or its wheels spin past it. */
export function atGrip(mode: number): boolean {
  return (mode & (GRIP | SLIDE | ((GRIP | SLIDE) << REAR_SHIFT))) !== 0;
}

/** Gear of a mode, 0 for the first. */
export function gearOf(mode: number): number {
  return (mode >> GEAR_SHIFT) & GEAR_BITS;
}
