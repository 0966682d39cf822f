/**
 * The balance of `plant-balance.ts` for the car that most cars are: one driven axle whose wheel speed is no state and whose
 * drive is engaged. With one unknown it needs no passes over the axles; tests hold the two against each other.
 */
import { limit } from './limits.ts';
import type { UnitTables } from './limits.ts';
import { MOST_STRETCH, spinning, unlimited } from './balance.ts';
import { A, B, GRIP, P, W } from './state.ts';
import { friction } from '../tyre/friction.ts';

/** Changes of slip over slip at the peak, and of load over load, after which what is left is below 1e-11. */
const STRETCH_TOLERANCE = 1e-5;
const LOAD_TOLERANCE = 1e-6;

const MOST_PASSES = 40;

/** @param o, b blocks of the driven axle; `ou`, `bu` of the other one. @param m bits of the driven axle in the mode. */
export function balanceSingle(
  p: Float64Array,
  w: Float64Array,
  o: number,
  b: number,
  ou: number,
  bu: number,
  m: number,
  v: number,
  tables: UnitTables,
): void {
  if ((m & GRIP) !== 0) {
    if (!atShare(p, w, o, b, bu, p[o + A.maxShare]!)) {
      unlimited(p, w, o, b, v);
      w[bu + B.load] = w[bu + B.unloaded]!;
      return;
    }
    w[b + B.grip] = w[b + B.force]! / p[o + A.maxShare]!;
    w[b + B.stretch] = p[o + A.maxStretch]!;
  } else atLimit(p, w, o, b, bu, m, v, tables);
  const a = w[W.acceleration]!;
  follow(p, w, o, ou, bu, v, a);
  const perRadius = 1 / p[o + A.radius]!;
  const slip = w[b + B.stretch]! * p[o + A.slipAtPeak]!;
  w[b + B.slip] = slip;
  w[b + B.slipSpeed] = slip * v;
  w[b + B.wheelSpeed] = (1 + slip) * v * perRadius;
  w[b + B.wheelSpin] = (1 + slip) * a * perRadius;
  w[b + B.motorSpeed] = p[o + A.ratio]! * w[b + B.wheelSpeed]!;
  if ((m & GRIP) === 0) return;
  const moment =
    (w[b + B.force]! + w[b + B.rolling]! * w[b + B.load]!) * p[o + A.radius]! + p[o + A.inertia]! * w[b + B.wheelSpin]!;
  w[b + B.torque] = moment / (p[o + A.efficiency]! * p[o + A.ratio]!) + p[o + A.dragTorque]!;
}

/**
 * The same for a wheel whose speed is a state, engaged or not: its slip stands in the scratch memory already, see
 * `spinState`. What the force leaves of the torque spins the wheel up.
 */
export function balanceSpin(
  p: Float64Array,
  w: Float64Array,
  o: number,
  b: number,
  ou: number,
  bu: number,
  v: number,
  open: boolean,
): void {
  const share = Math.sin(p[o + A.shape]! * Math.atan(p[o + A.stiffness]! * w[b + B.stretch]!));
  if (!atShare(p, w, o, b, bu, share)) w[W.acceleration] = Infinity;
  follow(p, w, o, ou, bu, v, w[W.acceleration]!);
  spinning(p, w, o, b, open);
}

/** The axle that is not driven. */
function follow(p: Float64Array, w: Float64Array, o: number, ou: number, bu: number, v: number, a: number): void {
  const N = w[bu + B.unloaded]! - p[o + A.sign]! * p[P.transfer]! * a;
  w[bu + B.load] = N;
  w[bu + B.force] = -w[bu + B.rolling]! * N;
  w[bu + B.wheelSpeed] = v / p[ou + A.radius]!;
  w[bu + B.wheelSpin] = a / p[ou + A.radius]!;
}

/**
 * m a = s mu(N) N - c N' - drag - grade, with N = N0 + k a. Closed without load sensitivity; with it a Newton iteration on
 * N, from the load of the last call. False where grip never limits, see `unlimited`.
 */
