/** Which gear of a kept gearbox is driven in, and what a change of it costs. */

import { drivenPackAt } from '../../model/backward/pack-step.ts';
import { isEasyForPack } from '../../model/backward/limits.ts';
import { BEYOND, heldByPack, OVER } from '../../model/backward/state.ts';
import { rotorEnergy } from '../../model/forward/by-products.ts';
import { lowestVoltage } from '../../model/pack/state.ts';
import { curveAt, curveIntegral } from '../../model/tables/curve.ts';
import { drawnAt } from './consumers.ts';
import { bitsAt, fastest, isTooMuch } from './instant.ts';
import type { Journey } from './journey.ts';
import { isTaken } from './keeps.ts';
import { gearKept, gearVoltage, isHot, keepGear, SAME_VOLTAGE } from './memory.ts';

/** s for which a gear is kept: common practice, no source. */
const SHORTEST_GEAR = 3;

/** Of the power out of the pack, and W: a gear that gains less is not taken. Common practice, no source. */
const WORTH = 0.02;
const LEAST_WORTH = 50;

/** Gears to choose from; 1 where there is no choice. */
export function gearCount({ following: { front, rear } }: Journey): number {
  return Math.max(1, front.axle.gears.length, rear.axle.gears.length);
}

/** W out of the pack in each gear, in the middle of the coming interval. */
const powers: number[] = [];

/**
 * Takes the gear in which the coming interval takes least out of the pack, of those in which the motor turns no faster than it may;
 * it is kept for some seconds. Where there is none it is the highest.
 */
export function chooseGear(car: Journey): void {
  if (!isToChoose(car)) return;
  const gears = gearCount(car);
  for (let gear = 0; gear < gears; gear++) {
    const known = recallGear(car, gear, gears);
    powers[gear] = Number.isNaN(known) ? askGear(car, gear, gears) : known;
  }
  decide(car, gears);
}

/** The same where what each gear takes is remembered; false, with nothing changed, where it has to be asked. */
export function choosesFromMemory(car: Journey): boolean {
  if (!isToChoose(car)) return true;
  const gears = gearCount(car);
  for (let gear = 0; gear < gears; gear++) {
    const known = recallGear(car, gear, gears);
    if (Number.isNaN(known)) return false;
    powers[gear] = known;
  }
  decide(car, gears);
  return true;
}

/** Whether there is a choice; the point at hand is in the middle of the interval. */
function isToChoose(car: Journey): boolean {
  const { interval } = car;
  interval.at = 0.5 * interval.length;
  return gearCount(car) > 1 && car.mode < 0 && car.held === 0 && interval.from + interval.rise * interval.at > 0;
}

/** m/s, the most within the interval. */
function mostSpeed({ interval: { from, rise, length } }: Journey): number {
  return Math.max(from, from + rise * length);
}

/** W out of the pack in a gear, which is engaged; Infinity where the car can not do in it what is asked. */
function askGear(car: Journey, gear: number, gears: number): number {
  const { following: f, memory } = car;
  engage(car, gear);
  if (mostSpeed(car) > car.fastest) {
    if (memory !== null) keepGear(memory, gear, gears, Infinity, 0);
    return Infinity;
  }
  f.freely = true;
  const bits = bitsAt(car);
  if ((bits & (BEYOND | OVER)) !== 0) return Infinity;
  // What the road takes apart: it is the same each time, and with it the choice to the last bit.
  const { power, auxiliaries } = f.powers;
  const ofRoad = power - auxiliaries;
  if (memory !== null && f.freely && !car.short && !heldByPack(bits)) {
    keepGear(memory, gear, gears, ofRoad, f.force > 0 ? lowestVoltage(f.moving.pack, f.pack) : 0);
  }
  return ofRoad + auxiliaries;
}

/** The same as it is remembered, where the pack leaves the car as free as it did then; not a number where it has to be asked. */
function recallGear(car: Journey, gear: number, gears: number): number {
  const { memory, consumers, interval, following: f } = car;
  const ofRoad = memory === null ? Number.NaN : gearKept(memory, gear, gears);
  if (memory === null || !Number.isFinite(ofRoad)) return ofRoad;
  const { pack, front, rear } = f;
  const drawn = drawnAt(consumers, interval.heaterFrom + interval.at);
  const power = ofRoad + drawn;
  if (isTooMuch(pack, drawn) || !isEasyForPack(f, power) || !isTaken(power, power, pack.limit)) return Number.NaN;
  if (lowestVoltage(f.moving.pack, pack) < SAME_VOLTAGE * gearVoltage(memory, gear, gears)) return Number.NaN;
  return isHot(front) || isHot(rear) ? Number.NaN : power;
}

function decide(car: Journey, gears: number): void {
  const { interval } = car;
  engage(car, car.gear);
  const turns = mostSpeed(car) <= car.fastest;
  const present = powers[car.gear] ?? Infinity;
  let best = car.gear;
  let least = Infinity;
  for (let gear = 0; gear < gears; gear++) {
    const power = powers[gear] ?? Infinity;
    if (power < least) {
      least = power;
      best = gear;
    }
  }
  if (least === Infinity && !turns) best = gears - 1;
  const rested = interval.start - car.shifted >= SHORTEST_GEAR;
  const gain = present - Math.max(WORTH * Math.abs(present), LEAST_WORTH);
  const worth = present === Infinity ? least < Infinity || !turns : rested && least < gain;
  if (!worth || best === car.gear) return;
  engage(car, best);
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
