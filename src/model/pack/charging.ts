/**
 * A pack on a charger as a switched system. Its state and its limits are those of `state.ts`; only the current flows the other way,
 * and is positive here while it charges.
 *
 * The current is the least of six: what the power from the wall gives, the limit of the pack, that limit on its cold and
 * on its warm side, what the highest voltage allows, and what the chargers give at most. Which one it is makes the mode; each is smooth by itself.
 */
import { EFFORT, effort } from '../effort.ts';
import { nth } from '../../columns.ts';
import type { SwitchedSystem } from '../../solvers/system.ts';
import type { Charger, Pack, VoltageWindow } from '../car.ts';
import { packBalance } from './balance.ts';
import { chargeToVoltage, coldShare, shareCharged, warmShare } from './limits.ts';
import { currentAtPower, packAt, packFigures, PackNow, polarisationEnergy } from './state.ts';

/** Modes, and the words for what sets the pace in each. */
export const CHARGE_LIMITS = ['wall', 'pack current', 'cold', 'heat', 'cell voltage', 'charger current'] as const;

export const WALL = 0;
const PACK_CURRENT = 1;
export const COLD = 2;
const WARM = 3;
export const CELL_VOLTAGE = 4;
const CHARGER_CURRENT = 5;
/** The guard that ends a charge: the current has become too small. */
const ENOUGH = 6;
/** In place of a limit: the heater of the pack runs, and nothing is charged yet. */
const WAITS = 7;
/** Of a mode besides: the heater runs. */
const HEATS = 8;
/** Guards of the heater: the pack is as warm as it is heated to, and warm enough to take a current. */
const HEATED = 7;
const WARM_ENOUGH = 8;
/** Share of the greatest charge current from which on a pack that is being heated is charged. */
const LEAST_SHARE = 1e-3;

/** What limits the current in a mode, whether the heater runs or not. */
export function limitOf(mode: number): number {
  return mode < 0 ? mode : mode & (HEATS - 1);
}

/** What sets the pace in a mode. */
export function chargeLimitWord(mode: number): (typeof CHARGE_LIMITS)[number] | 'pack heater' {
  return CHARGE_LIMITS[limitOf(mode)] ?? 'pack heater';
}

/** Energies, J, in the order of the quadratures. */
export const CHARGE_QUADRATURES = ['wall', 'charger', 'overhead', 'packHeat', 'chemical', 'heater'] as const;

/** Index of the state of charge; the voltages of the RC pairs follow, then the temperature where it is a state. */
export const CHARGE_STATE = 0;
const FIRST_PAIR = 1;

/** Part of the capacity per hour: at the highest voltage, charging ends when the current falls to it (C/20, common practice). */
const CUTOFF = 1 / 20;

/** What stands between the wall and the pack. */
export interface Feed {
  /** W from the wall at most. */
  readonly power: number;
  /** W that the chargers lose at any power. */
  readonly idle: number;
  /** Share of every watt from the wall that they do not lose besides. */
  readonly efficiency: number;
  /** W at the pack. */
  readonly overhead: number;
  /** A that the chargers give at most: into the pack, and for what is drawn beside it. */
  readonly current: number;
  /** V at the pack between which they charge. */
  readonly voltage: VoltageWindow;
}

const ANY_VOLTAGE: VoltageWindow = { least: 0, greatest: Infinity };

/**
 * The chargers at a power from the wall: their loss is a straight line over it, from `idleShare` of the loss at their greatest power
 * to the whole of it there.
 */
export function feedOf(charger: Charger, wall: number): Feed {
  const { power, count, idleShare, overhead, maxCurrent = Infinity, voltage = ANY_VOLTAGE } = charger;
  const loss = 1 - charger.efficiency;
  return {
    power: wall,
    idle: idleShare * loss * power * count,
    efficiency: 1 - (1 - idleShare) * loss,
    overhead,
    current: count * maxCurrent,
    voltage,
  };
}

/** W behind the chargers. */
export function fedPower({ power, idle, efficiency }: Feed): number {
  return efficiency * power - idle;
}

/**
 * @param drawn W beside the pack. @returns A into the pack when the chargers give their greatest current: (E + R I)(most - I) is what is drawn at the pack beside it. Without a
 * limit none, and less than nothing where all of it is drawn.
 */
