/**
 * What a prescribed speed and acceleration ask of every part of the car: the forces backwards from the road to the terminals
 * of the pack. Conventions as in the forward model (`plant-balance.ts`, `plant-energies.ts`): the two agree where the car
 * does just what it is asked. On flat blocks of numbers.
 */
import type { PackedLoss } from '../drive/efficiency-map.ts';
import {
  BRAKED,
  CORNER,
  D,
  DA,
  DA_SIZE,
  F,
  FA,
  FA_SIZE,
  FOLLOW_BITS,
  FOLLOW_SHIFT,
  GEARS_BACK,
  KIND,
  KIND_SHIFT,
  UNIT_BACK,
} from './state.ts';
import { A, AXLE_SIZE, P } from './blocks.ts';
import { motorLoss } from './block-limits.ts';

/** Square of the share of the peak force up to which slip is taken by its series, which is 1e-9 off there. */
const SERIES_SQUARE = 0.16;

/** Past this relative change of the load the power is taken anew; its series is 1e-11 off there. */
const ANCHOR_RANGE = 0.03;

/** N under an axle that would lift off: no grip to speak of, and all that follows from it stays a number. */
const LIFTED = 1e-3;

/** Passes after which force and slip of a limited axle fit together to 1e-9. */
const PASSES = 4;

/** Decide the bits of an axle from its forces, in place of keeping those that are given. */
export const DECIDE = -1;

/** The maps of the drive units of front and rear axle; null: the formula. */
export type LossTables = readonly [PackedLoss | null, PackedLoss | null];

/**
 * Writes the powers at the speed and acceleration in `d`, and answers the bits that hold there. Numbers go in and out through
 * `d`: as arguments they would be boxed.
 * @param bits of both axles, to be kept; `DECIDE`: as the forces are.
 */
export function demand(p: Float64Array, f: Float64Array, d: Float64Array, maps: LossTables, bits: number): number {
  road(p, d);
  if (bits !== DECIDE && !heldByPack(bits)) return keep(p, f, d, maps, bits);
  const found = keep(p, f, d, maps, DECIDE);
  if (bits === DECIDE && (d[D.force]! >= 0 || d[D.power]! >= -d[D.limit]!)) return found;
  return atPackLimit(p, f, d, maps, bits);
}

/** The same with the pack left aside. */
function keep(p: Float64Array, f: Float64Array, d: Float64Array, maps: LossTables, bits: number): number {
  d[D.gearHeat] = 0;
  d[D.spinUp] = 0;
  d[D.slip] = 0;
  const front = p[P.axle0 + A.driven] === 1;
  if (front && p[P.axle0 + AXLE_SIZE + A.driven] === 1) {
    const both = bothAxles(p, f, d, maps, bits);
    sumUp(p, d);
    return both;
  }
  const axle = front ? 0 : 1;
  const shift = front ? 0 : FOLLOW_SHIFT;
  const e = D.axle0 + axle * DA_SIZE;
  const own = bits === DECIDE ? DECIDE : (bits >> shift) & FOLLOW_BITS;
  const braked = isBraked(d[D.force]!, own);
  d[e + DA.asked] = d[D.force]! * braking(f, axle, braked);
  d[e + DA.held] = Infinity;
  const found = axleDemand(p, f, d, maps[axle], axle, own, braked) << shift;
  d[D.power] = d[D.auxiliaries]! + d[e + DA.power]!;
  d[D.unitHeat] = d[e + DA.heat]!;
  d[D.brakes] = (d[e + DA.force]! + d[e + DA.roll]! - d[D.force]!) * d[D.speed]!;
  return found;
}

/**
 * Share of a force that the drive of an axle is asked for: all of it but of a braking one. A drive that has no share in the braking
 * is asked for all of it and gives nothing (`brakingKind`): a product with 0 would have lost which way it goes.
 */
function braking(f: Float64Array, axle: number, braked: boolean): number {
  const share = f[F.axle0 + axle * FA_SIZE + FA.share]!;
  return braked && share > 0 ? share : 1;
}

