/**
 * Where what holds an axle back leaves it no torque at all: its drive unit is too hot, or the pack gives less than the unit loses while it only
 * turns. However little there is, the axle is not driven backwards, and its torque has a corner there.
 */
import { nth } from '../../columns.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, Moving } from './instant.ts';
import { heatShare, isHeat } from './limits.ts';
import { rates } from './rates.ts';
import { isOpen } from './slip-step.ts';
import { axleMode, BREAK, GEARED, GRIP, isPackLimit, LIMIT_BITS, nothingLeft, SPENT } from './state.ts';

/** Adds the guards of axles that come to that, or leave it; right after `rates`. */
export function nothingGuards(m: Moving, mode: number, y: Float64Array, out: Float64Array): void {
  const { places } = m;
  if (places.guardNothingFront >= 0)
    out[places.guardNothingFront] = nothingGuard(m.front, m.atFront, mode, 0, y, places.unitFront);
  if (places.guardNothingRear >= 0)
    out[places.guardNothingRear] = nothingGuard(m.rear, m.atRear, mode, 1, y, places.unitRear);
}

/** @param side 0 front, 1 rear. @param unit where the temperature of the unit stands in `y`. */
function nothingGuard(
  axle: AxleFigures,
  at: AxleNow,
  mode: number,
  side: number,
  y: Float64Array,
  unit: number,
): number {
  const sort = sortOf(axle, axleMode(mode, side));
  if (sort === FREE || isOpen(axle, (mode & BREAK) !== 0)) return Infinity;
  const left = sort === HEAT ? heatShare(axle, nth(y, unit)) : at.useful / axle.peakPower;
  if (Number.isNaN(left)) return Infinity;
  return (mode & nothingLeft(side)) === 0 ? left : -left;
}

const FREE = 0;
const HEAT = 1;
const PACK = 2;

/** What may leave an axle nothing in a mode. @param bits of the axle. */
function sortOf(axle: AxleFigures, bits: number): number {
  if ((bits & GRIP) !== 0) return FREE;
  const l = bits & LIMIT_BITS;
  // A map of losses is looked up, and knows no power that is left over.
  return isHeat(l) ? HEAT : isPackLimit(l) && axle.loss === null ? PACK : FREE;
}

/** The axle that a guard tells of, 0 front, 1 rear; -1 where it tells of something else. */
export function axleLeft({ places }: Moving, fired: number): number {
  if (fired < 0) return -1;
  return fired === places.guardNothingFront ? 0 : fired === places.guardNothingRear ? 1 : -1;
}

/** A mode with what it says of axles with nothing left. @param before the mode that it follows, -1 for none. */
export function withNothing(m: Moving, before: number, mode: number, y: Float64Array): number {
  const { front, rear, places } = m;
  let found = mode;
  if (places.guardNothingFront >= 0) found = ofAxle(m, front, m.atFront, before, found, 0, y, places.unitFront);
  if (places.guardNothingRear >= 0) found = ofAxle(m, rear, m.atRear, before, found, 1, y, places.unitRear);
  return found;
}

function ofAxle(
  m: Moving,
  axle: AxleFigures,
  at: AxleNow,
  before: number,
  mode: number,
  side: number,
  y: Float64Array,
  unit: number,
): number {
  const bit = nothingLeft(side);
  const sort = sortOf(axle, axleMode(mode, side));
  if (sort === FREE) return mode & ~bit;
  // Round-off must not take back what a crossing has said. Another gear, and the end of a budget, leave something else at once.
  const goesOn = before >= 0 && ((before ^ mode) & (GEARED | SPENT)) === 0;
  if (goesOn && sortOf(axle, axleMode(before, side)) === sort) return (mode & ~bit) | (before & bit);
  if (sort === HEAT) return heatShare(axle, nth(y, unit)) > 0 ? mode & ~bit : mode | bit;
  if (at.torque > 0) return mode & ~bit;
  rates(m, mode, y, m.ratesOut);
  return at.useful <= 0 ? mode | bit : mode & ~bit;
}
