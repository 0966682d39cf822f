/**
 * The moving car: rates of its states, guards between what can hold it back, and the by-products that tables and pictures
 * need. Slip as in ISO 8855; where the wheel speed is no state it is quasi-static: the wheel turns at (1 + slip) v / r, and
 * what its slip changes by does not count.
 *
 * It works on flat blocks of numbers (see `plant-layout.ts`): `rates` runs a few hundred times per launch and some hundred
 * thousand times per sweep.
 */
import type { SwitchedSystem } from '../../solvers/system.ts';
import type { Curve } from '../tables/curve.ts';
import { packCurve } from '../tables/curve.ts';
import { packAt, PackFigures, PackNow, polarisationEnergy } from '../pack/state.ts';
import type { Limiter } from './limiter.ts';
import { balance, road, spinState } from './balance.ts';
import { electrical, energies } from './energies.ts';
import {
  A,
  AXLE_SCRATCH,
  AXLE_SIZE,
  atGrip,
  axleMode,
  B,
  BREAK,
  CHARGE,
  G,
  GEAR_SHIFT,
  GEAR_SIZE,
  gearOf,
  GRIP,
  L,
  LIMIT_COUNT,
  P,
  PARAMETER_COUNT,
  QUADRATURE_COUNT,
  RC,
  SCRATCH_COUNT,
  SLIDE,
  SPEED,
  W,
  withAxleMode,
} from './state.ts';
import { inverterPower, limit, motorLoss } from './limits.ts';
import { balanceSingle, balanceSpin } from './single-axle.ts';
import type { UnitTables } from './limits.ts';
import type { PlantParameters } from './load.ts';

/** What the states of a plant are; cars of the same shape can be loaded one after the other. */
export interface PlantShape {
  /** RC pairs of the pack, 0 to 2. */
  readonly pairs: number;
  /** Whether the temperatures of drive units and pack are states. */
  readonly heat: boolean;
  /** Driven axles, and whether their wheel speed is a state. */
  readonly front: 'free' | 'driven' | 'spin';
  readonly rear: 'free' | 'driven' | 'spin';
  /** Whether one of the drives has more than one gear. */
  readonly gears: boolean;
}

/** The switched system of a car, which can be loaded with one car of its shape after the other. */
export interface Plant extends SwitchedSystem {
  readonly shape: PlantShape;
  /** Takes another car. Nothing of the former car is left. */
  load(parameters: PlantParameters): void;
  /** The states at rest or rolling at a speed, with the pack charged as the car says; length `states + 1`. */
  initial(speed: number): Float64Array;
  /** The mode at a state: the plain minimum of all limits. */
  modeAt(y: Float64Array): number;
  /** By-products of the last call of `rates`, laid out as `W` and `B` say. */
  readonly scratch: Float64Array;
  /** Offsets in `scratch` of the blocks of the driven axles, front first. */
  readonly driven: readonly number[];
  /** kg that the drive accelerates, undriven wheels included. */
  inertialMass(): number;
  /** J in the capacities of the RC pairs at a state: C V^2 / 2 with C = tau / R. */
  polarisationEnergy(y: Float64Array): number;
  /** Whether a torque table counts as power limited at the motor speeds of the last `rates`. */
  powerTabled(): boolean;
  /** N at the contact patches that the torque held back would add; after `rates` in a mode at the grip limit. */
  spareForce(): number;
  /**
   * Torque that each limit would still allow over the torque in use, in peak torques of the drive (the less of two drives):
   * entry 0 is grip, entry k is limit k, Infinity where a limit does not count. After `rates`; `out` has `LIMIT_COUNT + 1`.
   */
  headroom(out: Float64Array): void;
  /** J in the rotor of a drive with a gearbox, in a gear (0 is the first) at a speed in m/s of the car, slip left aside. */
  rotorEnergy(gear: number, speed: number): number;
  /** Index of the state that is the temperature of the drive unit of an axle, K; -1 where it is no state. */
  unitTemperatureState(axle: number): number;
  /** Index of the state that is the temperature of the pack, K; -1 where it is no state. */
  readonly packTemperatureState: number;
}

/** Guards of one axle: 0 is grip, k is limit k. */
const AXLE_GUARDS = LIMIT_COUNT + 1;
const MOST_CHANGES = 40;