/** Whether the car is braked: as its bits say, or as the force that moves it does. */
function isBraked(force: number, bits: number): boolean {
  return bits === DECIDE ? force < 0 : (bits & BRAKED) !== 0;
}

/** Drag, slope and the loads of the axles; the force that the drives must bring, own rolling resistance included. */
function road(p: Float64Array, d: Float64Array): void {
  const v = d[D.speed]!;
  const a = d[D.acceleration]!;
  const air = v + p[P.wind]!;
  const drag = p[P.halfRhoCdA]! * air * Math.abs(air);
  const moved = p[P.dragMoment]! * drag + p[P.transfer]! * a;
  const front = P.axle0;
  const rear = P.axle0 + AXLE_SIZE;
  const Nf = p[front + A.staticLoad]! - moved - p[front + A.liftFactor]! * air * air;
  const Nr = p[rear + A.staticLoad]! + moved - p[rear + A.liftFactor]! * air * air;
  const rollFront = (p[front + A.c0]! + v * (p[front + A.c1]! + v * p[front + A.c2]!)) * Nf;
  const rollRear = (p[rear + A.c0]! + v * (p[rear + A.c1]! + v * p[rear + A.c2]!)) * Nr;
  d[D.axle0 + DA.load] = Nf;
  d[D.axle0 + DA.roll] = rollFront;
  d[D.axle0 + DA_SIZE + DA.load] = Nr;
  d[D.axle0 + DA_SIZE + DA.roll] = rollRear;
  d[D.force] = p[P.inertialMass]! * a + drag + p[P.gradeForce]! + rollFront + rollRear;
  d[D.drag] = drag * v;
  d[D.grade] = p[P.gradeForce]! * v;
  d[D.rolling] = (p[front + A.driven] === 1 ? 0 : rollFront * v) + (p[rear + A.driven] === 1 ? 0 : rollRear * v);
}

function sumUp(p: Float64Array, d: Float64Array): void {
  const v = d[D.speed]!;
  d[D.power] = d[D.auxiliaries]!;
  d[D.unitHeat] = 0;
  d[D.brakes] = -d[D.force]! * v;
  for (let axle = 0; axle < 2; axle++) {
    if (p[P.axle0 + axle * AXLE_SIZE + A.driven] !== 1) continue;
    const e = D.axle0 + axle * DA_SIZE;
    d[D.power] = d[D.power]! + d[e + DA.power]!;
    d[D.unitHeat] = d[D.unitHeat]! + d[e + DA.heat]!;
    d[D.brakes] = d[D.brakes]! + (d[e + DA.force]! + d[e + DA.roll]!) * v;
  }
}