function chargerCurrent({ current: most }: Feed, drawn: number, { emf, resistance }: PackNow): number {
  if (most === Infinity) return Infinity;
  const left = emf * most - drawn;
  const half = 0.5 * (emf - resistance * most);
  return left / (half + Math.sqrt(Math.max(0, half * half + resistance * left)));
}

/** How the pack stands at an instant. */
export interface ChargeInstant {
  /** A into the pack. */
  readonly current: number;
  /** V at the terminals. */
  readonly voltage: number;
  /** W from the wall, and W that are drawn at the pack beside what it is charged with. */
  readonly wallPower: number;
  readonly drawn: number;
  /** K. */
  readonly temperature: number;
}

export interface ChargingPlant extends SwitchedSystem {
  /** Index of the temperature of the pack among the states; -1 where its heat is not modelled. */
  readonly temperatureState: number;
  /** C that the whole pack holds. */
  readonly capacity: number;
  /** A at which a charge at the highest voltage ends. */
  readonly cutoff: number;
  /** States of a pack that is polarised by so many V, positive after a discharge. */
  initial(charge: number, temperature: number, polarisation?: readonly [number, number]): Float64Array;
  /** V of the RC pairs, positive after a discharge. */
  polarisation(y: Float64Array): [number, number];
  /** Mode at these states; -1 where the pack takes no current. */
  modeAt(y: Float64Array): number;
  instant(mode: number, y: Float64Array): ChargeInstant;
  /** J in the RC pairs. */
  polarisationEnergy(y: Float64Array): number;
}

/** As `shareCharged`, of a pack as it stands in a car. @param temperature K. */
export function chargeShare(pack: Pack, temperature: number): number {
  return shareCharged(packFigures(pack), temperature);
}

/**
 * @param air K around the pack.
 * @param still K of a pack whose heat is not modelled.
 */
