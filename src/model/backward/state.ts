/**
 * Where each number stands in the blocks of a car that follows a schedule, beside those of `plant-layout.ts`: what only
 * braking, charging and standing need.
 */

/** Parameters of the whole car. */
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

/** Parameters of one axle, from the start of its block. Front first, then rear. */
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
  share: 10, // of the braking force that the drive is asked for
  slip: 11, // slip over share of the peak force: ten coefficients of odd powers
} as const;
export const FA_SIZE = 24;
export const F_COUNT = F.axle0 + 2 * FA_SIZE;

/** What `demand` finds, for the whole car: powers in W. */
export const D = {
  power: 0, // at the terminals of the pack
  unitHeat: 1,
  gearHeat: 2,
  spinUp: 3,
  slip: 4,
  rolling: 5,
  drag: 6,
  grade: 7,
  brakes: 8,
  auxiliaries: 9,
  force: 10, // N that moves the car, rolling resistance included, before brakes
  speed: 11, // m/s, given
  acceleration: 12, // m/s2, given
  limit: 13, // W that the pack takes at most, positive, given
  axle0: 14,
} as const;

/** The powers from `D.power` on that a schedule sums up. */
export const SUM_COUNT = 10;

/** What it finds for one axle. */
export const DA = {
  load: 0, // N
  roll: 1, // N
  torque: 2, // N m at the motor shaft
  motorSpeed: 3, // rad/s
  power: 4, // W at the inverter's terminals
  heat: 5, // W of motor and inverter
  force: 6, // N at the contact patch by the drive
  grip: 7, // N, peak friction times load
  asked: 8, // N at this axle, own rolling resistance included
  held: 9, // W at the inverter's terminals where the pack holds the axle back, Infinity where it does not
  anchorLoad: 10, // N, load at which the friction was last taken to a power
  anchorFriction: 11, // friction there
  moment: 12, // N m at the wheels; its sign decides `GEARS_BACK`
  both: 13, // W, shaft and losses; its sign decides `UNIT_BACK`
  spare: 14, // N m between the torque and what the drive brakes with at most, Infinity where it does not brake
} as const;
export const DA_SIZE = 16;
export const D_COUNT = D.axle0 + 2 * DA_SIZE;

/** Bits of an axle while the car follows: within one setting of them every power is smooth. */
export const GEARS_BACK = 1; // the wheels turn the gears
export const UNIT_BACK = 2; // the inverter gives power back
export const CORNER = 4; // past the corner speed of the drive unit
export const KIND_SHIFT = 3; // then three bits: what limits the force of this axle

/** What limits the force of an axle. */
export const KIND = {
  none: 0,
  torque: 1,
  power: 2,
  fadingTorque: 3,
  fadingPower: 4,
  off: 5,
  grip: 6,
  pack: 7,
} as const;
/** The car is braked: the drive gets its share of that only. */
export const BRAKED = 64;
export const FOLLOW_BITS = 127;
export const FOLLOW_SHIFT = 7;
/** Both axles' bits are below; the car can not follow. */
export const BEYOND = 1 << 14;
/** It stands, and is meant to. */
export const STANDS = 1 << 15;
