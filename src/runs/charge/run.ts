/** One charge, integrated; what the other files of a charge read from. */
import { item, nth } from '../../columns.ts';
import type { Car } from '../../model/car.ts';
import { CELL_VOLTAGE, CHARGE_QUADRATURES, CHARGE_STATE, chargingPlant, limitOf } from '../../model/pack/charging.ts';
import type { ChargingPlant } from '../../model/pack/charging.ts';
import { fedFrom } from '../../model/pack/station.ts';
import type { Feed } from '../../model/pack/charging.ts';
import type { Supply, WallLimit } from '../../model/pack/supply.ts';
import { solveUntilStiff } from '../../solvers/until-stiff.ts';
import type { Level, Solution, Solve } from '../../solvers/system.ts';

export interface ChargeOptions {
  /** State of charge at the start, 0 to 1; the low end of the window of the pack where left out. */
  readonly from?: number;
  /** State of charge that is wished for, above `from`; the high end of the window where left out. */
  readonly to?: number;
  readonly supply: Supply;
  /** K of the air. */
  readonly temperature: number;
  /** K of the pack at the start; that of the air where left out. */
  readonly packTemperature?: number;
  /** What the car uses, J/m: from the wall, or out of the cells of its pack. */
  readonly consumption?: { readonly energy: number; readonly at: 'wall' | 'pack' };
  /** Price of energy from the wall, money per J. */
  readonly price?: number;
}

/** A charge in the middle of a day. */
export interface Stint extends ChargeOptions {
  /** V of the RC pairs at the start, positive after a discharge; at rest where left out. */
  readonly polarisation?: readonly [number, number];
  /** s after which it is unplugged. */
  readonly seconds?: number;
}

export interface ChargeRun {
  readonly plant: ChargingPlant;
  readonly solution: Solution;
  readonly wall: WallLimit;
  readonly from: number;
  readonly to: number;
  /** The start, every tenth of charge passed, and the end: when that was, and the states then. */
  readonly steps: readonly ChargeStep[];
  readonly end: ChargeStep;
  /** s at which the highest voltage was met; null where it was not. */
  readonly taper: number | null;
}

export interface ChargeStep {
  readonly charge: number;
  /** s. */
  readonly time: number;
  readonly states: Float64Array;
  readonly integrals: Float64Array;
}

const TOLERANCE = 1e-10;
/** s after which a charge is given up. */
const LONGEST = 10 * 24 * 3600;

type Quadrature = (typeof CHARGE_QUADRATURES)[number];

/** The integral named `name` out of a row of integrals, J. */
export function chargeIntegral(row: Float64Array, name: Quadrature): number {
  return nth(row, CHARGE_QUADRATURES.indexOf(name));
}

/**
 * Charges a rested pack. The pack must take a current at the start (`modeAt` is not negative).
 * @throws RangeError when `to` is not above `from`, or either is outside 0 to 1.
 */
export function chargeOnce(car: Car, options: Stint, solve: Solve = solveUntilStiff): ChargeRun {
  const { plant, wall, initial, from, to } = chargeStart(car, options);
  const levels: Level[] = tenths(from, to).map(value => ({
    name: value.toFixed(1),
    state: CHARGE_STATE,
    value,
    direction: 'rising',
    action: 'record',
  }));
  levels.push({ name: 'to', state: CHARGE_STATE, value: to, direction: 'rising', action: 'stop' });
  const mode = plant.modeAt(initial);
  const start = initial.slice(0, plant.states);
  const longest = Math.min(options.seconds ?? LONGEST, LONGEST);
  const solution = solve(plant, { start: 0, end: longest, initial: start, mode, tolerance: TOLERANCE, levels });
  const zero = { charge: from, time: 0, states: start, integrals: new Float64Array(plant.quadratures) };
  const passed = solution.events
    .filter(({ kind }) => kind === 'level')
    .map(({ index, time, states, integrals }) => ({ charge: item(levels, index).value, time, states, integrals }));
  const met = solution.events.find(({ kind, index }) => kind === 'switch' && index === CELL_VOLTAGE);
  const taper = limitOf(mode) === CELL_VOLTAGE ? 0 : (met?.time ?? null);
  const last = solution.nodes - 1;
  const end = {
    charge: nth(solution.states, last * plant.states + CHARGE_STATE),
    time: nth(solution.times, last),
    states: solution.states.slice(last * plant.states, (last + 1) * plant.states),
    integrals: solution.integrals.slice(last * plant.quadratures, (last + 1) * plant.quadratures),
  };
  const steps = solution.status === 'level' ? [zero, ...passed] : [zero, ...passed, end];
  return { plant, solution, wall, from, to, steps, end, taper };
}

/** All that is known before anything is integrated. */
export function chargeStart(
  car: Car,
  { supply, temperature, packTemperature = temperature, polarisation = [0, 0], ...options }: Stint,
): Pick<ChargeRun, 'plant' | 'wall' | 'from' | 'to'> & {
  readonly initial: Float64Array;
  readonly feed: Feed;
} {
  const { pack, charger } = car;
  const { from = pack.window.low, to = pack.window.high } = options;
  if (!(from >= 0 && to <= 1 && from < to)) {
    throw new RangeError(`a charge must rise within 0 to 1, found from ${from} to ${to}`);
  }
  const { wall, feed } = fedFrom(supply, charger);
  const plant = chargingPlant(pack, feed, temperature, packTemperature);
  return { plant, feed, wall, from, to, initial: plant.initial(from, packTemperature, polarisation) };
}

/** A tenth this close to an end of the charge is no step of its own. */
const NEAR = 1e-6;

/** 0.1, 0.2 ... between the two. */
function tenths(from: number, to: number): readonly number[] {
  return [1, 2, 3, 4, 5, 6, 7, 8, 9].map(tenth => tenth / 10).filter(value => value > from + NEAR && value < to - NEAR);
}
