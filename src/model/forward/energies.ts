/**
 * Where the power goes at an instant: rates of charge and polarisation, and of every energy of the ledger. On the plant's flat
 * blocks, and outside of the plant's closure: of functions made anew for each plant the engine knows too little to be fast.
 */
import { currentAtPower } from '../pack/state.ts';
import { isOpen } from './balance.ts';
import { A, AXLE_SCRATCH, AXLE_SIZE, B, CHARGE, DISTANCE, P, RC, SPEED, W } from './state.ts';
import { motorLoss } from './limits.ts';
import type { UnitTables } from './limits.ts';

/** Pack current, and the rates of charge and polarisation. */
export function electrical(
  p: Float64Array,
  w: Float64Array,
  y: Float64Array,
  out: Float64Array,
  front: UnitTables,
  rear: UnitTables,
): void {
  const states = y.length - 1;
  const pairs = p[P.pairs]!;
  let power = p[P.auxiliaryPower]!;
  let heat = 0;
  for (let axle = 0; axle < 2; axle++) {
    const o = P.axle0 + axle * AXLE_SIZE;
    if (p[o + A.driven] !== 1) continue;
    const b = W.axle0 + axle * AXLE_SCRATCH;
    const T = w[b + B.torque]!;
    const omega = w[b + B.motorSpeed]!;
    const lost = motorLoss(p, o, T, omega, axle === 0 ? front.loss : rear.loss);
    const eta = p[o + A.inverter]!;
    const drawn = (T * omega + lost) / eta;
    w[b + B.power] = drawn;
    power += drawn;
    heat += (lost + (1 - eta) * T * omega) / eta;
  }
  const emf = w[W.emf]!;
  const R = w[W.resistance]!;
  // More than the pack can give is asked only within a trial step: its limit cuts it there.
  const I = currentAtPower(emf, R, power);
  w[W.busPower] = power;
  w[W.current] = I;
  w[W.voltage] = emf - R * I;
  out[CHARGE] = -I / p[P.capacity]!;
  let packHeat = R * I * I;
  let open = emf;
  for (let i = 0; i < pairs; i++) {
    const R1 = p[P.pair0 + 2 * i]!;
    const V1 = y[RC + i]!;
    out[RC + i] = (R1 * I - V1) / p[P.pair0 + 2 * i + 1]!;
    packHeat += (V1 * V1) / R1;
    open += V1;
  }
  out[states] = open * I;
  out[states + 1] = packHeat;
  out[states + 2] = heat;
  out[states + 9] = p[P.auxiliaryPower]!;
}

/** Speed, distance and the mechanical part of the ledger, in the order of `QUADRATURES`. */
export function energies(
  p: Float64Array,
  w: Float64Array,
  mode: number,
  v: number,
  out: Float64Array,
  states: number,
): void {
  const a = w[W.acceleration]!;
  let gears = 0;
  let spinUp = 0;
  let slip = 0;
  let rolling = 0;
  let withheld = 0;
  for (let axle = 0; axle < 2; axle++) {
    const o = P.axle0 + axle * AXLE_SIZE;
    const b = W.axle0 + axle * AXLE_SCRATCH;
    const roll = w[b + B.rolling]! * w[b + B.load]!;
    const wheelSpeed = w[b + B.wheelSpeed]!;
    rolling += roll * p[o + A.radius]! * wheelSpeed;
    if (p[o + A.driven] !== 1) continue;
    const T = w[b + B.torque]!;
    const omega = w[b + B.motorSpeed]!;
    const wheelSpin = w[b + B.wheelSpin]!;
    const ratio = p[o + A.ratio]!;
    const rotor = p[o + A.rotorInertia]! * ratio * wheelSpin;
    slip += w[b + B.force]! * w[b + B.slipSpeed]!;
    spinUp += p[o + A.wheelInertia]! * wheelSpin * wheelSpeed;
    if (isOpen(p, o, mode)) continue;
    // From the losses themselves, not as what is left over: then the ledger's balance is a test.
    const geared = T - rotor - p[o + A.dragTorque]!;
    gears += ((1 - p[o + A.efficiency]!) * geared + p[o + A.dragTorque]!) * omega;
    spinUp += rotor * omega;
    withheld += (w[b + B.available]! - T) * omega;
  }
  out[SPEED] = a;
  out[DISTANCE] = v;
  out[states + 3] = gears;
  out[states + 4] = spinUp;
  out[states + 5] = slip;
  out[states + 6] = rolling;
  out[states + 7] = w[W.drag]! * v;
  out[states + 8] = p[P.gradeForce]! * v;
  out[states + 10] = withheld;
}
