/**
 * A pack on a charger as a switched system. The cells are those of the plant: the same curves, wiring, growth of resistance,
 * health and effect of temperature; only the current flows the other way, and is positive here while it charges.
 *
 * The current is the least of five: what the power from the wall gives, the limit of the pack, that limit on its cold and
 * on its warm side, and what the highest voltage allows. Which one it is makes the mode; each is smooth by itself.
 */
import type { SwitchedSystem } from '../../solvers/system.ts';
import type { Pack } from '../car.ts';
import { curveAt, packCurve } from '../tables/curve.ts';

/** Modes, and the words for what sets the pace in each. */
export const CHARGE_LIMITS = ['wall', 'pack current', 'cold', 'heat', 'cell voltage'] as const;
export type ChargeLimit = (typeof CHARGE_LIMITS)[number];

export const WALL = 0;
export const PACK_CURRENT = 1;
export const COLD = 2;
export const WARM = 3;
export const CELL_VOLTAGE = 4;
/** The guard that ends a charge: the current has become too small. */
export const ENOUGH = 5;

/** Energies, J, in the order of the quadratures. */
export const CHARGE_QUADRATURES = ['wall', 'charger', 'overhead', 'packHeat', 'chemical'] as const;

/** Index of the state of charge; the voltages of the RC pairs follow, then the temperature where it is a state. */
export const CHARGE_STATE = 0;
const FIRST_PAIR = 1;

/** K at which the resistance of the cells is stated, as in the plant. */
const REFERENCE_TEMPERATURE = 298.15;

/** Part of the capacity per hour: at the highest voltage, charging ends when the current falls to it (C/20, common practice). */
export const CUTOFF = 1 / 20;

/** What stands between the wall and the pack. */
export interface Feed {
  /** W from the wall at most. */
  readonly power: number;
  /** Share of it that reaches the pack and the overhead. */
  readonly efficiency: number;
  /** W at the pack. */
  readonly overhead: number;
}

/** How the pack stands at an instant. */
export interface ChargeInstant {
  /** A into the pack. */
  readonly current: number;
  /** V at the terminals. */
  readonly voltage: number;
  /** W from the wall. */
  readonly wallPower: number;
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
  /** States of a rested pack. */
  initial(charge: number, temperature: number): Float64Array;
  /** Mode at these states; -1 where the pack takes no current. */
  modeAt(y: Float64Array): number;
  instant(mode: number, y: Float64Array): ChargeInstant;
  /** J in the RC pairs. */
  polarisationEnergy(y: Float64Array): number;
}

/**
 * Share of the greatest charge current that a pack takes at a temperature, K: nothing below `chargeCold.none`, all from `full` on,
 * and falling again over its derating range where its heat is modelled.
 */
export function chargeShare(pack: Pack, temperature: number): number {
  return Math.min(1, Math.max(0, Math.min(coldShare(pack, temperature), warmShare(pack, temperature))));
}

/** The two sides of it, as lines that go on beyond 0 and 1. */
function coldShare({ chargeCold: { none, full } }: Pack, temperature: number): number {
  return (temperature - none) / (full - none);
}

function warmShare({ heat }: Pack, temperature: number): number {
  return heat === undefined ? Infinity : (heat.derateAt + heat.derateRange - temperature) / heat.derateRange;
}

/**
 * @param air K around the pack.
 * @param still K of a pack whose heat is not modelled.
 */