/** s; a shorter break in the torque is none. */
const SHORTEST_BREAK = 1e-4;

/** Limits closer than this share of the peak torque are taken as equal when a mode is looked for. */
const TIE = 1e-9;

export function createPlant(shape: PlantShape): Plant {
  const { pairs } = shape;
  const p = new Float64Array(PARAMETER_COUNT);
  const w = new Float64Array(SCRATCH_COUNT);
  const axles = [0, 1].filter(axle => (axle === 0 ? shape.front : shape.rear) !== 'free');
  const [one = 0, two = -1] = axles;
  const spins = [shape.front === 'spin', shape.rear === 'spin'];
  const heatAt = RC + pairs;
  const packHeatAt = heatAt + axles.length;
  const spinAt = heatAt + (shape.heat ? axles.length + 1 : 0);
  const spinOne = spins[one] === true ? spinAt : -1;
  const spinTwo = two >= 0 && spins[two] === true ? spinAt + (spinOne >= 0 ? 1 : 0) : -1;
  const states = spinAt + (spinOne >= 0 ? 1 : 0) + (spinTwo >= 0 ? 1 : 0);
  const guardCount = axles.length * AXLE_GUARDS + (shape.gears ? 1 : 0);
  const guards = new Float64Array(guardCount);
  const ratesOut = new Float64Array(states + QUADRATURE_COUNT);
  const noCurve: Curve = packCurve([0], [0]);
  let pack = new PackFigures(noCurve, noCurve);
  let now = new PackNow();
  const front: UnitTables = { torque: noCurve, loss: null, otherLoss: null };
  const rear: UnitTables = { torque: noCurve, loss: null, otherLoss: null };
  let usedOne: Int32Array = new Int32Array(0);
  let usedTwo: Int32Array = usedOne;
  let charge = 0;
  let gear = -1;

  const scales = new Float64Array(states + QUADRATURE_COUNT).fill(1);
  scales[CHARGE] = 0.01;
  scales.fill(100, states); // W: what less adds to a ledger of tens of kilowatts is round-off of larger terms

  const at = (axle: number): number => P.axle0 + axle * AXLE_SIZE;
  const found = (axle: number): number => W.axle0 + axle * AXLE_SCRATCH;
  const tablesOf = (axle: number): UnitTables => (axle === 0 ? front : rear);

  function load(parameters: PlantParameters): void {
    if (!sameShape(parameters.shape, shape)) throw new RangeError('the car has another shape than the plant');
    p.set(parameters.block);
    ({ pack, charge } = parameters);
    now = new PackNow();
    front.torque = parameters.torque[0] ?? noCurve;
    rear.torque = parameters.torque[1] ?? noCurve;
    [front.loss, front.otherLoss] = parameters.loss;
    [rear.otherLoss, rear.loss] = parameters.loss;
    usedOne = usedLimits(p, at(one));
    usedTwo = two < 0 ? usedOne : usedLimits(p, at(two));
    w.fill(0);
    gear = -1;
    for (let axle = 0; axle < 2; axle++) {
      w[found(axle) + B.load] = p[at(axle) + A.staticLoad]!;
      w[found(axle) + B.anchorLoad] = Number.NaN;
      w[found(axle) + B.temperature] = p[P.air]!;
    }
    w[W.packTemperature] = p[P.air]!;
  }

  function initial(speed: number): Float64Array {
    const y = new Float64Array(states + 1);
    y[SPEED] = speed;
    y[CHARGE] = charge;
    if (shape.heat) y.fill(p[P.air]!, heatAt, packHeatAt + 1);
    if (spinOne >= 0) y[spinOne] = speed / p[at(one) + A.radius]!;
    if (spinTwo >= 0) y[spinTwo] = speed / p[at(two) + A.radius]!;
    return y;
  }

  /** Takes the figures of the gear of a mode into the axle's own places. */
  function engage(mode: number): void {
    gear = gearOf(mode);
    for (const axle of axles) {
      const o = at(axle);
      if (!(p[o + A.gears]! > 1)) continue;
      const g = o + A.gear0 + gear * GEAR_SIZE;
      p[o + A.ratio] = p[g + G.ratio]!;
      p[o + A.efficiency] = p[g + G.efficiency]!;
      p[o + A.inertia] = p[g + G.inertia]!;
      p[o + A.wheelInertia] = p[g + G.wheelInertia]!;
      p[o + A.shaftTorque] = p[g + G.shaftTorque]!;
    }
  }

  function packState(y: Float64Array): void {
    now.charge = y[CHARGE]!;
    if (pairs > 0) now.pair1 = y[RC]!;
    if (pairs > 1) now.pair2 = y[RC + 1]!;
    now.temperature = shape.heat ? y[packHeatAt]! : p[P.air]!;
    packAt(pack, now);
    w[W.emf] = now.emf;
    w[W.resistance] = now.resistance;
    w[W.packTemperature] = now.temperature;
  }

  function rates(mode: number, y: Float64Array, out: Float64Array): void {
    const v = y[SPEED]!;
    if (shape.gears && gearOf(mode) !== gear) engage(mode);
    packState(y);
    road(p, w, v);
    if (shape.heat) for (let i = 0; i < axles.length; i++) w[found(axles[i]!) + B.temperature] = y[heatAt + i]!;
    if (two >= 0) bothAxles(mode, y, v);
    else if (spinOne < 0 && !isOpen(mode, one)) {
      balanceSingle(p, w, at(one), found(one), at(1 - one), found(1 - one), axleMode(mode, one), v, tablesOf(one));
    } else if (spinOne >= 0) {
      const m = axleMode(mode, one) & ~SLIDE;
      const open = isOpen(mode, one);
      spinState(p, w, at(one), found(one), m, v, y[spinOne]!, tablesOf(one), open);
      balanceSpin(p, w, at(one), found(one), at(1 - one), found(1 - one), v, open);
    } else balance(p, w, mode, v, front, rear);
    available(mode);
    electrical(p, w, y, out, front, rear);
    energies(p, w, mode, v, out, states);
    if (spinOne >= 0) out[spinOne] = w[found(one) + B.wheelSpin]!;
    if (spinTwo >= 0) out[spinTwo] = w[found(two) + B.wheelSpin]!;
    if (shape.heat) warming(y, out);
  }

  /** Two drives on one pack: each sees what the other draws, until both stand still. */
  function bothAxles(mode: number, y: Float64Array, v: number): void {
    const [b1, b2] = [found(one), found(two)];
    w[b1 + B.otherAtPack] = atPack(axleMode(mode, two)) ? 1 : 0;
    w[b2 + B.otherAtPack] = atPack(axleMode(mode, one)) ? 1 : 0;
    w[b1 + B.otherFollows] = follows(axleMode(mode, two)) ? 1 : 0;
    w[b2 + B.otherFollows] = follows(axleMode(mode, one)) ? 1 : 0;
    for (const b of [b1, b2]) {
      // A trial step of the solver may have left anything behind.
      if (!Number.isFinite(w[b + B.otherPower]!)) w[b + B.otherPower] = 0;
      if (!Number.isFinite(w[b + B.otherWheel]!)) w[b + B.otherWheel] = 0;
    }
    for (let pass = 0; pass < MOST_CHANGES; pass++) {
      const before = w[b1 + B.torque]! + w[b2 + B.torque]!;
      if (spinOne >= 0) {
        spinState(p, w, at(one), b1, axleMode(mode, one) & ~SLIDE, v, y[spinOne]!, tablesOf(one), isOpen(mode, one));
      }
      if (spinTwo >= 0) {
        spinState(p, w, at(two), b2, axleMode(mode, two) & ~SLIDE, v, y[spinTwo]!, tablesOf(two), isOpen(mode, two));
      }
      balance(p, w, mode, v, front, rear);
      w[b1 + B.otherPower] = inverterPower(p, at(two), w[b2 + B.torque]!, w[b2 + B.motorSpeed]!, tablesOf(two).loss);
      w[b2 + B.otherPower] = inverterPower(p, at(one), w[b1 + B.torque]!, w[b1 + B.motorSpeed]!, tablesOf(one).loss);
      w[b1 + B.otherWheel] = wheelTorque(two);
      w[b2 + B.otherWheel] = wheelTorque(one);
      const after = w[b1 + B.torque]! + w[b2 + B.torque]!;
      if (pass > 0 && Math.abs(after - before) < 1e-12 * Math.abs(after)) break;
    }
  }

  function wheelTorque(axle: number): number {
    const o = at(axle);
    return p[o + A.efficiency]! * p[o + A.ratio]! * (w[found(axle) + B.torque]! - p[o + A.dragTorque]!);
  }

  function isOpen(mode: number, axle: number): boolean {
    return (mode & BREAK) !== 0 && p[at(axle) + A.gears]! > 1;
  }

  /** What the drives could give at their present motor speeds, grip left aside. */
  function available(mode: number): void {
    for (let i = 0; i < axles.length; i++) {
      const axle = axles[i]!;
      const m = axleMode(mode, axle);
      const b = found(axle);
      if ((m & GRIP) !== 0) {
        limit(p, w, at(axle), b, m & 15, tablesOf(axle));
        w[b + B.available] = w[b + B.limit]!;
      } else w[b + B.available] = w[b + B.torque]!;
    }
  }

  /** Lumped heat: what is lost warms, what is warmer than the air cools. */
  function warming(y: Float64Array, out: Float64Array): void {
    const air = p[P.air]!;
    for (let i = 0; i < axles.length; i++) {
      const o = at(axles[i]!);
      const b = found(axles[i]!);
      const T = w[b + B.torque]!;
      const omega = w[b + B.motorSpeed]!;
      const eta = p[o + A.inverter]!;
      const lost = (motorLoss(p, o, T, omega, tablesOf(axles[i]!).loss) + (1 - eta) * T * omega) / eta;
      out[heatAt + i] = (lost - p[o + A.unitCooling]! * (y[heatAt + i]! - air)) / p[o + A.unitCapacity]!;
    }
    out[packHeatAt] = (out[states + 1]! - p[P.packCooling]! * (y[packHeatAt]! - air)) / p[P.packCapacity]!;
  }

  /** Relative distance of every other limit from the one in force; right after `rates`. */
  function guard(mode: number, y: Float64Array, out: Float64Array): void {
    out.fill(Infinity);
    axleGuard(mode, one, 0, usedOne, out);
    if (two >= 0) axleGuard(mode, two, AXLE_GUARDS, usedTwo, out);
    if (!shape.gears) return;
    const last = guardCount - 1;
    if ((mode & BREAK) !== 0) out[last] = w[W.shiftEnd]! - y[states]!;
    else out[last] = 1 - y[SPEED]! / upshiftSpeed();
  }

  /** m/s of the car at which the present gear is left. */
  function upshiftSpeed(): number {
    let speed = Infinity;
    for (const axle of axles) {
      const o = at(axle);
      if (p[o + A.gears]! > 1) speed = p[o + A.gear0 + gear * GEAR_SIZE + G.upshift]!;
    }
    return speed;
  }

  function axleGuard(mode: number, axle: number, base: number, used: Int32Array, out: Float64Array): void {
    const tables = tablesOf(axle);
    const o = at(axle);
    const b = found(axle);
    const m = axleMode(mode, axle);
    const active = m & 15;
    if (isOpen(mode, axle)) return;
    const scale = 1 / p[o + A.peakTorque]!;
    const T = w[b + B.available]!;
    if (p[o + A.spin] === 1) {
      const z = Math.abs(w[b + B.stretch]!);
      out[base] = (m & SLIDE) === 0 ? 1 - z : z - 1;
    } else if ((m & GRIP) !== 0) out[base] = (T - w[b + B.torque]!) * scale;
    else {
      // Where the torque falls with speed the slip crosses its limit plainly; where it does not, the force does. The slope
      // is still that of the limit in force, which `rates` evaluated last.
      out[base] =
        w[b + B.limitSlope] === 0
          ? p[o + A.maxShare]! - w[b + B.force]! / w[b + B.grip]!
          : p[o + A.maxStretch]! - w[b + B.stretch]!;
    }
    for (let i = 0; i < used.length; i++) {
      const l = used[i]!;
      if (l === active) continue;
      if (l === L.split && follows(axleMode(mode, 1 - axle))) continue;
      // With the one that leads at the pack's limit, both are.
      if (follows(m) && isPack(l) && atPack(axleMode(mode, 1 - axle))) continue;
      limit(p, w, o, b, l, tables);
      // An axle follows the other one's torque, whether grip or a limit of its own would have come next.
      out[base + l] = (w[b + B.limit]! - (l === L.split ? w[b + B.torque]! : T)) * scale;
    }
  }

  function switched(mode: number, fired: number, y: Float64Array): number {
    if (shape.gears && fired === guardCount - 1) return changeGear(mode, y);
    const axle = fired >= AXLE_GUARDS ? two : one;
    const l = fired % AXLE_GUARDS;
    const m = axleMode(mode, axle);
    if (l === 0 && p[at(axle) + A.spin] === 1) return withAxleMode(mode, axle, m ^ SLIDE);
    // An axle that no longer follows the other's torque is the one to be followed.
    if (follows(m)) {
      const led = withAxleMode(mode, 1 - axle, (axleMode(mode, 1 - axle) & SLIDE) | L.split);
      return withAxleMode(led, axle, l === 0 ? GRIP | lowestOwn(axle) : (m & SLIDE) | l);
    }
    if (l === L.split) return withAxleMode(mode, axle, (m & SLIDE) | l);
    if (l > 0) return withAxleMode(mode, axle, (m & ~15) | l);
    if ((m & GRIP) === 0) return withAxleMode(mode, axle, m | GRIP);
    w[found(axle) + B.stretch] = p[at(axle) + A.maxStretch]!;
    return withAxleMode(mode, axle, m & 15);
  }

  /** The lowest limit of an axle's own at its present motor speed. */
  function lowestOwn(axle: number): number {
    const used = axle === one ? usedOne : usedTwo;
    const b = found(axle);
    let lowest: number = L.torque;
    let least = Infinity;
    for (let i = 0; i < used.length; i++) {
      if (used[i] === L.split) continue;
      limit(p, w, at(axle), b, used[i]!, tablesOf(axle));
      if (w[b + B.limit]! >= least) continue;
      least = w[b + B.limit]!;
      lowest = used[i]!;
    }
    return lowest;
  }

  /** The gear is let go, or the next one taken. */
  function changeGear(mode: number, y: Float64Array): number {
    if ((mode & BREAK) === 0 && p[P.shiftTime]! >= SHORTEST_BREAK) {
      w[W.shiftEnd] = y[states]! + p[P.shiftTime]!;
      return mode | BREAK;
    }
    return settle((mode & ~BREAK) + (1 << GEAR_SHIFT), y);
  }

  function modeAt(y: Float64Array): number {
    let mode = 0;
    for (const axle of axles) mode = withAxleMode(mode, axle, L.torque | (spins[axle] === true ? 0 : GRIP));
    if (shape.gears) while (y[SPEED]! > gearSpeed(gearOf(mode))) mode += 1 << GEAR_SHIFT;
    return settle(mode, y);
  }

  function gearSpeed(g: number): number {
    for (const axle of axles) {
      const o = at(axle);
      if (p[o + A.gears]! > 1) return p[o + A.gear0 + g * GEAR_SIZE + G.upshift]!;
    }
    return Infinity;
  }

  /** Changes one limit after the other, the most violated first, until none lies below the one in force. */
  function settle(from: number, y: Float64Array): number {
    let mode = from;
    for (let change = 0; change < MOST_CHANGES; change++) {
      rates(mode, y, ratesOut);
      guard(mode, y, guards);
      let worst = -TIE;
      let fired = -1;
      for (let g = 0; g < axles.length * AXLE_GUARDS; g++) {
        if (guards[g]! < worst) {
          worst = guards[g]!;
          fired = g;
        }
      }
      if (fired < 0) break;
      mode = switched(mode, fired, y);
    }
    return mode;
  }

  return {
    shape,
    states,
    quadratures: QUADRATURE_COUNT,
    guards: guardCount,
    scales,
    scratch: w,
    driven: axles.map(found),
    load,
    initial,
    rates,
    guard,
    switched,
    modeAt,
    inertialMass: () => p[P.inertialMass]!,
    polarisationEnergy: y => polarisationEnergy(pack, pairs > 0 ? y[RC]! : 0, pairs > 1 ? y[RC + 1]! : 0),
    powerTabled: () => axles.some(axle => w[found(axle) + B.motorSpeed]! > p[at(axle) + A.powerSpeed]!),
    spareForce: () => {
      let force = 0;
      for (const axle of axles) {
        const o = at(axle);
        const b = found(axle);
        const spare = w[b + B.available]! - w[b + B.torque]!;
        force += (spare * p[o + A.efficiency]! * p[o + A.ratio]!) / p[o + A.radius]!;
      }
      return force;
    },
    headroom: out => {
      out.fill(Infinity);
      for (const axle of axles) {
        const o = at(axle);
        const b = found(axle);
        const T = w[b + B.torque]!;
        const peak = p[o + A.peakTorque]!;
        const spare = p[o + A.maxShare]! * w[b + B.grip]! - w[b + B.force]!;
        out[0] = Math.min(out[0]!, (spare * p[o + A.radius]!) / (p[o + A.efficiency]! * p[o + A.ratio]!) / peak);
        for (const l of axle === one ? usedOne : usedTwo) {
          limit(p, w, o, b, l, tablesOf(axle));
          out[l] = Math.min(out[l]!, (w[b + B.limit]! - T) / peak);
        }
      }
    },
    rotorEnergy: (g, speed) => {
      let energy = 0;
      for (const axle of axles) {
        const o = at(axle);
        if (!(p[o + A.gears]! > 1)) continue;
        const omega = (p[o + A.gear0 + g * GEAR_SIZE + G.ratio]! * speed) / p[o + A.radius]!;
        energy += 0.5 * p[o + A.rotorInertia]! * omega * omega;
      }
      return energy;
    },
    unitTemperatureState: axle => (shape.heat && axles.includes(axle) ? heatAt + axles.indexOf(axle) : -1),
    packTemperatureState: shape.heat ? packHeatAt : -1,
  };
}

