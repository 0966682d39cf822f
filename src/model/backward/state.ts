/**
 * What a car that follows a schedule is asked for, and what it takes: as in the forward model classes of plain fields that are never
 * added to. Forces, torques, speeds and powers of an axle stand in the instants of the forward model (`AxleNow`).
 */
import { AxleFigures } from '../forward/figures.ts';
import { AxleNow, Moving, Places } from '../forward/instant.ts';
import { DrivenPack } from './pack-step.ts';

/** What a drive brakes with, and what it draws at rest. */
export class BrakingFigures {
  /** N m at the motor, the most it brakes with, and W. */
  torque = Number.NaN;
  power = Number.NaN;
  /** m/s. */
  fadeFrom = Number.NaN;
  fadeTo = Number.NaN;
  /** Of the grip of its axle that it may use. */
  gripShare = Number.NaN;
  /** Of the braking force that the drive is asked for. */
  share = Number.NaN;
  /** W at the terminals of the inverter at rest. */
  standstill = Number.NaN;
  /** rad/s at which peak torque and peak power of the unit meet. */
  cornerSpeed = Number.NaN;
  /** Slip over share of the peak force: coefficients of its odd powers. */
  slip1 = Number.NaN;
  slip3 = Number.NaN;
  slip5 = Number.NaN;
  slip7 = Number.NaN;
  slip9 = Number.NaN;
  slip11 = Number.NaN;
  slip13 = Number.NaN;
  slip15 = Number.NaN;
  slip17 = Number.NaN;
  slip19 = Number.NaN;
}

/** What a schedule asks of an axle. */
export class Side {
  axle = new AxleFigures();
  braking = new BrakingFigures();
  readonly at: AxleNow;
  /** N at this axle, own rolling resistance included. */
  asked = Number.NaN;
  /** N below which it is braked, see `coastingForce`. */
  coasting = Number.NaN;
  /** W at the inverter's terminals where the pack holds the axle back, Infinity where it does not. */
  held = Number.NaN;
  /** W at the inverter's terminals if the pack took all that comes back; of a car that nobody brakes. */
  unheld = Number.NaN;
  /**
   * Where the pack takes less than all: how far this drive brakes harder than gives most, of its speed squared, if it took all; not above
   * nothing where it does not, or where no torque would give anything.
   */
  overdone = Number.NaN;
  /** N of its rolling resistance. */
  roll = Number.NaN;
  /** N m at the wheels; its sign decides `GEARS_BACK`. */
  moment = Number.NaN;
  /** W, shaft and losses; its sign decides `UNIT_BACK`. */
  both = Number.NaN;
  /** N m between the torque and what the drive brakes with at most, Infinity where it does not brake. */
  spare = Number.NaN;
  /** N m at the motor shaft that speeds up the rotor. */
  rotor = Number.NaN;
  /** The wheels turn the gears. */
  back = false;

  constructor(at: AxleNow) {
    this.at = at;
  }
}

/** Powers in W, or the energies in J that they add up to. */
export class Powers {
  /** At the terminals of the pack. */
  power = 0;
  /** Motor and inverter. */
  unitHeat = 0;
  gearHeat = 0;
  /** Into what turns. */
  spinUp = 0;
  slip = 0;
  rolling = 0;
  drag = 0;
  grade = 0;
  brakes = 0;
  /** Consumers and cabin. */
  auxiliaries = 0;
}

/** How many there are, for solvers. */
export const POWER_COUNT = 10;

export function clearPowers(powers: Powers): void {
  copyPowers(NONE, powers);
}

const NONE = new Powers();

export function copyPowers(from: Powers, to: Powers): void {
  to.power = from.power;
  to.unitHeat = from.unitHeat;
  to.gearHeat = from.gearHeat;
  to.spinUp = from.spinUp;
  to.slip = from.slip;
  to.rolling = from.rolling;
  to.drag = from.drag;
  to.grade = from.grade;
  to.brakes = from.brakes;
  to.auxiliaries = from.auxiliaries;
}

/** Adds powers that last so many seconds. */
export function addPowers(sums: Powers, powers: Powers, seconds: number): void {
  sums.power += seconds * powers.power;
  sums.unitHeat += seconds * powers.unitHeat;
  sums.gearHeat += seconds * powers.gearHeat;
  sums.spinUp += seconds * powers.spinUp;
  sums.slip += seconds * powers.slip;
  sums.rolling += seconds * powers.rolling;
  sums.drag += seconds * powers.drag;
  sums.grade += seconds * powers.grade;
  sums.brakes += seconds * powers.brakes;
  sums.auxiliaries += seconds * powers.auxiliaries;
}

