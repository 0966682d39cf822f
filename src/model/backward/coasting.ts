/**
 * A car with the foot off the pedal as a switched system: its acceleration is the one at which road and drives are in balance on the
 * backward model, whose drives brake with all that they may or, out of gear and without regeneration, with what drags in them.
 */
import * as elementary from '../../elementary.ts';
import type { SwitchedSystem } from '../../solvers/system.ts';
import { brakingTorque, brakingKind } from './braking.ts';
import { torqueAtGrip } from './axle.ts';
import { release, releaseAtLimit, unmatched } from './demand.ts';
import { drivenPackAt, forgetStretch, packRates } from './pack-step.ts';
import { GearFigures } from '../forward/figures.ts';
import { takeFigures } from './load.ts';
import type { FollowParameters } from './load.ts';
import {
  BrakingFigures,
  CHARGES,
  DECIDE,
  FOLLOW_SHIFT,
  Following,
  GEARS_BACK,
  heldByPack,
  KIND,
  kindOf,
  POWER_COUNT,
  powersToRow,
  sideBits,
  SPENDS_CHARGE,
  UNIT_BACK,
} from './state.ts';
import type { Side } from './state.ts';
import { polarisationEnergy } from '../pack/state.ts';

/** States. */
export const COAST = { speed: 0, distance: 1, charge: 2, pair1: 3, pair2: 4, temperature: 5, spent: 6 } as const;
const STATES = 7;

/** Quadratures after those of `Powers`, J: lost in the pack, out of its cells, into them, and into its terminals. */
export const COAST_ENERGY = {
  packHeat: POWER_COUNT,
  cellsOut: POWER_COUNT + 1,
  cellsIn: POWER_COUNT + 2,
  intoPack: POWER_COUNT + 3,
} as const;
const QUADRATURES = POWER_COUNT + 4;

/** Bits beside those of a car that follows a schedule: the pack is full, and its budget of charge current is spent, to the end. */
const FULL = 1 << 20;
const SPENT = 1 << 21;

/** Guards of an axle, and those of the car after both. */
const G = { gears: 0, unit: 1, corner: 2, fade: 3, grip: 4, pushes: 5, gives: 6 } as const;
const OF_AXLE = 7;
const CAR = { pack: 14, full: 15, spent: 16, spends: 17, charges: 18, settled: 19 } as const;
const GUARDS = 20;

/** Of a guard: a crossing is past when it is by more than round-off. */
const TIE = 1e-9;
/** Where both sides are the same at the crossing, and each is found by iteration. */
const LOOSE = 1e-6;

/** m/s2: a car that slows down by less does not slow down. A kilometre an hour takes 46 minutes then. Common practice, no source. */
const SETTLED = 1e-4;

/** State of charge next to a full pack. */
const ALMOST = 1 - Number.EPSILON;

/** Of an acceleration, m/s2, that it is found to. */
const FOUND = 1e-13;
const MOST_PASSES = 40;

export interface CoastingCar extends SwitchedSystem {
  /** What the last call of `rates` found. */
  readonly following: Following;
  initial(speed: number): Float64Array;
  /** The mode at these states; -1 where the car does not slow down there. */
  modeAt(y: Float64Array): number;
  /** J in the RC pairs. */
  polarisationEnergy(y: ArrayLike<number>): number;
}

/**
 * @param gear 0 is the first; null: a gearbox is out of gear. A drive of one ratio has no other.
 * @param lift share of what a drive brakes with at most that it is asked for; 0: it turns along without torque.
 */
export function coastingCar(parameters: FollowParameters, gear: number | null, lift: number): CoastingCar {
  const f = new Following();
  takeFigures(f, parameters);
  for (const each of [f.front, f.rear]) {
    engage(each, gear);
    each.braking = liftedFoot(each.braking, lift);
  }
  f.acceleration = 0;
  f.pack.air = parameters.car.air;
  f.powers.auxiliaries = parameters.car.auxiliaryPower;
  forgetStretch(f.pack);
  const scales = new Float64Array(STATES + QUADRATURES).fill(1);
  scales[COAST.charge] = 0.01;
  scales[COAST.temperature] = 100;
  scales.fill(100, STATES);
  return {
    states: STATES,
    quadratures: QUADRATURES,
    guards: GUARDS,
    scales,
    following: f,
    rates: (mode, y, out) => rates(f, mode, y, out),
    guard: (mode, y, out) => guard(f, mode, y, out),
    switched: (mode, fired, y) => next(f, mode, fired, y),
    initial(speed) {
      const y = new Float64Array(STATES + 1);
      y[COAST.speed] = speed;
      y[COAST.charge] = parameters.charge;
      y[COAST.temperature] = parameters.soaked;
      return y;
    },
    modeAt(y) {
      const mode = decide(f, y, at(y, COAST.charge) >= 1 ? FULL : 0);
      return f.acceleration < -SETTLED ? mode : -1;
    },
    polarisationEnergy: y => polarisationEnergy(f.moving.pack, at(y, COAST.pair1), at(y, COAST.pair2)),
  };
}