function atShare(p: Float64Array, w: Float64Array, o: number, b: number, bu: number, share: number): boolean {
  const k = p[o + A.sign]! * p[P.transfer]!;
  const cu = w[bu + B.rolling]!;
  const N0 = w[b + B.unloaded]!;
  const q = p[o + A.loadExponent]!;
  const resist = cu * w[bu + B.unloaded]! + w[W.drag]! + p[P.gradeForce]!;
  const known = w[b + B.load]!;
  let N = known > 0.1 * N0 ? known : 0.1 * N0;
  let a = 0;
  let F = 0;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const g = share * friction(p, w, o, b, N);
    // Tangent to g(N) N at this load: slope (1 - q) g, intercept q g N.
    const tangent = (1 - q) * g;
    const stiff = p[P.inertialMass]! - (tangent + cu) * k;
    if (stiff <= 0) return false;
    a = (tangent * N0 + q * g * N - resist) / stiff;
    const next = N0 + k * a;
    F = tangent * next + q * g * N;
    const change = Math.abs(next - N);
    N = next;
    // Quadratic convergence: what is left is below the square of this change.
    if (q === 0 || change <= LOAD_TOLERANCE * N) break;
    N = Math.max(N, 0.1 * N0);
  }
  w[W.acceleration] = a;
  w[b + B.load] = N;
  w[b + B.force] = F;
  return true;
}

/**
 * With limit `l` in force: the slip is where the tyre gives just the force that the drive puts out at the motor speed of that
 * slip. Halley's iteration on the slip over the slip at the peak. Past the peak the tyre curve goes on flat, so that a step of
 * the solver may overshoot smoothly before it is cut at the switch.
 */
function atLimit(
  p: Float64Array,
  w: Float64Array,
  o: number,
  b: number,
  bu: number,
  l: number,
  v: number,
  tables: UnitTables,
): void {
  const k = p[o + A.sign]! * p[P.transfer]!;
  const cd = w[b + B.rolling]!;
  const cu = w[bu + B.rolling]!;
  const N0 = w[b + B.unloaded]!;
  const q = p[o + A.loadExponent]!;
  const stiffness = p[o + A.stiffness]!;
  const peakSlip = p[o + A.slipAtPeak]!;
  const dragTorque = p[o + A.dragTorque]!;
  const perRadius = 1 / p[o + A.radius]!;
  const gear = p[o + A.efficiency]! * p[o + A.ratio]! * perRadius;
  const spin = p[o + A.inertia]! * perRadius * perRadius;
  const perSpeed = p[o + A.ratio]! * perRadius;
  const perSlip = perSpeed * v;
  const resist = cd * N0 + cu * w[bu + B.unloaded]! + w[W.drag]! + p[P.gradeForce]!;
  const inertia = p[P.inertialMass]! + (cd - cu) * k;
  const toForce = p[P.inertialMass]! - cu * k;
  let z = firstStretch(w, b, v);
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
    w[b + B.motorSpeed] = perSlip * (1 + slip);
    limit(p, w, o, b, l, tables);
    T = w[b + B.limit]!;
    const slope = w[b + B.limitSlope]!;
    const wheel = gear * (T - dragTorque);
    const perInertia = 1 / (inertia + spin * (1 + slip));
    a = (wheel - resist) * perInertia;
    N = N0 + k * a;
    F = wheel - cd * N - spin * (1 + slip) * a;
    const mu = friction(p, w, o, b, N);
    G = mu * N;
    if (peakSlip === 0) break;
    let sigma = 1;
    let sigmaSlope = 0;
    let bend = 0;
    if (z < 1) {
      slipCurve(p, w, o, b, stiffness * z, pass > 0);
      sigma = w[b + B.share]!;
      sigmaSlope = w[b + B.shareSlope]! * stiffness;
      bend = w[b + B.shareBend]! * stiffness * stiffness;
    }
    // Force and load both follow the slip through the acceleration.
    const aOverSpeed = gear * slope * perSpeed * perInertia;
    const da = aOverSpeed * v * peakSlip - spin * peakSlip * a * perInertia;
    const residual = G * sigma - F;
    if (residual > 0) high = z;
    else low = z;
    const overA = (1 - q) * mu * sigma * k - toForce;
    const steep = G * sigmaSlope + overA * da;
    // The bend of the tyre curve stands for all of the bend: it is most of it.
    let next = z - (residual * steep) / (steep * steep - 0.5 * residual * G * bend);
    // A torque that does not fall with speed may exceed the peak at any slip: then the slip stays at the peak.
    if (slope === 0 && high === Infinity && !(next < 1)) next = 1;
    // At the peak the curve is flat and a step may go anywhere: the bracket takes over.
    else if (!(next >= low && next <= high)) next = high === Infinity ? 2 * Math.abs(low) + 1 : 0.5 * (low + high);
    const change = next - z;
    z = next;
    if (Math.abs(change) < STRETCH_TOLERANCE * (1 + z)) {
      // So near that all else may follow along its tangent.
      T += slope * perSlip * peakSlip * change;
      a += da * change;
      N += k * da * change;
      F += toForce * da * change;
      G += (1 - q) * mu * k * da * change;
      const drag = 2 * p[P.halfRhoCdA]! * Math.abs(v + p[P.wind]!);
      w[b + B.stretchSlope] = (drag - overA * (aOverSpeed * (1 + slip) - drag * perInertia)) / steep;
      break;
    }
  }
  w[b + B.stretchSpeed] = v;
  w[W.acceleration] = a;
  w[b + B.load] = N;
  w[b + B.grip] = G;
  w[b + B.force] = F;
  w[b + B.stretch] = z;
  w[b + B.torque] = T;
}