export function chargingPlant(pack: Pack, feed: Feed, air: number, still = air): ChargingPlant {
  const { cell, heat } = pack;
  const perCell = (pack.series / pack.parallel) * pack.resistanceGrowth;
  const pairs = cell.pairs.map(({ resistance, timeConstant }) => ({ resistance: resistance * perCell, timeConstant }));
  const ocv = packCurve(cell.ocv.charge, cell.ocv.voltage);
  const ohmic = packCurve(cell.resistance.charge, cell.resistance.ohm);
  const capacity = cell.capacity * pack.parallel * pack.health;
  const cutoff = (CUTOFF * capacity) / 3600;
  const temperatureState = heat === undefined ? -1 : FIRST_PAIR + pairs.length;
  const states = FIRST_PAIR + pairs.length + (heat === undefined ? 0 : 1);
  const power = feed.power * feed.efficiency - feed.overhead;
  const quadratures = CHARGE_QUADRATURES.length;
  const scales = new Float64Array(states + quadratures).fill(1);
  scales[CHARGE_STATE] = 0.01;
  scales.fill(1, states);
  const now = { open: 0, emf: 0, resistance: 0, temperature: still, current: 0, voltage: 0 };
  const limits = new Float64Array(CHARGE_LIMITS.length);

  /** Electromotive force, resistance and the current that each limit allows; as `packState` of the plant. */
  function look(y: Float64Array): void {
    const soc = y[CHARGE_STATE]!;
    now.open = pack.series * curveAt(ocv, soc);
    now.emf = now.open;
    for (let i = 0; i < pairs.length; i++) now.emf += y[FIRST_PAIR + i]!;
    let cells = perCell * curveAt(ohmic, soc);
    if (heat !== undefined) {
      now.temperature = y[temperatureState]!;
      cells *= Math.exp(heat.resistanceActivation * (1 / now.temperature - 1 / REFERENCE_TEMPERATURE));
    }
    now.resistance = cells + pack.wiringResistance;
    const { emf, resistance: R } = now;
    // (E + R I) I = P.
    limits[WALL] = (2 * power) / (emf + Math.sqrt(emf * emf + 4 * R * Math.max(0, power)));
    limits[PACK_CURRENT] = pack.maxChargeCurrent;
    limits[COLD] = pack.maxChargeCurrent * coldShare(pack, now.temperature);
    limits[WARM] = pack.maxChargeCurrent * warmShare(pack, now.temperature);
    // Without a resistance the current would fall at once: the charge ends there.
    limits[CELL_VOLTAGE] = R > 0 ? (pack.maxVoltage - emf) / R : emf < pack.maxVoltage ? Infinity : 0;
  }

  function engage(mode: number): void {
    now.current = limits[mode]!;
    now.voltage = now.emf + now.resistance * now.current;
  }

  const wallPower = (): number => (now.voltage * now.current + feed.overhead) / feed.efficiency;

  return {
    states,
    quadratures,
    guards: ENOUGH + 1,
    scales,
    temperatureState,
    capacity,
    cutoff,
    rates(mode, y, out) {
      look(y);
      engage(mode);
      const I = now.current;
      const wall = wallPower();
      let lost = now.resistance * I * I;
      out[CHARGE_STATE] = I / capacity;
      for (let i = 0; i < pairs.length; i++) {
        const { resistance: R1, timeConstant } = pairs[i]!;
        const V1 = y[FIRST_PAIR + i]!;
        out[FIRST_PAIR + i] = (R1 * I - V1) / timeConstant;
        lost += (V1 * V1) / R1;
      }
      if (heat !== undefined) out[temperatureState] = (lost - heat.cooling * (now.temperature - air)) / heat.capacity;
      out[states] = wall;
      out[states + 1] = (1 - feed.efficiency) * wall;
      out[states + 2] = feed.overhead;
      out[states + 3] = lost;
      out[states + 4] = now.open * I;
    },
    guard(mode, _y, out) {
      const oneHour = capacity / 3600;
      for (let k = 0; k < limits.length; k++) out[k] = k === mode ? Infinity : (limits[k]! - now.current) / oneHour;
      // In volts: a current behind no resistance would jump.
      if (mode !== CELL_VOLTAGE) out[CELL_VOLTAGE] = (pack.maxVoltage - now.voltage) / pack.maxVoltage;
      const least = mode === CELL_VOLTAGE ? cutoff : 0;
      out[ENOUGH] = mode === WALL || mode === PACK_CURRENT ? Infinity : (now.current - least) / oneHour;
    },
    switched(_mode, fired, y) {
      if (fired === ENOUGH) return -1;
      look(y);
      return fired === CELL_VOLTAGE && !(now.resistance > 0 && limits[CELL_VOLTAGE]! > cutoff) ? -1 : fired;
    },
    initial(charge, temperature) {
      const y = new Float64Array(states + 1);
      y[CHARGE_STATE] = charge;
      if (heat !== undefined) y[temperatureState] = temperature;
      return y;
    },
    modeAt(y) {
      look(y);
      let mode = WALL;
      for (let k = 1; k < limits.length; k++) if (limits[k]! < limits[mode]!) mode = k;
      return limits[mode]! > (mode === CELL_VOLTAGE ? cutoff : 0) ? mode : -1;
    },
    instant(mode, y) {
      look(y);
      engage(mode);
      return { current: now.current, voltage: now.voltage, wallPower: wallPower(), temperature: now.temperature };
    },
    polarisationEnergy(y) {
      return pairs.reduce(
        (sum, { resistance, timeConstant }, i) => sum + (0.5 * timeConstant * y[FIRST_PAIR + i]! ** 2) / resistance,
        0,
      );
    },
  };
}
