/** Which mode a car is in, and which one comes next: generated from the list of limits. */
import { nth } from '../../columns.ts';
import type { AxleFigures } from './figures.ts';
import { gearAt } from './gear-at.ts';
import { AXLE_GUARDS, guard, unlabelled } from './guards.ts';
import type { AxleNow, Moving } from './instant.ts';
import { lowestOwn } from './limits.ts';
import { searchedMode } from './mode-search.ts';
import { followed, heldByCurrent, ledByFront, together } from './paired-modes.ts';
import { rates } from './rates.ts';
import { isOpen } from './slip-step.ts';
import {
  atCurrent,
  axleMode,
  BREAK,
  follows,
  GEAR_SHIFT,
  GEARED,
  GRIP,
  L,
  LIMIT_BITS,
  REAR_SHIFT,
  SLIDE,
  SPEED,
  SPENDS,
  SPENT,
  withAxleMode,
} from './state.ts';

const MOST_CHANGES = 40;

/** s; a shorter break in the torque is none. */
export const SHORTEST_BREAK = 1e-4;

/** Limits closer than this share of the peak torque are taken as equal when a mode is looked for. */
const TIE = 1e-9;

/** Whether a torque that goes by the time since the pedal went down is in force. */
export function buildsUp(mode: number): boolean {
  return (axleMode(mode, 0) & LIMIT_BITS) === L.buildUp || (axleMode(mode, 1) & LIMIT_BITS) === L.buildUp;
}

/**
 * Whether a car moves in one mode as in another: where each axle that differs is at the grip limit in both the limit is what would come
 * next, and changes nothing but what is counted as withheld.
 */
export function alikeAtGrip(from: number, to: number): boolean {
  const both = from & to;
  const front = (both & GRIP) !== 0 ? LIMIT_BITS : 0;
  const rear = (both & (GRIP << REAR_SHIFT)) !== 0 ? LIMIT_BITS << REAR_SHIFT : 0;
  return ((from ^ to) & ~(front | rear)) === 0;
}

/** Of the slip at the grip limit: below that a slip goes evenly with what the torque asks. By trial over 300 cars, with a gearbox and without. */
const FAR_FROM_GRIP = 0.7;

/** What goes by the speed of a unit and the voltage: the pack's limits and those of heat may leave an axle next to nothing, and have corners there. */
const LIMITS_OF_UNIT = (1 << L.torque) | (1 << L.power) | (1 << L.busVoltage) | (1 << L.shaft) | (1 << L.pedal);

/**
 * Whether a mode goes on evenly from the instant on at which the rates were asked last: each driven axle is at its grip, let go, or held
 * back by its unit far from its grip. Close to it slip goes with a root.
 */
export function evenly({ front, rear, atFront, atRear }: Moving, mode: number): boolean {
  const breaks = (mode & BREAK) !== 0;
  return (
    !buildsUp(mode) &&
    goesEvenly(front, atFront, axleMode(mode, 0), breaks) &&
    goesEvenly(rear, atRear, axleMode(mode, 1), breaks)
  );
}

function goesEvenly(axle: AxleFigures, at: AxleNow, bits: number, breaks: boolean): boolean {
  if (!axle.driven || axle.spin) return !axle.driven;
  if (isOpen(axle, breaks) || (bits & GRIP) !== 0) return true;
  const ofUnit = ((1 << (bits & LIMIT_BITS)) & LIMITS_OF_UNIT) !== 0;
  return ofUnit && Math.abs(at.stretch) < FAR_FROM_GRIP * axle.maxStretch;
}

/** s: the end of a break in the torque, and the instant at which a torque that builds up has come to its peak; Infinity for neither. */
export function knownEnd(m: Moving, mode: number): number {
  if ((mode & BREAK) !== 0) return m.now.shiftEnd;
  return Math.min(builtUp(m, m.front, axleMode(mode, 0)), builtUp(m, m.rear, axleMode(mode, 1)));
}

/** By so much of it past the peak, that the guard has passed zero whatever is rounded. */
const ROUNDED = 1e-14;

function builtUp({ now }: Moving, axle: AxleFigures, bits: number): number {
  if ((bits & (GRIP | LIMIT_BITS)) !== L.buildUp) return Infinity;
  return now.pressedAt + (1 + ROUNDED) * (axle.peakTorque / axle.torqueGrowth);
}

