/** A drive unit so hot that its derating leaves it nothing: however much hotter it grows it is not driven backwards, and its torque has a corner there. */
import { nth } from '../../columns.ts';
import { heatShare, isHeat } from './limits.ts';
import type { AxleFigures } from './figures.ts';
import type { Moving } from './instant.ts';
import { isOpen } from './slip-step.ts';
import { axleMode, BREAK, GRIP, LIMIT_BITS, tooHot } from './state.ts';

/** Adds the guards of units that come to that, or leave it. */
export function hotGuards({ front, rear, places }: Moving, mode: number, y: Float64Array, out: Float64Array): void {
  if (places.guardHotFront >= 0) hotGuard(front, mode, 0, y, places.unitFront, out, places.guardHotFront);
  if (places.guardHotRear >= 0) hotGuard(rear, mode, 1, y, places.unitRear, out, places.guardHotRear);
}

/** @param unit where the temperature of the unit stands in `y`. */
function hotGuard(
  axle: AxleFigures,
  mode: number,
  side: number,
  y: Float64Array,
  unit: number,
  out: Float64Array,
  place: number,
): void {
  if (!isDerated(mode, side) || isOpen(axle, (mode & BREAK) !== 0)) return;
  const share = heatShare(axle, nth(y, unit));
  out[place] = (mode & tooHot(side)) === 0 ? share : -share;
}

/** Whether the heat of its unit sets the torque of an axle. @param side 0 front, 1 rear. */
function isDerated(mode: number, side: number): boolean {
  const bits = axleMode(mode, side);
  return (bits & GRIP) === 0 && isHeat(bits & LIMIT_BITS);
}

/** The axle whose unit a guard tells of, 0 front, 1 rear; -1 where it tells of something else. */
export function heatOf({ places }: Moving, fired: number): number {
  return fired === places.guardHotFront ? 0 : fired === places.guardHotRear ? 1 : -1;
}

/** A mode with what it says of units that are too hot. @param left the mode before, -1 for none: round-off must not take back what it said. */
export function heated({ front, rear, places }: Moving, left: number, mode: number, y: Float64Array): number {
  let found = mode;
  if (places.guardHotFront >= 0) found = heatedAxle(front, left, found, 0, nth(y, places.unitFront));
  if (places.guardHotRear >= 0) found = heatedAxle(rear, left, found, 1, nth(y, places.unitRear));
  return found;
}

function heatedAxle(axle: AxleFigures, left: number, mode: number, side: number, temperature: number): number {
  const bit = tooHot(side);
  if (!isDerated(mode, side)) return mode & ~bit;
  if (left >= 0 && isDerated(left, side)) return (mode & ~bit) | (left & bit);
  return heatShare(axle, temperature) > 0 ? mode & ~bit : mode | bit;
}