/** With two driven axles the wheel torque is shared as the drive says, or the force by what each could give at this speed. */
function bothAxles(p: Float64Array, f: Float64Array, d: Float64Array, maps: LossTables, bits: number): number {
  const decide = bits === DECIDE;
  const fixed = p[P.axle0 + A.torqueShare]!;
  const own = decide ? DECIDE : bits & FOLLOW_BITS;
  const other = decide ? DECIDE : (bits >> FOLLOW_SHIFT) & FOLLOW_BITS;
  const asked = d[D.force]!;
  let share = fixed;
  let corners = 0;
  if (fixed === 0) {
    const v = d[D.speed]!;
    const past = decide ? isPastCorner(p, f, 0, v) : (own & CORNER) !== 0;
    const behind = decide ? isPastCorner(p, f, 1, v) : (other & CORNER) !== 0;
    corners = (past ? CORNER : 0) | ((behind ? CORNER : 0) << FOLLOW_SHIFT);
    const front = wheelForce(p, 0, v, past);
    share = front / (front + wheelForce(p, 1, v, behind));
  }
  const rolling = d[D.rolling]!;
  const [first, second] = [D.axle0, D.axle0 + DA_SIZE];
  if (fixed !== 0) shareTorque(p, d);
  else {
    d[first + DA.asked] = share * asked;
    d[second + DA.asked] = (1 - share) * asked;
  }
  const [brakedFront, brakedRear] = [isBraked(asked, own), isBraked(asked, other)];
  d[first + DA.asked] = d[first + DA.asked]! * braking(f, 0, brakedFront);
  d[second + DA.asked] = d[second + DA.asked]! * braking(f, 1, brakedRear);
  d[first + DA.held] = Infinity;
  d[second + DA.held] = Infinity;
  const front = axleDemand(p, f, d, maps[0], 0, own, brakedFront);
  const rear = axleDemand(p, f, d, maps[1], 1, other, brakedRear);
  const slid = decide ? slidingAxle(p, d, asked, fixed) : slidingBits(asked, own, other);
  if (slid < 0) {
    const found = front | (rear << FOLLOW_SHIFT) | corners;
    // With shared torques one axle may be asked to hold back what the other drives: the car as a whole brakes or does not.
    if (!decide || fixed === 0) return found;
    return asked < 0 ? found | BOTH_BRAKED : found & ~BOTH_BRAKED;
  }
  // One axle is at its grip limit: the other one brings the rest.
  d[D.gearHeat] = 0;
  d[D.spinUp] = 0;
  d[D.slip] = 0;
  d[D.rolling] = rolling;
  const grip = (decide ? (slid === 0 ? front : rear) & ~(7 << KIND_SHIFT) : slid === 0 ? own : other) | GRIP_BITS;
  axleDemand(p, f, d, maps[slid]!, slid, grip, false);
  const e = D.axle0 + slid * DA_SIZE;
  d[D.axle0 + (1 - slid) * DA_SIZE + DA.asked] = asked - d[e + DA.force]! - d[e + DA.roll]!;
  const free = axleDemand(p, f, d, maps[1 - slid]!, 1 - slid, slid === 0 ? other : own, false);
  return (slid === 0 ? grip | (free << FOLLOW_SHIFT) : free | (grip << FOLLOW_SHIFT)) | corners;
}

/** Forces from a fixed share of the wheel torques: what spins up the wheels and the drive is part of a torque, slip left aside. */
function shareTorque(p: Float64Array, d: Float64Array): void {
  const [front, rear] = [P.axle0, P.axle0 + AXLE_SIZE];
  const [r, s] = [p[front + A.radius]!, p[rear + A.radius]!];
  const share = p[front + A.torqueShare]!;
  const spinFront = (p[front + A.inertia]! * d[D.acceleration]!) / (r * r);
  const spinRear = (p[rear + A.inertia]! * d[D.acceleration]!) / (s * s);
  const torque = (d[D.force]! + spinFront + spinRear) / (share / r + (1 - share) / s);
  d[D.axle0 + DA.asked] = (share * torque) / r - spinFront;
  d[D.axle0 + DA_SIZE + DA.asked] = ((1 - share) * torque) / s - spinRear;
}

const GRIP_BITS = KIND.grip << KIND_SHIFT;
const BOTH_BRAKED = BRAKED | (BRAKED << FOLLOW_SHIFT);

/** The axle whose tyres take less than its share, where the other's take more; -1: none, or the shares are fixed. */
function slidingAxle(p: Float64Array, d: Float64Array, asked: number, fixed: number): number {
  if (asked <= 0 || fixed !== 0) return -1;
  const over = (axle: number): boolean => {
    const e = D.axle0 + axle * DA_SIZE;
    return d[e + DA.force]! > p[P.axle0 + axle * AXLE_SIZE + A.maxShare]! * d[e + DA.grip]!;
  };
  return over(0) === over(1) ? -1 : over(0) ? 0 : 1;
}

function slidingBits(asked: number, own: number, other: number): number {
  if (asked <= 0) return -1;
  if (((own >> KIND_SHIFT) & 7) === KIND.grip) return 0;
  return ((other >> KIND_SHIFT) & 7) === KIND.grip ? 1 : -1;
}

