/** Which gear of a kept gearbox is driven in, and what a change of it costs. */

import { drivenPackAt } from '../../model/backward/pack-step.ts';
import { BEYOND, OVER } from '../../model/backward/state.ts';
import { rotorEnergy } from '../../model/forward/by-products.ts';
import { curveAt, curveIntegral } from '../../model/tables/curve.ts';
import { bitsAt, fastest } from './instant.ts';
import type { Journey } from './journey.ts';

/** s for which a gear is kept: common practice, no source. */
const SHORTEST_GEAR = 3;

/** Of the power out of the pack, and W: a gear that gains less is not taken. Common practice, no source. */
const WORTH = 0.02;
const LEAST_WORTH = 50;

/** Gears to choose from; 1 where there is no choice. */
export function gearCount({ following: { front, rear } }: Journey): number {
  return Math.max(1, front.axle.gears.length, rear.axle.gears.length);
}

/**
 * Takes the gear in which the coming interval takes least out of the pack, of those in which the motor turns no faster than it may;
 * it is kept for some seconds. Where there is none it is the highest.
 */
export function chooseGear(car: Journey): void {
  const gears = gearCount(car);
  const { interval, following } = car;
  interval.at = 0.5 * interval.length;
  if (gears === 1 || car.mode >= 0 || interval.from + interval.rise * interval.at <= 0) return;
  const speed = Math.max(interval.from, interval.from + interval.rise * interval.length);
  let best = car.gear;
  let least = Infinity;
  let present = Infinity;
  let turns = true;
  for (let gear = 0; gear < gears; gear++) {
    engage(car, gear);
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
  engage(car, worth ? best : car.gear);
  if (!worth || best === car.gear) return;
  synchronise(car, best, interval.from);
  car.shifted = interval.start;
}

/** Another gear in which the car can do what is asked at the point at hand, where there is one: it is taken. */
export function changesGear(car: Journey): boolean {
  const gears = gearCount(car);
  if (gears === 1) return false;
  const before = car.gear;
  for (let gear = 0; gear < gears; gear++) {
    engage(car, gear);
    if (gear === before || (bitsAt(car) & (BEYOND | OVER)) !== 0) continue;
    synchronise(car, gear, car.following.speed);
    car.shifted = car.interval.start;
    return true;
  }
  engage(car, before);
  return false;
}

/** The gear in which the forward model sets out, at a speed in m/s. @returns whether that is another one. */
export function setOutIn(car: Journey, gear: number, v: number): boolean {
  if (gearCount(car) === 1 || gear === car.gear) return false;
  engage(car, gear);
  synchronise(car, gear, v);
  car.shifted = car.interval.start;
  return true;
}

/** The gear that the forward model was left in. */
export function takeGear(car: Journey, taken: number): void {
  if (gearCount(car) === 1 || taken === car.gear) return;
  engage(car, taken);
  car.gear = taken;
  car.shifted = car.interval.start;
}

/** The rotors of all drives with gears come to their speed in another gear, which is engaged. */
function synchronise(car: Journey, chosen: number, v: number): void {
  const { sums, totals, following } = car;
  const { pack, moving } = following;
  const cells = moving.pack;
  const spare = rotorEnergy(moving, car.gear, v) - rotorEnergy(moving, chosen, v);
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
  const gears = gearCount(car);
  if (gears === 1) return car.fastest;
  engage(car, gears - 1);
  const speed = car.fastest;
  engage(car, car.gear);
  return speed;
}

function engage(car: Journey, gear: number): void {
  const { front, rear } = car.following;
  front.at.gear = front.axle.gears[gear] ?? front.at.gear;
  rear.at.gear = rear.axle.gears[gear] ?? rear.at.gear;
  car.fastest = fastest(car);
}