/** A plant for one car, loaded with it. */
export function plantFor(parameters: PlantParameters): Plant {
  const plant = createPlant(parameters.shape);
  plant.load(parameters);
  return plant;
}

/** Whether cars of the one shape can be loaded into a plant of the other. */
export function sameShape(a: PlantShape, b: PlantShape): boolean {
  return a.pairs === b.pairs && a.heat === b.heat && a.front === b.front && a.rear === b.rear && a.gears === b.gears;
}

/** Whether an axle keeps its share to the torque of the other one. */
function follows(m: number): boolean {
  return (m & (GRIP | 15)) === L.split;
}

/** Whether an axle is held back by the pack's power, which it shares with the other axle. */
function atPack(m: number): boolean {
  return (m & GRIP) === 0 && isPack(m & 15);
}

function isPack(l: number): boolean {
  return l === L.minVoltage || l === L.current || l === L.packHeat;
}

/** The limits that can come into force at all. */
export function usedLimits(p: Float64Array, o: number): Int32Array {
  const used: number[] = [L.torque];
  if (p[o + A.tabled] !== 1) used.push(L.power);
  used.push(L.busVoltage, L.speed, L.minVoltage, L.current);
  if (p[o + A.shaftTorque] !== Infinity) used.push(L.shaft);
  if (p[o + A.pedalTorque] !== Infinity) used.push(L.pedal);
  if (p[o + A.unitRange] !== Infinity) used.push(L.heatTorque, L.heatPower);
  if (p[P.packRange] !== Infinity) used.push(L.packHeat);
  if (p[o + A.torqueShare] !== 0) used.push(L.split);
  return Int32Array.from(used);
}

/**
 * The word for a mode. Grip comes first: it is said wherever a driven axle could be given more than its tyres take. Below it,
 * of two driven axles the front one speaks, unless it follows the rear one; a torque table counts as torque up to the speed
 * where it falls off, as power from there on.
 */
export function limiterOf(mode: number, tabledPower = false): Limiter {
  if ((mode & BREAK) !== 0) return 'driveline';
  if (atGrip(mode)) return 'grip';
  const [front, rear] = [axleMode(mode, 0) & 15, axleMode(mode, 1) & 15];
  const l = front === 0 || front === L.split ? rear : front;
  switch (l) {
    case L.torque:
      return tabledPower ? 'motor power' : 'motor torque';
    case L.power:
      return 'motor power';
    case L.speed:
      return 'motor speed';
    case L.busVoltage:
    case L.minVoltage:
      return 'pack voltage';
    case L.current:
      return 'pack current';
    case L.shaft:
    case L.split:
      return 'driveline';
    case L.heatTorque:
    case L.heatPower:
    case L.packHeat:
      return 'heat';
    default:
      return 'driver';
  }
}
