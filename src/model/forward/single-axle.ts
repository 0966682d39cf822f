/**
 * The balance of `balance.ts` for the car that most cars are: one driven axle whose wheel speed is no state and whose drive is
 * engaged. With one unknown it needs no passes over the axles; tests hold the two against each other.
 */
import { limit } from './limits.ts';
import { slipCurve, slipShare } from './slip-curve.ts';
import { MOST_STRETCH, spinUp } from './slip-step.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, CarNow, Moving } from './instant.ts';
import { friction, loadShare } from '../tyre/friction.ts';

/**
 * Changes of slip over slip at the peak, and of load over load, after which what is left is below 1e-11; and those that leave less than
 * 1e-9, see `Moving.sharp`.
 */
const STRETCH_TOLERANCE = 1e-5;
const COARSE_STRETCH = 3e-4;
const LOAD_TOLERANCE = 1e-6;
const COARSE_LOAD = 1e-4;

const MOST_PASSES = 40;

/**
 * Of a wheel whose speed is a state, engaged or not: its slip stands there already, see `spinState`. What the force leaves of the torque
 * spins the wheel up.
 * @param axle, at the driven axle; `other`, `beside` the free one.
 */
export function balanceSpin(
  m: Moving,
  axle: AxleFigures,
  at: AxleNow,
  other: AxleFigures,
  beside: AxleNow,
  open: boolean,
): void {
  slipShare(axle, at);
  if (!atShare(m, axle, at, other, beside)) m.now.acceleration = Infinity;
  rollAlong(m, axle, other, beside);
  spinUp(axle, at, open);
}

/** The axle that is not driven. */
function rollAlong(m: Moving, axle: AxleFigures, other: AxleFigures, beside: AxleNow): void {
  const { speed: v, acceleration: a } = m.now;
  const N = beside.unloaded - axle.sign * m.car.transfer * a;
  beside.load = N;
  beside.force = -beside.rolling * N - other.hubDrag;
  beside.wheelSpeed = v * other.perRadius;
  beside.wheelSpin = a * other.perRadius;
}

/**
 * At the share of the peak force in `at`: m a = s mu(N) N - c N' - drag - grade, with N = N0 + k a. Closed without load sensitivity; with it a Newton iteration on
 * N, from the load of the last call. False where grip never limits, see `unlimited`.
 */
export function atShare(m: Moving, axle: AxleFigures, at: AxleNow, other: AxleFigures, beside: AxleNow): boolean {
  const { car } = m;
  const { share } = at;
  const k = axle.sign * car.transfer;
  const cu = beside.rolling;
  const N0 = at.unloaded;
  const resist = cu * beside.unloaded + other.hubDrag + m.now.against;
  const known = at.load;
  // Without acceleration drag alone may lift an axle.
  const least = 0.1 * axle.staticLoad;
  const near = m.sharp ? LOAD_TOLERANCE : COARSE_LOAD;
  let N = known > least ? known : least;
  let a = 0;
  let F = 0;
  let G = 0;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const mu = friction(axle, at, N);
    const g = share * mu;
    const s = loadShare(axle, mu);
    // Tangent to g(N) N at this load: slope s g, intercept (1 - s) g N, with s = 1 - q as a rule.
    const tangent = s * g;
    const stiff = car.inertialMass - (tangent + cu) * k;
    if (stiff <= 0) return false;
    a = (tangent * N0 + (1 - s) * g * N - resist) / stiff;
    const next = N0 + k * a;
    F = tangent * next + (1 - s) * g * N;
    G = mu * (s * next + (1 - s) * N);
    const change = Math.abs(next - N);
    N = next;
    // Quadratic convergence: what is left is below the square of this change.
    if (s === 1 || change <= near * N) break;
    N = Math.max(N, least);
  }
  m.now.acceleration = a;
  at.load = N;
  at.force = F;
  at.grip = G;
  return true;
}

/**
 * With limit `l` in force: the slip is where the tyre gives just the force that the drive puts out at the motor speed of that
 * slip. Halley's iteration on the slip over the slip at the peak. Past the peak the tyre curve goes on flat, so that a step of
 * the solver may overshoot smoothly before it is cut at the switch.
 */
