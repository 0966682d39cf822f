/** Which gear of a kept gearbox is driven in, and what a change of it costs. */

import { drivenPackAt } from '../../model/backward/pack-step.ts';
import type { Side } from '../../model/backward/state.ts';
import { BEYOND, OVER } from '../../model/backward/state.ts';
import { rotorEnergyOf } from '../../model/forward/by-products.ts';
import { curveAt, curveIntegral } from '../../model/tables/curve.ts';
import { bitsAt, fastest } from './instant.ts';
import type { Journey } from './journey.ts';

/** s for which a gear is kept: common practice, no source. */
const SHORTEST_GEAR = 3;

/** Of the power out of the pack, and W: a gear that gains less is not taken. Common practice, no source. */
const WORTH = 0.02;
const LEAST_WORTH = 50;

/** The side whose drive has gears to choose from. */
function gearedSide({ following: { front, rear } }: Journey): Side | null {
  if (front.axle.gears.length > 1) return front;
  return rear.axle.gears.length > 1 ? rear : null;
}

/**
 * Takes the gear in which the coming interval takes least out of the pack, of those in which the motor turns no faster than it may;
 * it is kept for some seconds. Where there is none it is the highest.
 */
export function chooseGear(car: Journey): void {
  const side = gearedSide(car);
  const { interval, following } = car;
  interval.at = 0.5 * interval.length;
  if (side === null || car.mode >= 0 || interval.from + interval.rise * interval.at <= 0) return;
  const speed = Math.max(interval.from, interval.from + interval.rise * interval.length);
  const gears = side.axle.gears.length;
  let best = car.gear;
  let least = Infinity;
  let present = Infinity;
  let turns = true;
  for (let gear = 0; gear < gears; gear++) {
    engage(car, side, gear);
    const slow = speed <= car.fastest;
    const power = !slow || (bitsAt(car) & (BEYOND | OVER)) !== 0 ? Infinity : following.powers.power;
    if (gear === car.gear) {
      present = power;
      turns = slow;
    }
    if (power < least) {
      least = power;
      best = gear;
    }
  }
  if (least === Infinity && !turns) best = gears - 1;
  const rested = interval.start - car.shifted >= SHORTEST_GEAR;
  const gain = present - Math.max(WORTH * Math.abs(present), LEAST_WORTH);
  const worth = present === Infinity ? least < Infinity || !turns : rested && least < gain;
  engage(car, side, worth ? best : car.gear);
  if (!worth || best === car.gear) return;
  synchronise(car, side, best, interval.from);
  car.shifted = interval.start;
}

/** Another gear in which the car can do what is asked at the point at hand, where there is one: it is taken. */
export function changesGear(car: Journey): boolean {
  const side = gearedSide(car);
  if (side === null) return false;
  const before = car.gear;
  for (let gear = 0; gear < side.axle.gears.length; gear++) {
    engage(car, side, gear);
    if (gear === before || (bitsAt(car) & (BEYOND | OVER)) !== 0) continue;
    synchronise(car, side, gear, car.following.speed);
    car.shifted = car.interval.start;
    return true;
  }
  engage(car, side, before);
  return false;
}

/** The gear in which the forward model sets out, at a speed in m/s. @returns whether that is another one. */
export function setOutIn(car: Journey, gear: number, v: number): boolean {
  const side = gearedSide(car);
  if (side === null || gear === car.gear) return false;
  engage(car, side, gear);
  synchronise(car, side, gear, v);
  car.shifted = car.interval.start;
  return true;
}

/** The gear that the forward model was left in. */
export function takeGear(car: Journey, taken: number): void {
  const side = gearedSide(car);
  if (side === null || taken === car.gear) return;
  engage(car, side, taken);
  car.gear = taken;
  car.shifted = car.interval.start;
}

/** The rotor comes to its speed in another gear, which is engaged. */
function synchronise(car: Journey, { axle }: Side, chosen: number, v: number): void {
  const { sums, totals, following } = car;
  const { pack, moving } = following;
  const cells = moving.pack;
  const spare = rotorEnergyOf(axle, car.gear, v) - rotorEnergyOf(axle, chosen, v);
  if (spare > 0) totals.synchronised += spare;
  else {
    // The motor brings the rotor to its new speed, out of the pack: nothing of it is lost on the way.
    totals.raised -= spare;
    sums.power -= spare;
    const q = pack.charge;
    const perCharge = -spare / (cells.capacity * cells.series);
    let drop = perCharge / curveAt(cells.ocv, q);
    drop += (perCharge - curveIntegral(cells.ocv, q - drop, q)) / curveAt(cells.ocv, q - drop);
    pack.charge = q - drop;
    drivenPackAt(cells, pack);
  }
  car.gear = chosen;
  totals.shifts++;
}

/** m/s at which the first of the motors turns as fast as it may, in the highest gear. */
export function fastestOfAll(car: Journey): number {
  const side = gearedSide(car);
  if (side === null) return car.fastest;
  engage(car, side, side.axle.gears.length - 1);
  const speed = car.fastest;
  engage(car, side, car.gear);
  return speed;
}

function engage(car: Journey, { axle, at }: Side, gear: number): void {
  at.gear = axle.gears[gear] ?? at.gear;
  car.fastest = fastest(car);
}
