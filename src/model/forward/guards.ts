/** How far every limit is from the one in force, and what else ends a mode: its guards. */
import { nth } from '../../columns.ts';
import type { AxleFigures } from './figures.ts';
import { upshiftSpeed } from './gear-at.ts';
import type { AxleNow, Moving } from './instant.ts';
import { coldRoom, isHeat, limit, lowestOwn, packPower } from './limits.ts';
import { isOpen } from './slip-step.ts';
import {
  atPack,
  axleMode,
  BREAK,
  follows,
  GRIP,
  gearOf,
  isPackLimit,
  L,
  LIMIT_BITS,
  LIMIT_COUNT,
  SLIDE,
  SPEED,
  SPENDS,
  SPENT,
} from './state.ts';

/** Guards of one axle: 0 is grip, k is limit k. */
export const AXLE_GUARDS = LIMIT_COUNT + 1;

/** Of the peak torque: so close to its own limit an axle that follows the other one goes on following, and so close to its share one that does not. */
const EVEN = 1e-12;

/** Peak torques from where on more room makes no difference. */
const MOST_ROOM = 1e16;

/** From so far below nothing on it goes on along its tangent: the line would end at -1. */
const STRAIGHT_TO = -0.5;

/**
 * Room in peak torques as guards tell it: below one, and nearly straight where it goes with the inverse of speed, as that before a power
 * does, from above nothing to below it. A solver that looks for its zero by parabolas is misled by a number that comes from thousands at
 * walking pace, and by one that bends at nothing. Done in its place: a number that a call is given or gives back is boxed where the call
 * is not taken in.
 */
function bound(out: Float64Array, place: number): void {
  const room = nth(out, place);
  if (room > MOST_ROOM) out[place] = 1;
  else out[place] = room > STRAIGHT_TO ? room / (1 + room) : 4 * room + 1;
}

/** Distance of every other limit from the one in force; right after `rates`. */
export function guard(m: Moving, mode: number, y: Float64Array, out: Float64Array): void {
  const { places } = m;
  for (let i = 0; i < out.length; i++) out[i] = Infinity;
  const breaks = (mode & BREAK) !== 0;
  const bitsFront = axleMode(mode, 0);
  const bitsRear = axleMode(mode, 1);
  if (places.guardsFront >= 0) {
    axleGuard(m, m.front, m.atFront, bitsFront, bitsRear, breaks, places.guardsFront, out);
  }
  if (places.guardsRear >= 0) {
    axleGuard(m, m.rear, m.atRear, bitsRear, bitsFront, breaks, places.guardsRear, out);
  }
  if (places.guardBudget >= 0) budgetGuards(m, mode, y, out);
  if (places.guardShift < 0) return;
  out[places.guardShift] = breaks ? m.now.shiftEnd - y[places.states]! : 1 - y[SPEED]! / upshiftSpeed(m, gearOf(mode));
}

/** Whole: the current below the continuous one. Being spent: whole again, or spent. */
function budgetGuards({ pack, packNow, places }: Moving, mode: number, y: Float64Array, out: Float64Array): void {
  const first = places.guardBudget;
  if ((mode & SPENDS) !== 0) {
    out[first] = y[places.budget]!;
    out[first + 1] = 1 - y[places.budget]!;
  } else if ((mode & SPENT) === 0) out[first] = (pack.continuous - packNow.current) / pack.maxCurrent;
}

/** @param bits of the axle in the mode. @param others of the other axle. @param base of its guards in `out`. */
function axleGuard(
  m: Moving,
  axle: AxleFigures,
  at: AxleNow,
  bits: number,
  others: number,
  breaks: boolean,
  base: number,
  out: Float64Array,
): void {
  if (isOpen(axle, breaks)) return;
  const active = bits & LIMIT_BITS;
  const byPack = isPackLimit(active);
  const byHeat = isHeat(active);
  const led = follows(bits);
  const leads = follows(others);
  const scale = 1 / axle.peakTorque;
  const T = at.available;
  out[base] = gripGuard(axle, at, bits, m.now.acceleration);
  if (!axle.spin && (bits & GRIP) !== 0) bound(out, base);
  if (unlabelled(m, axle, bits)) {
    limit(m, axle, at, lowestOwn(m, axle, at));
    out[base] = (at.limit - at.torque) * scale;
    bound(out, base);
    return;
  }
  const { used } = axle;
  for (let i = 0; i < used.length; i++) {
    const l = used[i]!;
    if (l === active) continue;
    if (leads && l === L.split) continue;
    // With the one that leads at the pack's limit, both are.
    if (led && isPackLimit(l) && atPack(others)) continue;
    if (byHeat && isHeat(l)) {
      out[base + l] = coldRoom(axle, at, l) * scale;
      bound(out, base + l);
      continue;
    }
    // Where no power is left to an axle its torque is nothing by every limit of the pack.
    if (byPack && isPackLimit(l)) {
      out[base + l] = (packPower(m, l) - packPower(m, active)) / axle.peakPower;
      continue;
    }
    limit(m, axle, at, l);
    // An axle follows the other one's torque, whether grip or a limit of its own would have come next.
    const room = (at.limit - (l === L.split ? at.torque : T)) * scale;
    // Two like drives with a fixed split come to their limits together: round-off must not say which of them leads.
    out[base + l] = (led || l === L.split) && Math.abs(room) < EVEN ? EVEN : room;
    bound(out, base + l);
  }
}

/**
 * Whether at the grip limit it does not matter which other one would come next: it makes no mode of its own where nobody reads what is
 * withheld, and no share of the other axle's torque may be it.
 */
export function unlabelled({ places }: Moving, axle: AxleFigures, bits: number): boolean {
  return places.quadratures === 0 && (bits & GRIP) !== 0 && axle.torqueShare === 0;
}

/** @param acceleration of the car, m/s2. */
function gripGuard(axle: AxleFigures, at: AxleNow, bits: number, acceleration: number): number {
  if (axle.spin) {
    const z = Math.abs(at.stretch);
    return (bits & SLIDE) === 0 ? 1 - z : z - 1;
  }
  if ((bits & GRIP) !== 0) return (at.available - at.torque) * (1 / axle.peakTorque);
  // Where the torque falls with speed the slip crosses its limit plainly; where it does not, the force does. The slope
  // is still that of the limit in force, which `rates` evaluated last.
  if (at.limitSlope !== 0) return axle.maxStretch - at.stretch;
  const room = axle.maxShare - at.force / at.grip;
  const short = axle.maxStretch - at.stretch;
  // At the peak itself what the tyre still has to give goes as the square of what the slip still has to go: its zero would be anywhere
  // near. What the torque asks at the slip of the limit passes what the tyre gives there plainly: what turns takes less of it before.
  const turning = (at.gear.inertia * axle.slipAtPeak * acceleration) / (axle.radius * axle.radius * at.grip);
  if (turning > 0) return room + turning * short;
  // Past the peak of the curve what turns may take all that is too much for a while, and the force stays where it is. A share of
  // hardly less than all of it is passed before the peak, where the slip stays.
  return short < 0 ? Math.min(room, short) : room;
}