/** Adds the powers of two points, each for half of a span in s. */
export function addBoth(sums: Powers, first: Powers, second: Powers, { span }: DrivenPack): void {
  const seconds = 0.5 * span;
  sums.power += seconds * (first.power + second.power);
  sums.unitHeat += seconds * (first.unitHeat + second.unitHeat);
  sums.gearHeat += seconds * (first.gearHeat + second.gearHeat);
  sums.spinUp += seconds * (first.spinUp + second.spinUp);
  sums.slip += seconds * (first.slip + second.slip);
  sums.rolling += seconds * (first.rolling + second.rolling);
  sums.drag += seconds * (first.drag + second.drag);
  sums.grade += seconds * (first.grade + second.grade);
  sums.brakes += seconds * (first.brakes + second.brakes);
  sums.auxiliaries += seconds * (first.auxiliaries + second.auxiliaries);
}

/** Into a row of a solver from `start` on, in the order of the class. */
export function powersToRow(powers: Powers, row: Float64Array, start: number): void {
  row[start] = powers.power;
  row[start + 1] = powers.unitHeat;
  row[start + 2] = powers.gearHeat;
  row[start + 3] = powers.spinUp;
  row[start + 4] = powers.slip;
  row[start + 5] = powers.rolling;
  row[start + 6] = powers.drag;
  row[start + 7] = powers.grade;
  row[start + 8] = powers.brakes;
  row[start + 9] = powers.auxiliaries;
}

/** Back from such a row, from its beginning. */
export function powersOfRow(row: Float64Array, powers: Powers): void {
  const at = (i: number): number => row[i] ?? Number.NaN;
  powers.power = at(0);
  powers.unitHeat = at(1);
  powers.gearHeat = at(2);
  powers.spinUp = at(3);
  powers.slip = at(4);
  powers.rolling = at(5);
  powers.drag = at(6);
  powers.grade = at(7);
  powers.brakes = at(8);
  powers.auxiliaries = at(9);
}

/** A car that follows a schedule. */
export class Following {
  readonly pack = new DrivenPack();
  /** Its own figures: slope and consumers change along a schedule. */
  readonly moving = new Moving(new Places(), new Float64Array(0), new Float64Array(0), this.pack);
  readonly front = new Side(this.moving.atFront);
  readonly rear = new Side(this.moving.atRear);
  /** What `demand` finds. */
  readonly powers = new Powers();
  /** m/s and m/s2, given. */
  speed = Number.NaN;
  acceleration = Number.NaN;
  /** W that the pack takes at most, positive, given. */
  limit = Number.NaN;
  /** N that moves the car, rolling resistance included, before brakes. */
  force = Number.NaN;
  /** m/s that is looked at for the speed of the motors, given: their torque may fall steeply. 0: at a speed that they have come to by themselves. */
  fastest = Number.NaN;
  /** W that the pack could take beyond what comes back, if it took it all; negative where it holds that back. */
  over = Number.NaN;
  /** N that the drives could add to what they are asked for; not a number where they are far from every limit. */
  room = Number.NaN;
  /** Since it was last set to true, neither pack nor heat came close to limiting what was asked. */
  freely = true;
  /** V under load that the drives take for what was asked of them close to limits of their own, the most since it was last set to 0. */
  volts = Number.NaN;
  /** Of a car that nobody brakes, if the pack took all that comes back: W at the terminals, and its acceleration, m/s2. */
  unheld = Number.NaN;
  freed = Number.NaN;
}

/** Bits of an axle while the car follows: within one setting of them every power is smooth. */
export const GEARS_BACK = 1; // the wheels turn the gears
export const UNIT_BACK = 2; // the inverter gives power back
export const CORNER = 4; // past the corner speed of the drive unit
export const KIND_SHIFT = 3; // then three bits: what limits the force of this axle
export const KIND_BITS = 7;

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
/** The axle is braked: the drive gets its share of that only. */
export const BRAKED = 64;
const FOLLOW_BITS = 127;
export const FOLLOW_SHIFT = 7;
/** Both axles' bits are below; the car can not follow. */
export const BEYOND = 1 << 14;
/** A drive unit would be turned faster than it may. */
export const OVER = 1 << 16;
/** It stands, and is meant to. */
export const STANDS = 1 << 15;
/** The pack is charged, and loses a share of what comes in. */
export const CHARGES = 1 << 17;
/** It gives, or takes, more than it does for ever. */
export const SPENDS = 1 << 18;
export const SPENDS_CHARGE = 1 << 19;
/** What turns and what is switched on take more than the pack gives. */
export const STARVED = 1 << 20;

/** Decide the bits of an axle from its forces, in place of keeping those that are given. */
export const DECIDE = -1;

/** What limits an axle, of its bits. */
export function kindOf(bits: number): number {
  return (bits >> KIND_SHIFT) & KIND_BITS;
}

/** The bits of an axle, 0 front, 1 rear; `DECIDE` stays what it is. */
export function sideBits(bits: number, axle: number): number {
  return bits === DECIDE ? DECIDE : (bits >> (axle * FOLLOW_SHIFT)) & FOLLOW_BITS;
}

/** Whether the pack holds an axle back. @param bits of both. */
export function heldByPack(bits: number): boolean {
  return kindOf(bits) === KIND.pack || kindOf(bits >> FOLLOW_SHIFT) === KIND.pack;
}