export function atLimit(
  m: Moving,
  axle: AxleFigures,
  at: AxleNow,
  other: AxleFigures,
  beside: AxleNow,
  l: number,
): void {
  const { car } = m;
  const v = m.now.speed;
  const { gear } = at;
  const k = axle.sign * car.transfer;
  const cd = at.rolling;
  const cu = beside.rolling;
  const N0 = at.unloaded;
  const { stiffness, dragTorque } = axle;
  const peakSlip = axle.slipAtPeak;
  const { perRadius } = axle;
  const perTorque = gear.efficiency * gear.ratio * perRadius;
  const spin = gear.inertia * perRadius * perRadius;
  const perSpeed = gear.ratio * perRadius;
  const perSlip = perSpeed * v;
  const resist = cd * N0 + axle.hubDrag + cu * beside.unloaded + other.hubDrag + m.now.against;
  const inertia = car.inertialMass + (cd - cu) * k;
  const toForce = car.inertialMass - cu * k;
  const near = m.sharp ? STRETCH_TOLERANCE : COARSE_STRETCH;
  guessStretch(at, m.now);
  let z = at.stretch;
  let a = 0;
  let T = 0;
  let N = N0;
  let F = 0;
  let G = 0;
  // Negative slip: where the drive is too weak to turn even its own wheels against their rolling resistance.
  let low = -1;
  let high = Infinity;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const slip = z * peakSlip;
    at.motorSpeed = perSlip * (1 + slip);
    limit(m, axle, at, l);
    T = at.limit;
    const slope = at.limitSlope;
    const wheel = perTorque * (T - dragTorque);
    const perInertia = 1 / (inertia + spin * (1 + slip));
    a = (wheel - resist) * perInertia;
    N = N0 + k * a;
    F = wheel - cd * N - axle.hubDrag - spin * (1 + slip) * a;
    const mu = friction(axle, at, N);
    G = mu * N;
    if (peakSlip === 0) break;
    let sigma = 1;
    let sigmaSlope = 0;
    let bend = 0;
    if (z < 1) {
      slipCurve(axle, at, stiffness * z);
      sigma = at.share;
      sigmaSlope = at.shareSlope * stiffness;
      bend = at.shareBend * stiffness * stiffness;
    }
    // Force and load both follow the slip through the acceleration.
    const aOverSpeed = perTorque * slope * perSpeed * perInertia;
    const da = aOverSpeed * v * peakSlip - spin * peakSlip * a * perInertia;
    const residual = G * sigma - F;
    if (residual > 0) high = z;
    else low = z;
    const overA = loadShare(axle, mu) * mu * sigma * k - toForce;
    const steep = G * sigmaSlope + overA * da;
    // The bend of the tyre curve stands for all of the bend: it is most of it.
    const curved = 0.5 * residual * G * bend;
    // From next to the peak the bend alone would set the step, which is none: the bracket takes over.
    const straight = Math.abs(curved) < steep * steep;
    let next = z - (residual * steep) / (steep * steep - curved);
    // A torque that does not fall with speed may exceed the peak at any slip: then the slip stays at the peak.
    // So does that of a car that rolls back: past the peak its wheels only bring more force the less they turn along with it.
    if (slope === 0 && high === Infinity && !(straight && next >= low && next < 1)) next = 1;
    // At the peak the curve is flat and a step may go anywhere: the bracket takes over.
    else if (!(straight && next >= low && next <= high))
      next = high === Infinity ? 2 * Math.abs(low) + 1 : 0.5 * (low + high);
    const change = next - z;
    z = next;
    if (Math.abs(change) < near * (1 + z)) {
      // So near that all else may follow along its tangent.
      T += slope * perSlip * peakSlip * change;
      a += da * change;
      N += k * da * change;
      F += toForce * da * change;
      G += loadShare(axle, mu) * mu * k * da * change;
      const drag = 2 * car.halfRhoCdA * Math.abs(v + car.wind);
      at.stretchSlope = (drag - overA * (aOverSpeed * (1 + slip) - drag * perInertia)) / steep;
      break;
    }
  }
  at.stretchSpeed = v;
  m.now.acceleration = a;
  at.load = N;
  at.grip = G;
  at.force = F;
  at.stretch = z;
  at.torque = T;
}

/** Where the iteration on the slip starts: at the last call's, carried along the change of speed. */
function guessStretch(at: AxleNow, { speed: v }: CarNow): void {
  const last = at.stretchSpeed;
  // As if slip went with the inverse of speed, which at constant power it nearly does.
  const change = at.stretchSlope * (v - last) * (last / v);
  // A trial step of the solver may have left anything behind.
  if (!(Math.abs(at.stretch) < MOST_STRETCH)) at.stretch = 0;
  else if (Math.abs(change) < 0.2 && at.stretch + change < 1) at.stretch += change;
}
