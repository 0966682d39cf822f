/** Which gear of a kept gearbox is driven in, and what a change of it costs. */

import { drivenPackAt } from '../../model/backward/pack-step.ts';
import { isEasyForPack, isHot, isOutOfReach } from '../../model/backward/limits.ts';
import { BEYOND, heldByPack, OVER } from '../../model/backward/state.ts';
import { rotorEnergy } from '../../model/forward/by-products.ts';
import { lowestVoltage } from '../../model/pack/state.ts';
import { curveAt, curveIntegral } from '../../model/tables/curve.ts';
import { drawnAt } from './consumers.ts';
import { bitsAt, fastest, isTooMuch } from './instant.ts';
import type { Journey } from './journey.ts';
import { isTaken } from './keeps.ts';
import { gearKept, gearVoltage, keepGear, SAME_VOLTAGE } from './memory.ts';

/** s for which a gear is kept: common practice, no source. */
const SHORTEST_GEAR = 3;

/** Of the power out of the pack, and W: a gear that gains less is not taken. Common practice, no source. */
const WORTH = 0.02;
const LEAST_WORTH = 50;

/** In the memory of a gear, in place of W: the drives give what the consumers take, and a pack that takes nothing gets nothing. */
const NOTHING = -Infinity;

/** Gears to choose from; 1 where there is no choice. */
function gearCount({ following: { front, rear } }: Journey): number {
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
  recallGears(car, gears);
  for (let gear = 0; gear < gears; gear++) if (Number.isNaN(powers[gear])) powers[gear] = askGear(car, gear, gears);
  decide(car, gears);
}

/** The same where all that has a say is remembered; false, with nothing changed, where something has to be asked. */
export function choosesFromMemory(car: Journey): boolean {
  if (!isToChoose(car)) return true;
  const gears = gearCount(car);
  if (!recallGears(car, gears)) return false;
  decide(car, gears);
  return true;
}

/** Fills `powers` with what is remembered: with Infinity where a gear takes more than another one in any case. @returns whether that is all of them. */
function recallGears(car: Journey, gears: number): boolean {
  const { memory, consumers, interval } = car;
  powers.length = 0;
  for (let gear = 0; gear < gears; gear++) powers.push(Number.NaN);
  if (memory === null) return false;
  const drawn = drawnAt(consumers, interval.heaterFrom + interval.at);
  let least = Infinity;
  for (let gear = 0; gear < gears; gear++) {
    const kept = gearKept(memory, gear, gears);
    const volts = gearVoltage(memory, gear, gears);
    const known = kept === NOTHING ? nothing(car, drawn, volts) : surely(car, kept + drawn, drawn, volts);
    powers[gear] = known;
    if (known < least) least = known;
  }
  let all = true;
  for (let gear = 0; gear < gears; gear++) {
    if (!Number.isNaN(powers[gear])) continue;
    const kept = gearKept(memory, gear, gears);
    if (gear !== car.gear && kept !== NOTHING && kept + drawn > least) powers[gear] = Infinity;
    else all = false;
  }
  return all;
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

/** W out of the pack in a gear, which is engaged; Infinity where the car can not do in it what is asked, remembered where no pack changes that. */
function askGear(car: Journey, gear: number, gears: number): number {
  const { following: f, memory } = car;
  engage(car, gear);
  if (mostSpeed(car) > car.fastest) {
    if (memory !== null) keepGear(memory, gear, gears, Infinity, 0);
    return Infinity;
  }
  f.freely = true;
  f.volts = 0;
  const bits = bitsAt(car);
  if ((bits & (BEYOND | OVER)) !== 0) {
    if (memory !== null && f.force > 0 && isOutOfReach(f)) keepGear(memory, gear, gears, Infinity, 0);
    return Infinity;
  }
  if (heldByPack(bits) && f.pack.limit === 0) {
    if (memory !== null && !car.short) keepGear(memory, gear, gears, NOTHING, f.powers.auxiliaries);
    return 0;
  }
  // What the road takes apart: it is the same each time, and with it the choice to the last bit.
  const { power, auxiliaries } = f.powers;
  const ofRoad = power - auxiliaries;
  if (memory !== null && !car.short && !heldByPack(bits)) {
    // Close to a limit it is asked again, where it has a say.
    const volts = !f.freely || f.volts > 0 ? Infinity : f.force > 0 ? lowestVoltage(f.moving.pack, f.pack) : 0;
    keepGear(memory, gear, gears, ofRoad, volts);
  }
  return ofRoad + auxiliaries;
}

/** 0 where the pack still takes nothing, and the drives feed the same consumers; not a number where not. @param fed W. */
function nothing({ following: { pack } }: Journey, drawn: number, fed: number): number {
  return pack.limit === 0 && drawn === fed && !isTooMuch(pack, drawn) ? 0 : Number.NaN;
}

/** The power, where that is sure. */
function surely(car: Journey, power: number, drawn: number, volts: number): number {
  return isSure(car, power, drawn, volts) ? power : Number.NaN;
}

/** Whether the pack leaves the car as free as it did where `volts` were enough for its drives. @param power W out of it, and W drawn by consumers. */
function isSure({ following: f }: Journey, power: number, drawn: number, volts: number): boolean {
  const { pack, front, rear, moving } = f;
  if (power === Infinity) return true;
  if (isTooMuch(pack, drawn) || !isEasyForPack(f, power) || !isTaken(power, power, pack.limit)) return false;
  return lowestVoltage(moving.pack, pack) >= SAME_VOLTAGE * volts && !isHot(front) && !isHot(rear);
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
