/** How the torque of a drive unit falls to nothing at its greatest speed: a straight line that takes over from its ratings or table. */
import type { DriveUnit } from '../car.ts';
import { curveAt } from '../tables/curve.ts';
import type { Curve } from '../tables/curve.ts';
import { powerLine, ratedTorque } from './field-weakening.ts';

/** T = slope (greatest speed - w). */
export interface Taper {
  /** N m s/rad. */
  readonly slope: number;
  /** rad/s from which the line is the lower one; Infinity where the table comes down to nothing by itself. */
  readonly speed: number;
  /** rad/s below which the line means nothing: from here on to `speed` it lies above what the unit gives. */
  readonly from: number;
}

/** @param curve through the torque table of the unit; null where its ratings say what it gives. */
export function taperOf(unit: DriveUnit, curve: Curve | null): Taper {
  if (curve !== null) return tableTaper(unit, curve);
  const { maxSpeed, taperSpeed } = unit;
  const torque = ratedTorque(unit, taperSpeed);
  const slope = torque / (maxSpeed - taperSpeed);
  // The line crosses the curve of the power twice, at speeds whose product is this; only the upper one is meant.
  const crossings = torque < unit.peakTorque ? powerLine(unit).power / slope : 0;
  return { slope, speed: taperSpeed, from: Math.max(0.5 * taperSpeed, Math.sqrt(crossings)) };
}

/** Speeds from half the taper speed to the greatest at which a table is looked at. */
const POINTS = 1000;

/** Share by which the line must lie above the table where it begins to count. */
const CLEAR = 1e-3;

/**
 * A line from the greatest speed to the table at the taper speed lies below the rest of a table that comes down by itself. It then
 * takes over later, where the table is far enough above nothing that the line is above all of it from some speed on.
 */
function tableTaper({ maxSpeed, taperSpeed }: DriveUnit, curve: Curve): Taper {
  const low = 0.5 * taperSpeed;
  const slopeAt = (w: number): number => curveAt(curve, w) / (maxSpeed - w);
  let from = low;
  let least = slopeAt(low);
  let most = least;
  for (let i = 1; i < POINTS; i++) {
    const before = low + ((maxSpeed - low) * (i - 1)) / POINTS;
    const w = low + ((maxSpeed - low) * i) / POINTS;
    const speed = before < taperSpeed && taperSpeed <= w ? taperSpeed : w;
    const slope = slopeAt(speed);
    if (speed >= taperSpeed && slope >= most && slope > (1 + CLEAR) * least) return { slope, speed, from };
    if (slope <= least) {
      from = speed;
      least = slope;
      most = slope;
    } else most = Math.max(most, slope);
  }
  return { slope: most, speed: Infinity, from: Infinity };
}