/** Where the iteration on the slip starts: at the last call's, carried along the change of speed. */
function firstStretch(w: Float64Array, b: number, v: number): number {
  const z = w[b + B.stretch]!;
  const last = w[b + B.stretchSpeed]!;
  // As if slip went with the inverse of speed, which at constant power it nearly does.
  const change = w[b + B.stretchSlope]! * (v - last) * (last / v);
  // A trial step of the solver may have left anything behind.
  if (!(Math.abs(z) < MOST_STRETCH)) return 0;
  return Math.abs(change) < 0.2 && z + change < 1 ? z + change : z;
}

/**
 * Share of the peak force at x = B slip, its slope and its bend: sigma = sin(C atan x). `near` allows the Taylor series
 * about the point where the function was last taken, to 1e-13: with kappa = cos(C atan x), (1 + x^2) sigma' = C kappa and
 * (1 + x^2) kappa' = -C sigma give its coefficients one after the other.
 */
function slipCurve(p: Float64Array, w: Float64Array, o: number, b: number, x: number, near: boolean): void {
  const c = b + B.series;
  const h = x - w[b + B.center]!;
  if (near && h * h < 2e-4 * (1 + x * x)) {
    const c1 = w[c + 1]!;
    const c2 = w[c + 2]!;
    const c3 = w[c + 3]!;
    const c4 = w[c + 4]!;
    const c5 = w[c + 5]!;
    const c6 = w[c + 6]!;
    w[b + B.share] = w[c]! + h * (c1 + h * (c2 + h * (c3 + h * (c4 + h * (c5 + h * c6)))));
    w[b + B.shareSlope] = c1 + h * (2 * c2 + h * (3 * c3 + h * (4 * c4 + h * (5 * c5 + h * 6 * c6))));
    w[b + B.shareBend] = 2 * c2 + h * (6 * c3 + h * 12 * c4);
    return;
  }
  const C = p[o + A.shape]!;
  const s0 = Math.sin(C * Math.atan(x));
  const k0 = Math.sqrt(1 - s0 * s0);
  const r = 1 / (1 + x * x);
  const f = C * r;
  const g = 2 * x * r;
  const s1 = f * k0;
  const k1 = -f * s0;
  const s2 = (1 / 2) * (f * k1 - g * s1);
  const k2 = (1 / 2) * (-f * s1 - g * k1);
  const s3 = (1 / 3) * (f * k2 - 2 * g * s2 - r * s1);
  const k3 = (1 / 3) * (-f * s2 - 2 * g * k2 - r * k1);
  const s4 = (1 / 4) * (f * k3 - 3 * g * s3 - 2 * r * s2);
  const k4 = (1 / 4) * (-f * s3 - 3 * g * k3 - 2 * r * k2);
  const s5 = (1 / 5) * (f * k4 - 4 * g * s4 - 3 * r * s3);
  const k5 = (1 / 5) * (-f * s4 - 4 * g * k4 - 3 * r * k3);
  const s6 = (1 / 6) * (f * k5 - 5 * g * s5 - 4 * r * s4);
  w[b + B.center] = x;
  w[c] = s0;
  w[c + 1] = s1;
  w[c + 2] = s2;
  w[c + 3] = s3;
  w[c + 4] = s4;
  w[c + 5] = s5;
  w[c + 6] = s6;
  w[b + B.share] = s0;
  w[b + B.shareSlope] = s1;
  w[b + B.shareBend] = 2 * s2;
}