export function chargingPlant(pack: Pack, feed: Feed, air: number, still = air): ChargingPlant {
  const { heat, heater } = pack;
  const figures = packFigures(pack);
  figures.maxVoltage = Math.min(figures.maxVoltage, feed.voltage.greatest);
  const { capacity, pairs } = figures;
  const cutoff = (CUTOFF * capacity) / 3600;
  const temperatureState = heat === undefined ? -1 : FIRST_PAIR + pairs;
  const states = FIRST_PAIR + pairs + (heat === undefined ? 0 : 1);
  const fed = fedPower(feed);
  const quadratures = CHARGE_QUADRATURES.length;
  const scales = new Float64Array(states + quadratures).fill(1);
  scales[CHARGE_STATE] = 0.01;
  scales.fill(1, states);
  const now = new PackNow();
  now.temperature = still;
  now.air = air;
  let current = 0;
  let voltage = 0;
  let drawn = feed.overhead;
  const limits = new Float64Array(CHARGE_LIMITS.length);

  /** The pack, and the current that each limit allows. */
  function look(y: Float64Array, heats: boolean): void {
    effort.spent += EFFORT.rates;
    now.charge = nth(y, CHARGE_STATE);
    // Charging polarises the other way.
    if (pairs > 0) now.pair1 = -nth(y, FIRST_PAIR);
    if (pairs > 1) now.pair2 = -nth(y, FIRST_PAIR + 1);
    if (heat !== undefined) now.temperature = nth(y, temperatureState);
    packAt(figures, now);
    drawn = feed.overhead + (heats && heater !== undefined ? heater.power : 0);
    limits[WALL] = -currentAtPower(now.emf, now.resistance, drawn - fed);
    // A charge lasts for hours.
    limits[PACK_CURRENT] = Math.min(figures.maxChargeCurrent, figures.continuousCharge);
    limits[COLD] = figures.maxChargeCurrent * coldShare(figures, now.temperature);
    limits[WARM] = figures.maxChargeCurrent * warmShare(figures, now.temperature);
    limits[CELL_VOLTAGE] = chargeToVoltage(figures, now);
    limits[CHARGER_CURRENT] = chargerCurrent(feed, drawn, now);
  }

  function engage(mode: number): void {
    const limit = limitOf(mode);
    current = limit === WAITS ? 0 : nth(limits, limit);
    voltage = now.emf + now.resistance * current;
  }

  const wallPower = (): number => (voltage * current + drawn + feed.idle) / feed.efficiency;

  /** The least of the limits, with the heater on or off; -1 where the pack takes nothing. */
  function leastOf(y: Float64Array, heats: boolean, waits = heats): number {
    look(y, heats);
    const bit = heats ? HEATS : 0;
    if (waits && coldShare(figures, now.temperature) < LEAST_SHARE) return WAITS | bit;
    let mode = WALL;
    for (let k = 1; k < limits.length; k++) if (nth(limits, k) < nth(limits, mode)) mode = k;
    return nth(limits, mode) > (mode === CELL_VOLTAGE ? cutoff : 0) ? mode | bit : -1;
  }

  return {
    states,
    quadratures,
    guards: WARM_ENOUGH + 1,
    scales,
    temperatureState,
    capacity,
    cutoff,
    rates(mode, y, out) {
      look(y, (mode & HEATS) !== 0);
      engage(mode);
      const wall = wallPower();
      now.current = -current;
      packBalance(figures, now);
      out[CHARGE_STATE] = now.chargeRate;
      if (pairs > 0) out[FIRST_PAIR] = -now.pairRate1;
      if (pairs > 1) out[FIRST_PAIR + 1] = -now.pairRate2;
      const heating = drawn - feed.overhead;
      if (heat !== undefined) out[temperatureState] = now.warming + heating * figures.perHeat;
      out[states] = wall;
      out[states + 1] = feed.idle + (1 - feed.efficiency) * wall;
      out[states + 2] = feed.overhead;
      out[states + 3] = now.lost;
      out[states + 4] = -now.chemical;
      out[states + 5] = heating;
    },
    guard(given, _y, out) {
      const oneHour = capacity / 3600;
      const mode = limitOf(given);
      out.fill(Infinity);
      if ((given & HEATS) !== 0 && heater !== undefined) out[HEATED] = (heater.until - now.temperature) / 10;
      if (mode === WAITS) {
        out[WARM_ENOUGH] = LEAST_SHARE - coldShare(figures, now.temperature);
        return;
      }
      for (let k = 0; k < limits.length; k++) out[k] = k === mode ? Infinity : (nth(limits, k) - current) / oneHour;
      // In volts: a current behind no resistance would jump.
      if (mode !== CELL_VOLTAGE) out[CELL_VOLTAGE] = (figures.maxVoltage - voltage) / figures.maxVoltage;
      const least = mode === CELL_VOLTAGE ? cutoff : 0;
      out[ENOUGH] =
        mode === WALL || mode === PACK_CURRENT || mode === CHARGER_CURRENT ? Infinity : (current - least) / oneHour;
    },
    switched(mode, fired, y) {
      if (fired === ENOUGH) return -1;
      if (fired === HEATED) return leastOf(y, false);
      if (fired === WARM_ENOUGH) return leastOf(y, true, false);
      const bit = mode & HEATS;
      look(y, bit !== 0);
      const next = fired | bit;
      return fired === CELL_VOLTAGE && !(now.resistance > 0 && nth(limits, CELL_VOLTAGE) > cutoff) ? -1 : next;
    },
    initial(charge, temperature, [first, second] = [0, 0]) {
      const y = new Float64Array(states + 1);
      y[CHARGE_STATE] = charge;
      if (pairs > 0) y[FIRST_PAIR] = -first;
      if (pairs > 1) y[FIRST_PAIR + 1] = -second;
      if (heat !== undefined) y[temperatureState] = temperature;
      return y;
    },
    modeAt(y) {
      look(y, false);
      if (now.open < feed.voltage.least) return -1;
      return leastOf(y, heater !== undefined && heat !== undefined && now.temperature < heater.until);
    },
    instant(mode, y) {
      look(y, (mode & HEATS) !== 0);
      engage(mode);
      return { current, voltage, wallPower: wallPower(), drawn, temperature: now.temperature };
    },
    polarisation: y => [pairs > 0 ? -nth(y, FIRST_PAIR) : 0, pairs > 1 ? -nth(y, FIRST_PAIR + 1) : 0],
    polarisationEnergy: y =>
      polarisationEnergy(figures, pairs > 0 ? nth(y, FIRST_PAIR) : 0, pairs > 1 ? nth(y, FIRST_PAIR + 1) : 0),
  };
}