function isPastCorner(p: Float64Array, f: Float64Array, axle: number, v: number): boolean {
  const o = P.axle0 + axle * AXLE_SIZE;
  return (p[o + A.ratio]! * v) / p[o + A.radius]! > f[F.axle0 + axle * FA_SIZE + FA.cornerSpeed]!;
}

/** N that a drive unit could give at the wheels by its ratings. */
function wheelForce(p: Float64Array, axle: number, v: number, pastCorner: boolean): number {
  const o = P.axle0 + axle * AXLE_SIZE;
  const perRadius = p[o + A.ratio]! / p[o + A.radius]!;
  return pastCorner
    ? (p[o + A.efficiency]! * p[o + A.peakPower]!) / v
    : p[o + A.efficiency]! * p[o + A.peakTorque]! * perRadius;
}

/** N m that the drive brakes with at most. Kinds as in `KIND`. */
function brakingTorque(f: Float64Array, g: number, kind: number, omega: number, v: number): number {
  if (kind === KIND.torque) return f[g + FA.torque]!;
  if (kind === KIND.power) return f[g + FA.power]! / omega;
  if (kind === KIND.off) return 0;
  const fade = (v - f[g + FA.fadeTo]!) / (f[g + FA.fadeFrom]! - f[g + FA.fadeTo]!);
  return kind === KIND.fadingTorque ? fade * f[g + FA.torque]! : (fade * f[g + FA.power]!) / omega;
}

function brakingKind(f: Float64Array, g: number, omega: number, v: number): number {
  if (v <= f[g + FA.fadeTo]! || f[g + FA.share] === 0) return KIND.off;
  const byPower = omega * f[g + FA.torque]! > f[g + FA.power]!;
  if (v < f[g + FA.fadeFrom]!) return byPower ? KIND.fadingPower : KIND.fadingTorque;
  return byPower ? KIND.power : KIND.torque;
}

/** Slip at a share x of the peak force, either sign: tan(asin(x) / C) / B, by its series where x is small. */
function slipOf(p: Float64Array, f: Float64Array, o: number, c: number, x: number): number {
  const s = x * x;
  if (s >= SERIES_SQUARE) return largeSlip(p, o, x);
  const high = f[c + 5]! + s * (f[c + 6]! + s * (f[c + 7]! + s * (f[c + 8]! + s * f[c + 9]!)));
  const low = f[c]! + s * (f[c + 1]! + s * (f[c + 2]! + s * (f[c + 3]! + s * f[c + 4]!)));
  return x * (low + s * s * s * s * s * high);
}

function largeSlip(p: Float64Array, o: number, x: number): number {
  const within = x > 1 ? 1 : x < -1 ? -1 : x;
  return (Math.tan(Math.asin(within) / p[o + A.shape]!) / p[o + A.stiffness]!) * p[o + A.slipAtPeak]!;
}

/** Peak friction under the load in `d`: as `friction` of `plant-tyre.ts`, with a wider range of the series. */
function gripOf(p: Float64Array, d: Float64Array, o: number, e: number): void {
  const N = Math.max(d[e + DA.load]!, LIFTED);
  const q = p[o + A.loadExponent]!;
  if (q === 0) {
    d[e + DA.grip] = p[o + A.peak]! * N;
    return;
  }
  let x = N / d[e + DA.anchorLoad]! - 1;
  if (!(x < ANCHOR_RANGE && x > -ANCHOR_RANGE)) {
    d[e + DA.anchorLoad] = N;
    d[e + DA.anchorFriction] = p[o + A.peak]! * (N / p[o + A.loadReference]!) ** -q;
    x = 0;
  }
  const series =
    1 - q * x * (1 - ((q + 1) / 2) * x * (1 - ((q + 2) / 3) * x * (1 - ((q + 3) / 4) * x * (1 - ((q + 4) / 5) * x))));
  d[e + DA.grip] = d[e + DA.anchorFriction]! * series * N;
}