/** The mode after a guard has passed zero. */
export function switched(m: Moving, mode: number, fired: number, y: Float64Array): number {
  const { places } = m;
  if (places.guardBudget < 0) return switchedBoth(m, mode, fired, y);
  if (fired === places.guardBudget) return mode ^ SPENDS;
  if (fired === places.guardBudget + 1) return spend(m, mode, y);
  const next = unlessSpent(m, switchedBoth(m, mode, fired, y));
  const whole = (next & (SPENDS | SPENT)) === 0;
  return whole && places.guardShift >= 0 && spendsAt(m, next, y) ? next | SPENDS : next;
}

/** Whether the current is above the continuous one at once: so a gear that is let go, or taken, moves it. */
function spendsAt(m: Moving, mode: number, y: Float64Array): boolean {
  rates(m, mode, y, m.ratesOut);
  return m.packNow.current > m.pack.continuous;
}

/** What one of two driven axles comes to may move the other one at once, as the gear that is let go does whose torque is left to the other. */
function switchedBoth(m: Moving, mode: number, fired: number, y: Float64Array): number {
  const next = switchedAxle(m, mode, fired, y);
  if (!m.front.driven || !m.rear.driven) return next;
  return settle(m, next, y, mode);
}

/** Where something else holds the car back the current is below the continuous one, and the budget recovers. */
function unlessSpent({ front, rear }: Moving, mode: number): number {
  if ((mode & SPENT) === 0) return mode;
  // Of two drives the one that goes on while the gear of the other one is changed may be held back by it.
  const breaks = (mode & BREAK) !== 0;
  const ofFront = !isOpen(front, breaks) && atCurrent(axleMode(mode, 0));
  return ofFront || (!isOpen(rear, breaks) && atCurrent(axleMode(mode, 1))) ? mode : (mode & ~SPENT) | SPENDS;
}

/** The mode with a budget that is spent: the limit of the current has fallen. */
function spend(m: Moving, mode: number, y: Float64Array): number {
  const settled = settle(m, (mode & ~SPENDS) | SPENT, y);
  const kept = unlessSpent(m, settled);
  if (kept === settled) return settled;
  const free = settle(m, kept, y);
  // Where another limit and that current are one to the last digits the budget says which of them it is.
  return spendsAt(m, free, y) ? ledByFront(heldByCurrent(settled)) : free;
}

function switchedAxle(m: Moving, mode: number, fired: number, y: Float64Array): number {
  const { places } = m;
  if (fired === places.guardShift) return changeGear(m, mode, y);
  const axle = places.guardsRear >= 0 && fired >= places.guardsRear ? 1 : 0;
  const figures = axle === 0 ? m.front : m.rear;
  const at = axle === 0 ? m.atFront : m.atRear;
  const l = fired % AXLE_GUARDS;
  const bits = axleMode(mode, axle);
  if (l === 0 && figures.spin) return withAxleMode(mode, axle, bits ^ SLIDE);
  if (l === 0 && (bits & GRIP) === 0) return atItsGrip(m, mode, axle);
  if (follows(bits)) return withAxleMode(followed(mode, axle), axle, (bits & SLIDE) | l);
  if (l === L.split) return withAxleMode(mode, axle, (bits & SLIDE) | l);
  if (l > 0) return together(withAxleMode(mode, axle, (bits & ~LIMIT_BITS) | l), axle);
  at.stretch = figures.maxStretch;
  return withAxleMode(mode, axle, unlabelled(m, figures, bits) ? lowestOwn(m, figures, at) : bits & LIMIT_BITS);
}

/** The mode with an axle at its grip, that was not: below that is a limit of its own, never the share that it followed. */
function atItsGrip(m: Moving, mode: number, axle: number): number {
  const bits = axleMode(mode, axle);
  if (!follows(bits)) return withAxleMode(mode, axle, bits | GRIP);
  const own = axle === 0 ? lowestOwn(m, m.front, m.atFront) : lowestOwn(m, m.rear, m.atRear);
  return withAxleMode(followed(mode, axle), axle, GRIP | own);
}

/** The gear is let go, or the next one taken. */
function changeGear(m: Moving, mode: number, y: Float64Array): number {
  if ((mode & BREAK) === 0 && m.car.shiftTime >= SHORTEST_BREAK) {
    m.now.shiftEnd = y[m.places.states]! + m.car.shiftTime;
    return mode | BREAK;
  }
  return settle(m, (mode & ~BREAK) + (1 << GEAR_SHIFT), y);
}