function at(y: ArrayLike<number>, state: number): number {
  return y[state] ?? Number.NaN;
}

/** The brake pedal divides what it asks for; the foot off the other one asks the drive alone. */
function liftedFoot(braking: BrakingFigures, lift: number): BrakingFigures {
  const share = braking.share > 0 && lift > 0 ? 1 : 0;
  return Object.assign(new BrakingFigures(), braking, {
    torque: lift * braking.torque,
    power: lift * braking.power,
    share,
  });
}

/** Puts a gear in, or the gearbox out of gear: then nothing before it turns. */
function engage({ axle, at: now }: Side, gear: number | null): void {
  if (!axle.driven || axle.gears.length === 1) return;
  const engaged = axle.gears[gear ?? 0] ?? now.gear;
  if (gear !== null) {
    now.gear = engaged;
    return;
  }
  const loose = { ratio: 0, driving: 0, dragged: 0, inertia: engaged.wheelInertia };
  now.gear = Object.assign(new GearFigures(), engaged, loose);
  axle.dragTorque = 0;
}

function next(f: Following, mode: number, fired: number, y: Float64Array): number {
  if (fired === CAR.settled) return -1;
  const axle = fired < OF_AXLE ? 0 : 1;
  const own = fired - axle * OF_AXLE;
  // Which way power goes is known from the crossing; forces that are nothing there would tell it by their round-off.
  if (fired < CAR.pack && own === G.gears) return mode ^ (GEARS_BACK << (axle * FOLLOW_SHIFT));
  if (fired < CAR.pack && own === G.unit) return mode ^ (UNIT_BACK << (axle * FOLLOW_SHIFT));
  if (fired === CAR.charges) return mode ^ CHARGES;
  const found = decide(f, y, lasting(mode, fired));
  return f.acceleration < -SETTLED ? found : -1;
}

/** What holds from here to the end of the run. */
function lasting(mode: number, fired: number): number {
  return (mode & (FULL | SPENT)) | (fired === CAR.full ? FULL : 0) | (fired === CAR.spent ? SPENT : 0);
}

function put(f: Following, mode: number, y: Float64Array): void {
  const { pack } = f;
  f.speed = at(y, COAST.speed);
  // What a full pack takes falls to nothing at once: not before that is told by the guard.
  pack.charge = (mode & FULL) === 0 ? Math.min(at(y, COAST.charge), ALMOST) : at(y, COAST.charge);
  pack.pair1 = at(y, COAST.pair1);
  pack.pair2 = at(y, COAST.pair2);
  pack.temperature = at(y, COAST.temperature);
  pack.spentCharge = (mode & SPENT) === 0 ? 0 : 1;
  drivenPackAt(f.moving.pack, pack);
  f.limit = (mode & FULL) === 0 ? pack.limit : 0;
}

function rates(f: Following, mode: number, y: Float64Array, out: Float64Array): void {
  put(f, mode, y);
  settle(f, mode);
  const { pack, powers } = f;
  packRates(f.moving.pack, pack, powers.power, out);
  // They stand in the order of the pack's own states.
  for (let i = 3; i >= 0; i--) out[COAST.charge + i] = at(out, i);
  out[COAST.speed] = f.acceleration;
  out[COAST.distance] = f.speed;
  out[COAST.spent] = (mode & SPENDS_CHARGE) === 0 ? 0 : pack.chargeSpending;
  powersToRow(powers, out, STATES);
  out[STATES + COAST_ENERGY.packHeat] = pack.lost;
  out[STATES + COAST_ENERGY.cellsOut] = (mode & CHARGES) === 0 ? pack.chemical : 0;
  out[STATES + COAST_ENERGY.cellsIn] = (mode & CHARGES) === 0 ? 0 : -pack.chemical;
  out[STATES + COAST_ENERGY.intoPack] = (mode & CHARGES) === 0 ? 0 : -powers.power;
}

/**
 * Finds the acceleration. The pack holds back what it would not take if the car slowed down as it would then: a drive that brakes hard
 * may give less than one that brakes less, for what it loses, so it does not go by the acceleration of a car that is held back.
 */
function settle(f: Following, bits: number): number {
  const held = bits !== DECIDE && heldByPack(bits);
  const before = f.acceleration;
  if (held && Number.isFinite(f.freed)) f.acceleration = f.freed;
  const found = balance(f, held ? DECIDE : bits, release);
  f.freed = f.acceleration;
  f.unheld = f.powers.power;
  if (!held && (bits !== DECIDE || f.unheld >= -f.limit)) return found;
  if (held) f.acceleration = before;
  return balance(f, bits, releaseAtLimit);
}