/**
 * One driven axle that is asked for a force. Adds to the sums in `d`.
 * @param braked whether the car is; of the two axles of a shared torque one may be asked to hold back while the car is not.
 */
function axleDemand(
  p: Float64Array,
  f: Float64Array,
  d: Float64Array,
  map: PackedLoss | null,
  axle: number,
  bits: number,
  braked: boolean,
): number {
  const o = P.axle0 + axle * AXLE_SIZE;
  const g = F.axle0 + axle * FA_SIZE;
  const e = D.axle0 + axle * DA_SIZE;
  const v = d[D.speed]!;
  const asked = d[e + DA.asked]!;
  const radius = p[o + A.radius]!;
  const n = p[o + A.ratio]!;
  const eta = p[o + A.efficiency]!;
  const roll = d[e + DA.roll]!;
  gripOf(p, d, o, e);
  const grip = d[e + DA.grip]!;
  const decide = bits === DECIDE;
  const held = d[e + DA.held]! < Infinity;
  let kind: number = held ? KIND.pack : decide ? KIND.none : (bits >> KIND_SHIFT) & 7;
  let force = asked - roll;
  const holds = braked || asked < 0;
  const most = -f[g + FA.gripShare]! * grip;
  if (kind === KIND.grip) force = holds ? most : p[o + A.maxShare]! * grip;
  else if (decide && !held && holds && force < most && f[g + FA.share]! > 0) {
    kind = KIND.grip;
    force = most;
  }
  const x = force / grip;
  let slip = slipOf(p, f, o, g + FA.slip, x);
  const vr = v * f[g + FA.perRadius]!;
  const ar = d[D.acceleration]! * f[g + FA.perRadius]!;
  const rotorInertia = p[o + A.rotorInertia]! * n;
  let wheel = (1 + slip) * vr;
  let spin = (1 + slip) * ar;
  let moment = (force + roll) * radius + p[o + A.wheelInertia]! * spin;
  let back = decide ? moment < 0 : (bits & GEARS_BACK) !== 0;
  let rotor = rotorInertia * spin;
  const dragging = p[o + A.dragTorque]!;
  let T = moment * (back ? f[g + FA.backward]! : f[g + FA.forward]!) + rotor + dragging;
  d[e + DA.spare] = Infinity;
  if (decide && !held && holds) {
    const possible = brakingKind(f, g, n * wheel, v);
    const least = -brakingTorque(f, g, possible, n * wheel, v);
    d[e + DA.spare] = T - least;
    if (T < least) kind = possible;
    // Where the tyres take less than what turns with them, the drive holds nothing back; it does not push against the brakes.
    else if (kind === KIND.grip && T > 0) kind = KIND.off;
  }
  if (kind !== KIND.none && kind !== KIND.grip) {
    for (let pass = 0; pass < PASSES; pass++) {
      T =
        kind === KIND.pack
          ? torqueGiving(p, o, map, d[e + DA.held]!, n * wheel, T)
          : -brakingTorque(f, g, kind, n * wheel, v);
      const geared = T - rotor - dragging;
      if (decide) back = geared < 0;
      moment = back ? (geared * n) / eta : geared * n * eta;
      force = (moment - p[o + A.wheelInertia]! * spin) / radius - roll;
      slip = slipOf(p, f, o, g + FA.slip, force / grip);
      wheel = (1 + slip) * vr;
      spin = (1 + slip) * ar;
      rotor = rotorInertia * spin;
    }
    // Once more from the last slip, so that every power below belongs to one and the same wheel speed.
    moment = (force + roll) * radius + p[o + A.wheelInertia]! * spin;
    T = moment * (back ? f[g + FA.backward]! : f[g + FA.forward]!) + rotor + dragging;
  }
  const omega = n * wheel;
  const lost =
    map === null
      ? p[o + A.copper]! * T * T + omega * (p[o + A.iron]! + p[o + A.windage]! * omega * omega) + p[o + A.fixed]!
      : motorLoss(p, o, T, omega, map);
  const both = T * omega + lost;
  const unitBack = decide ? both < 0 : (bits & UNIT_BACK) !== 0;
  const eff = p[o + A.inverter]!;
  const drawn = unitBack ? both * eff : both / eff;
  d[e + DA.moment] = moment;
  d[e + DA.both] = both;
  d[e + DA.torque] = T;
  d[e + DA.motorSpeed] = omega;
  d[e + DA.power] = drawn;
  d[e + DA.heat] = lost + (drawn - both);
  d[e + DA.force] = force;
  d[D.gearHeat] = d[D.gearHeat]! + (back ? eta - 1 : 1 / eta - 1) * moment * wheel + dragging * omega;
  d[D.spinUp] = d[D.spinUp]! + p[o + A.wheelInertia]! * spin * wheel + rotor * omega;
  d[D.slip] = d[D.slip]! + force * slip * v;
  d[D.rolling] = d[D.rolling]! + roll * radius * wheel;
  if (!decide) return bits;
  return (back ? GEARS_BACK : 0) | (unitBack ? UNIT_BACK : 0) | (kind << KIND_SHIFT) | (holds ? BRAKED : 0);
}

