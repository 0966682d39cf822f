/**
 * Where a depletion ends. What counts is the way that is driven while the charge is above the low end of the window.
 *
 * The charge of a car in traffic does not fall steadily: braking gives back. Were the end the first instant at the low end, a car
 * that just reaches the top of a rise in speed, brakes and drives on would get hundreds of metres farther than one that is a
 * milligram heavier. So a car that comes to the low end drives on below it, and that way does not count, nor do its time and its
 * energies. If what braking gives back lifts the charge above the low end again the count goes on from there: both cars drive on,
 * and their ranges differ by what the milligram costs. It is over where nothing can lift the charge any more: where all of the
 * motion, and of the fall of the road ahead, is less than what is missing. (Out of the cells, out of the motion and out of the
 * height, energy only gets less.) Then the car is as it was when it last came to the low end.
 *
 * A schedule that ends below the low end ends there: a car on the level at rest has nothing left to give back.
 *
 * A pack too weak for its schedule is no end either: the car drives on behind it as well as it can. But in a range what it drives
 * outside the tolerance of its schedule because of its pack does not count once the charge is low, else a worn pack would go farther
 * than a new one, as the slower car does. It ends where it comes to rest by itself, or where nothing of a whole trip counts. Lights
 * and heating that ask for more than the pack can give get what there is (`place`). `late-by-pack.ts` takes that way back.
 *
 * Everything of this is a length of way within bounds that move continuously with what is put in, so the range does as well.
 */
import * as elementary from '../../elementary.ts';
import { nth } from '../../columns.ts';
import { copyPack, DrivenPack } from '../../model/backward/pack-step.ts';
import { STANDARD_GRAVITY } from '../../model/gravity.ts';
import { copyPowers, Powers } from '../../model/backward/state.ts';
import { curveIntegral } from '../../model/tables/curve.ts';
import { polarisationEnergy } from '../../model/pack/state.ts';
import type { Schedule } from '../../cycles/schedule.ts';
import { FollowTotals } from './journey.ts';
import type { Journey } from './journey.ts';

/** A car as it was when it came to the low end of its pack. */
export interface Excursion {
  readonly pack: DrivenPack;
  readonly sums: Powers;
  /** K of the drive units, front and rear. */
  readonly units: readonly [number, number];
  readonly totals: FollowTotals;
  /** s in the schedule, m and m/s. */
  readonly time: number;
  readonly distance: number;
  readonly speed: number;
  readonly mode: number;
  /** s and J of motion of the schedule that did not count before. */
  readonly skippedTime: number;
  readonly skippedMotion: number;
  /** Rows of the record, and pieces of the trail. */
  readonly rows: number;
  readonly pieces: number;
}

/** The car is at the low end. @param time s in the schedule. */
export function enterBelow(car: Journey, time: number, rows: number): void {
  const pack = new DrivenPack();
  copyPack(car.following.pack, pack);
  const { distance, speed, mode, skippedTime, skippedMotion } = car;
  const totals = Object.assign(new FollowTotals(), car.totals);
  const { front, rear } = car.following;
  const sums = new Powers();
  copyPowers(car.sums, sums);
  const units = [front.at.temperature, rear.at.temperature] as const;
  const pieces = car.track?.trail.pieces ?? 0;
  car.below = { pack, sums, units, totals, time, distance, speed, mode, skippedTime, skippedMotion, rows, pieces };
}

/** The charge has come up to the low end again: nothing since counts but the state that the car is in. */
export function leaveBelow(car: Journey, at: Excursion, now: number): void {
  const { pack, sums, totals, time, distance, speed } = at;
  const gained = polarisationOf(car, car.following.pack) - polarisationOf(car, pack);
  car.skippedTime = at.skippedTime + (now - time);
  car.skippedMotion = at.skippedMotion + motionOf(car, car.speed) - motionOf(car, speed);
  copyPowers(sums, car.sums);
  car.following.pack.heat = pack.heat;
  Object.assign(car.totals, totals);
  car.totals.skippedPolarisation += gained;
  // A rotor brought to its speed in a lower gear may take the charge to below the low end at once.
  car.totals.skippedChemical += chemicalFrom(car, pack.charge);
  car.distance = distance;
  car.track?.trail.truncate(at.pieces);
  car.below = null;
}

/** Nothing lifts the charge any more: the car is as it was at the low end. */
export function rewind(car: Journey, at: Excursion): void {
  const { pack, front, rear } = car.following;
  copyPack(at.pack, pack);
  copyPowers(at.sums, car.sums);
  [front.at.temperature, rear.at.temperature] = at.units;
  Object.assign(car.totals, at.totals);
  car.distance = at.distance;
  car.speed = at.speed;
  car.mode = at.mode;
  car.skippedTime = at.skippedTime;
  car.skippedMotion = at.skippedMotion;
  car.track?.trail.truncate(at.pieces);
  car.below = null;
}

/** Of kinetic energies: what turns is rounded up. */
const MARGIN = 1.05;

/** Whether neither motion nor road can lift the charge above the low end again. @param index of the interval being driven. */
export function isSpent(car: Journey, schedule: Schedule, index: number): boolean {
  const { low, speed, following } = car;
  const { pack, moving, front, rear } = following;
  const missing = (low - pack.charge) * moving.pack.capacity * pack.open;
  let inertia = moving.car.inertialMass;
  for (const { axle, at } of [front, rear])
    if (axle.driven) inertia += at.gear.inertia / elementary.pow(axle.radius, 2);
  const motion = 0.5 * MARGIN * inertia * speed * speed;
  if (missing <= motion) return false;
  return missing > motion + moving.car.mass * STANDARD_GRAVITY * fallAhead(car, schedule, index);
}

/** m from here down to the lowest place ahead in the schedule. */
function fallAhead({ parameters }: Journey, { time, speed, slope }: Schedule, index: number): number {
  const angle = parameters?.car.angle ?? 0;
  if (slope === null && angle >= 0) return 0;
  let height = 0;
  let lowest = 0;
  for (let i = index; i + 1 < time.length; i++) {
    const way = 0.5 * (nth(speed, i) + nth(speed, i + 1)) * (nth(time, i + 1) - nth(time, i));
    height += way * elementary.sin(angle + elementary.atan(slope?.[i] ?? 0));
    lowest = Math.min(lowest, height);
  }
  return -lowest;
}

/** J of the car at a speed in m/s, what turns left aside. */
export function motionOf({ following }: Journey, speed: number): number {
  return 0.5 * following.moving.car.inertialMass * speed * speed;
}

function polarisationOf({ following }: Journey, { pair1, pair2 }: DrivenPack): number {
  return polarisationEnergy(following.moving.pack, pair1, pair2);
}

/** J out of the cells since their charge was another. */
function chemicalFrom({ following: { pack, moving } }: Journey, charge: number): number {
  const { capacity, series, ocv } = moving.pack;
  return capacity * series * curveIntegral(ocv, pack.charge, charge);
}