/**
 * Where a gear is let go the other axle goes by its own limits, whatever share the two keep: nothing is left to keep a share to. The
 * open one follows it, so that the share holds again from when the next gear is taken.
 */
function alone(m: Moving, mode: number): number {
  const breaks = (mode & BREAK) !== 0;
  if (!breaks || m.front.torqueShare === 0 || !m.front.driven || !m.rear.driven) return mode;
  const open = isOpen(m.front, breaks) ? 0 : 1;
  if (isOpen(m.front, breaks) === isOpen(m.rear, breaks)) return mode;
  const bits = axleMode(mode, 1 - open);
  const [closed, at] = open === 0 ? [m.rear, m.atRear] : [m.front, m.atFront];
  const leads = follows(bits) ? withAxleMode(mode, 1 - open, (bits & SLIDE) | lowestOwn(m, closed, at)) : mode;
  return withAxleMode(leads, open, (axleMode(mode, open) & SLIDE) | L.split);
}

/**
 * The mode at a state: the plain minimum of all limits.
 * @param kept a mode whose gear is kept, let go or not; left out: the gear is that of the speed.
 */
export function modeAt(m: Moving, y: Float64Array, kept?: number): number {
  let mode = kept === undefined ? 0 : kept & GEARED;
  if (m.front.driven) mode = withAxleMode(mode, 0, L.torque | (m.front.spin ? 0 : GRIP));
  if (m.rear.driven) mode = withAxleMode(mode, 1, L.torque | (m.rear.spin ? 0 : GRIP));
  if (kept === undefined) mode += gearAt(m, nth(y, SPEED)) << GEAR_SHIFT;
  const { budget } = m.places;
  if (budget < 0) return settle(m, mode, y);
  if (y[budget]! >= 1) return spend(m, mode, y);
  const settled = settle(m, y[budget]! > 0 ? mode | SPENDS : mode, y);
  return y[budget]! > 0 || m.packNow.current <= m.pack.continuous ? settled : settled | SPENDS;
}

/** Where no slip balances a torque: the axle that would push harder than its tyres can is at its grip. Its guards tell nothing. */
function withGrip(m: Moving, mode: number): number {
  const { front, rear, atFront, atRear } = m;
  const breaks = (mode & BREAK) !== 0;
  const beyond = (axle: AxleFigures, at: AxleNow): boolean =>
    axle.driven && !axle.spin && !isOpen(axle, breaks) && at.force > at.grip;
  const held = beyond(front, atFront) ? atItsGrip(m, mode, 0) : mode;
  return beyond(rear, atRear) ? atItsGrip(m, held, 1) : held;
}

/**
 * Changes one limit after the other, the most violated first, until none lies below the one in force.
 * @param left a mode that has just been left: round-off leads back to it.
 */
function settle(m: Moving, from: number, y: Float64Array, left = -1): number {
  let mode = alone(m, ledByFront(from));
  for (let change = 0; change < MOST_CHANGES; change++) {
    rates(m, mode, y, m.ratesOut);
    const gripped = m.now.lost ? withGrip(m, mode) : mode;
    if (gripped !== mode) {
      mode = gripped;
      continue;
    }
    const fired = mostPassed(m, mode, y);
    if (fired < 0) {
      // Without a balance no guard can tell.
      if (m.now.lost) break;
      return mode;
    }
    const next = ledByFront(switchedAxle(m, mode, fired, y));
    if (next === left) return mode;
    mode = next;
  }
  if ((mode & BREAK) !== 0) return mode;
  const found = searchedMode(m, mode, each => {
    rates(m, each, y, m.ratesOut);
    if (m.now.lost) return -Infinity;
    const fired = mostPassed(m, each, y);
    return fired < 0 ? 0 : nth(m.guards, fired);
  });
  rates(m, found, y, m.ratesOut);
  return found;
}

/** The guard of an axle that is passed by the most, right after `rates`; -1 where none is. */
function mostPassed(m: Moving, mode: number, y: Float64Array): number {
  const { guards, places } = m;
  guard(m, mode, y, guards);
  let worst = -TIE;
  let fired = -1;
  for (let g = 0; g < places.guardsOfAxles; g++) {
    if (guards[g]! < worst) {
      worst = guards[g]!;
      fired = g;
    }
  }
  return fired;
}
