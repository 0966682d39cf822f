/**
 * Rates of the states of a moving car. Slip as in ISO 8855; where the wheel speed is no state it is quasi-static: the wheel turns
 * at (1 + slip) v / r, and what its slip changes by does not count. They run a few hundred times per launch and some hundred thousand
 * times per sweep, and allocate nothing.
 */
import { EFFORT, effort } from '../effort.ts';
import { packAt } from '../pack/state.ts';
import { balance, road } from './balance.ts';
import { energies, motion, unitWarming } from './energies.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';
import { limit } from './limits.ts';
import { ratesOfOne, ratesOfSpinning } from './one-axle.ts';
import { balanceSpin } from './single-axle.ts';
import { isOpen, spinState } from './slip-step.ts';
import {
  AXLE_BITS,
  BREAK,
  CHARGE,
  gearOf,
  GRIP,
  LIMIT_BITS,
  PUSHED,
  RC,
  REAR_SHIFT,
  SLIDE,
  SPEED,
  SPENDS,
  SPENT,
} from './state.ts';

/** Writes the rates of the states and then of the quadratures, in a mode. */
export function rates(m: Moving, mode: number, y: Float64Array, out: Float64Array): void {
  const { front, rear, atFront, atRear, places } = m;
  effort.spent += EFFORT.rates;
  if (gearOf(mode) !== m.gear) engage(m, gearOf(mode));
  m.now.pressed = y[places.states]! - m.now.pressedAt;
  warmth(m, y);
  if (places.budget >= 0) m.packNow.most = (mode & SPENT) === 0 ? m.pack.maxCurrent : m.pack.continuous;
  m.now.speed = y[SPEED]!;
  m.now.pushed = (mode & PUSHED) !== 0;
  road(m);
  const breaks = (mode & BREAK) !== 0;
  const bitsFront = mode & AXLE_BITS;
  const bitsRear = (mode >> REAR_SHIFT) & AXLE_BITS;
  if (!rear.driven && !isOpen(front, breaks)) {
    if (front.spin) ratesOfSpinning(m, front, atFront, rear, atRear, bitsFront, out);
    else ratesOfOne(m, front, atFront, rear, atRear, bitsFront, out);
  } else if (!front.driven && !isOpen(rear, breaks)) {
    if (rear.spin) ratesOfSpinning(m, rear, atRear, front, atFront, bitsRear, out);
    else ratesOfOne(m, rear, atRear, front, atFront, bitsRear, out);
  } else ratesOfAny(m, mode, out);
  // Nothing is spent of a whole budget below the continuous current; at a spent one just that flows.
  if (places.budget >= 0) out[places.budget] = (mode & SPENDS) === 0 ? 0 : m.packNow.spending;
  if (places.spinFront >= 0) out[places.spinFront] = atFront.wheelSpin;
  if (places.spinRear >= 0) out[places.spinRear] = atRear.wheelSpin;
  if (places.pack < 0) return;
  if (places.unitFront >= 0) out[places.unitFront] = unitWarming(front, atFront, m.car.air);
  if (places.unitRear >= 0) out[places.unitRear] = unitWarming(rear, atRear, m.car.air);
  out[places.pack] = m.packNow.warming;
}

/** Rates of speed, distance, charge and polarisation and of the quadratures of any car; `ratesOfOne` is a quicker way to them for most. */
export function ratesOfAny(m: Moving, mode: number, out: Float64Array): void {
  const { front, rear, atFront, atRear, places } = m;
  const bitsFront = mode & AXLE_BITS;
  const bitsRear = (mode >> REAR_SHIFT) & AXLE_BITS;
  const breaks = (mode & BREAK) !== 0;
  if (!rear.driven && front.spin) spinAlone(m, front, atFront, rear, atRear, bitsFront, breaks);
  else if (!front.driven && rear.spin) spinAlone(m, rear, atRear, front, atFront, bitsRear, breaks);
  else balance(m, mode);
  if (front.driven) available(m, front, atFront, bitsFront);
  if (rear.driven) available(m, rear, atRear, bitsRear);
  motion(m, out);
  if (places.quadratures > 0) energies(m, breaks, out, places.states);
}

/** Takes a gear. */
export function engage(m: Moving, gear: number): void {
  m.gear = gear;
  m.atFront.gear = m.front.gears[gear] ?? m.atFront.gear;
  m.atRear.gear = m.rear.gears[gear] ?? m.atRear.gear;
}

/** The state of the pack, the temperatures of the drive units, and the speeds of wheels that spin. */
function warmth(m: Moving, y: Float64Array): void {
  const { pack, packNow, places } = m;
  packNow.charge = y[CHARGE]!;
  if (pack.pairs > 0) packNow.pair1 = y[RC]!;
  if (pack.pairs > 1) packNow.pair2 = y[RC + 1]!;
  if (places.pack >= 0) packNow.temperature = y[places.pack]!;
  if (places.unitFront >= 0) m.atFront.temperature = y[places.unitFront]!;
  if (places.unitRear >= 0) m.atRear.temperature = y[places.unitRear]!;
  if (places.spinFront >= 0) m.atFront.wheelSpeed = y[places.spinFront]!;
  if (places.spinRear >= 0) m.atRear.wheelSpeed = y[places.spinRear]!;
  packAt(pack, packNow);
}

/** @param axle, at the driven axle; `other`, `beside` the free one. @param bits of the driven axle. */
function spinAlone(
  m: Moving,
  axle: AxleFigures,
  at: AxleNow,
  other: AxleFigures,
  beside: AxleNow,
  bits: number,
  breaks: boolean,
): void {
  const open = isOpen(axle, breaks);
  spinState(m, axle, at, bits & ~SLIDE, open);
  balanceSpin(m, axle, at, other, beside, open);
}

/** What a drive could give at its present motor speed, grip left aside. */
function available(m: Moving, axle: AxleFigures, at: AxleNow, bits: number): void {
  if ((bits & GRIP) !== 0) {
    limit(m, axle, at, bits & LIMIT_BITS);
    at.available = at.limit;
  } else at.available = at.torque;
}