function heldByPack(bits: number): boolean {
  return ((bits >> KIND_SHIFT) & 7) === KIND.pack || ((bits >> (FOLLOW_SHIFT + KIND_SHIFT)) & 7) === KIND.pack;
}

/**
 * The drives together give the pack no more than it takes, each in proportion to what it would have given; that stands in `d`
 * when this is called.
 */
function atPackLimit(p: Float64Array, f: Float64Array, d: Float64Array, maps: LossTables, bits: number): number {
  const power = -d[D.limit]! - d[D.auxiliaries]!;
  const driven = (axle: number): boolean => p[P.axle0 + axle * AXLE_SIZE + A.driven] === 1;
  const front = driven(0) ? Math.min(0, d[D.axle0 + DA.power]!) : 0;
  const rear = driven(1) ? Math.min(0, d[D.axle0 + DA_SIZE + DA.power]!) : 0;
  d[D.gearHeat] = 0;
  d[D.spinUp] = 0;
  d[D.slip] = 0;
  d[D.rolling] = 0;
  let found = 0;
  for (let axle = 0; axle < 2; axle++) {
    const e = D.axle0 + axle * DA_SIZE;
    if (!driven(axle)) {
      d[D.rolling] = d[D.rolling]! + d[e + DA.roll]! * d[D.speed]!;
      continue;
    }
    const own = axle === 0 ? front : rear;
    const shift = axle * FOLLOW_SHIFT;
    const mine = bits === DECIDE ? DECIDE : (bits >> shift) & FOLLOW_BITS;
    d[e + DA.asked] = d[e + DA.force]! + d[e + DA.roll]!;
    d[e + DA.held] = own < 0 ? (own / (front + rear)) * power : Infinity;
    found |= axleDemand(p, f, d, maps[axle]!, axle, mine, true) << shift;
  }
  sumUp(p, d);
  return found;
}

/** N m that makes the inverter draw a power below what it draws at no torque: (T w + loss) eta = power. */
function torqueGiving(
  p: Float64Array,
  o: number,
  map: PackedLoss | null,
  power: number,
  omega: number,
  guess: number,
): number {
  const eff = p[o + A.inverter]!;
  const wanted = power < 0 ? power / eff : power * eff;
  if (map === null) {
    const useful = wanted - motorLoss(p, o, 0, omega, null);
    if (useful >= 0) return 0;
    return (2 * useful) / (omega + Math.sqrt(Math.max(0, omega * omega + 4 * p[o + A.copper]! * useful)));
  }
  // The loss changes little with the torque: a fixed-point iteration gains a digit or more each time.
  let T = guess;
  for (let pass = 0; pass < 12; pass++) T = Math.min(0, (wanted - motorLoss(p, o, T, omega, map)) / omega);
  return T;
}