/** Road and drives: the secant method, from the last acceleration on and as if nothing but the mass went with it. */
function balance(f: Following, bits: number, ask: typeof release): number {
  // A trial step of a solver may have led anywhere: what it left is no start.
  if (!Number.isFinite(f.acceleration)) f.acceleration = 0;
  let before = f.acceleration;
  let found = ask(f, bits);
  let missed = unmatched(f);
  let now = before + missed / movedMass(f);
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    f.acceleration = now;
    found = ask(f, bits);
    const left = unmatched(f);
    const change = left === missed ? 0 : (left * (now - before)) / (left - missed);
    if (!(Math.abs(change) > FOUND * (1 + Math.abs(now)))) break;
    before = now;
    missed = left;
    now -= change;
  }
  return found;
}

/** kg, with all that turns. */
export function movedMass({ moving: { car }, front, rear }: Following): number {
  return car.inertialMass + turning(front) + turning(rear);
}

function turning({ axle, at: { gear } }: Side): number {
  return axle.driven ? gear.inertia / elementary.pow(axle.radius, 2) : 0;
}

/** @param lasts the bits that hold whatever the forces are. */
function decide(f: Following, y: Float64Array, lasts: number): number {
  put(f, lasts, y);
  let mode = settle(f, DECIDE) | lasts;
  const { pack, moving } = f;
  packRates(moving.pack, pack, f.powers.power, new Float64Array(4));
  if (pack.current < 0) mode |= CHARGES;
  if (-pack.current > moving.pack.continuousCharge && (lasts & SPENT) === 0) mode |= SPENDS_CHARGE;
  return mode;
}

/** Right after `rates`. */
function guard(f: Following, mode: number, y: Float64Array, out: Float64Array): void {
  const { pack, moving, limit, unheld } = f;
  guardAxle(f, f.front, sideBits(mode, 0), out, 0);
  guardAxle(f, f.rear, sideBits(mode, 1), out, OF_AXLE);
  guardHeld(f.front, mode, 0, out);
  guardHeld(f.rear, mode, 1, out);
  const { continuousCharge } = moving.pack;
  const spends = (mode & SPENDS_CHARGE) !== 0;
  const bounded = continuousCharge < Infinity && (mode & SPENT) === 0;
  const over = -pack.current / continuousCharge - 1;
  out[CAR.pack] = side(limit + unheld, 1000, heldByPack(mode), LOOSE);
  out[CAR.full] = (mode & FULL) === 0 ? 100 * (1 - at(y, COAST.charge)) + TIE : Infinity;
  out[CAR.spent] = bounded ? 1 - at(y, COAST.spent) : Infinity;
  out[CAR.spends] = bounded ? side(-over, 1, spends) : Infinity;
  out[CAR.charges] = side(pack.current, 100, (mode & CHARGES) !== 0, 1e-5);
  out[CAR.settled] = -f.acceleration - SETTLED;
}

/** Positive while a value is on its side of nothing. @param below whether that is the one below. */
function side(value: number, scale: number, below: boolean, tie = TIE): number {
  return (below ? -value : value) / scale + tie;
}

/** While the pack holds the car back: of a drive that draws nothing is held back. */
function guardHeld({ axle, at: now, unheld, overdone }: Side, mode: number, which: number, out: Float64Array): void {
  if (!heldByPack(mode) || !axle.driven || now.gear.ratio === 0) return;
  if (kindOf(sideBits(mode, which)) === KIND.pack && unheld >= 0 && overdone > 0) {
    out[which * OF_AXLE + G.gives] = overdone;
    return;
  }
  out[which * OF_AXLE + G.gives] = side(unheld, 1000, kindOf(sideBits(mode, which)) === KIND.pack, LOOSE);
}

function guardAxle(f: Following, each: Side, bits: number, out: Float64Array, first: number): void {
  const { axle, at: now, braking, moment, both } = each;
  out.fill(Infinity, first, first + OF_AXLE);
  if (!axle.driven || now.gear.ratio === 0) return;
  const kind = kindOf(bits);
  const omega = now.motorSpeed;
  const v = f.speed;
  // On both sides of these two the losses are the same there: what round-off makes of nothing need not be told apart.
  out[first + G.gears] = side(moment, 100, (bits & GEARS_BACK) !== 0, 1e-8);
  if (kind === KIND.pack || kind === KIND.none) return;
  out[first + G.unit] = side(both, 1000, (bits & UNIT_BACK) !== 0, 1e-6);
  const possible = brakingKind(each, f);
  if (possible !== KIND.off && (kind === KIND.off || kind === KIND.grip))
    out[first + G.pushes] = side(torqueAtGrip(f, each), 100, kind === KIND.grip, LOOSE);
  if (kind === KIND.off) return;
  if (kind === KIND.grip) {
    const least = -brakingTorque(each, possible, f);
    out[first + G.grip] = (now.torque - least) / 100 + LOOSE;
    return;
  }
  const byPower = kind === KIND.power || kind === KIND.fadingPower;
  const fades = kind === KIND.fadingTorque || kind === KIND.fadingPower;
  out[first + G.corner] = side(braking.power - omega * braking.torque, 1000, byPower, LOOSE);
  out[first + G.fade] = (v - (fades ? braking.fadeTo : braking.fadeFrom)) / 10 + TIE;
  out[first + G.grip] = (now.force + braking.gripShare * now.grip) / 1000 + LOOSE;
}
