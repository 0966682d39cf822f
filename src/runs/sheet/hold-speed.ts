/** A car that holds a speed: the pedal that does it, what it comes to after a time, and what ends it. */
import { nth } from '../../columns.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import type { Limiter } from '../../model/forward/limiter.ts';
import { CHARGE, SPEED } from '../../model/forward/state.ts';
import { plantParameters } from '../../model/forward/load.ts';
import { limiterOf } from '../../model/forward/limiter.ts';
import { plantFor } from '../../model/forward/plant.ts';
import type { Plant } from '../../model/forward/plant.ts';
import { findRoot } from '../../solvers/bracket.ts';
import { solveExplicit } from '../../solvers/explicit.ts';
import type { Level, Solution, Solve } from '../../solvers/system.ts';
import { checkWhere, SPEED as SPEED_RULE } from '../options.ts';
import { within } from '../rules.ts';
import { steadily } from '../trailing-wheels.ts';
import { withoutSpin } from '../variant.ts';

/** What became of it. */
export interface Hold {
  /** m/s that was asked for. */
  readonly speed: number;
  /** Whether the speed was kept all the time. */
  readonly held: boolean;
  /** 0 to 1, the share of the peak torque that holds it at the start; null where the full pedal does not. */
  readonly pedal: number | null;
  /** s that it was held. */
  readonly time: number;
  /** m/s at the end. */
  readonly endSpeed: number;
  /** K of the hotter drive unit at the end; null where its heat is not modelled. */
  readonly unitTemperature: number | null;
  /** K of the pack at the end; null where its heat is not modelled. */
  readonly packTemperature: number | null;
  /** State of charge at the end. */
  readonly charge: number;
  /** What holds it back at the end; `driver` where nothing else does. */
  readonly limiter: Limiter | 'empty pack';
  /** Why the integration failed; '' otherwise. */
  readonly reason: string;
}

/** Share of the speed by which it may fall: the integration is better by three orders. */
const FALL = 1e-4;

/** s; temperatures move in minutes. */
const LONGEST_STEP = 10;

const TOLERANCE = 1e-8;

const SECONDS = within(0, 1e9, 's');

/**
 * Holds a speed with the pedal at which nothing accelerates. Free wheels are looked at with their slip held at the peak: at a
 * steady speed they are far below it.
 * @param speed m/s.
 * @param seconds how long.
 * @throws SpecError for a car, surroundings, a speed or a time that can not be.
 */
export function hold(
  car: Car,
  surroundings: Surroundings,
  speed: number,
  seconds: number,
  solve: Solve = solveExplicit,
): Hold {
  checkWhere(car, surroundings);
  SPEED_RULE(speed, 'speed');
  SECONDS(seconds, 'seconds');
  const { pedal, plant, start, mode, solution } = holding(car, surroundings, speed, seconds, solve);
  if (pedal === null || solution === null) {
    return {
      ...stateOf(car, plant, start),
      speed,
      held: false,
      pedal,
      time: 0,
      limiter: limiterOf(mode, plant.powerTabled()),
      reason: '',
    };
  }
  const last = solution.nodes - 1;
  const end = solution.states.subarray(last * plant.states, (last + 1) * plant.states);
  return {
    ...stateOf(car, plant, end),
    speed,
    held: solution.status === 'end',
    pedal,
    time: nth(solution.times, last),
    limiter: endedBy(plant, solution, end),
    reason: solution.status === 'failed' ? solution.reason : '',
  };
}

/** The run behind it; without a solution where not even the full pedal holds the speed. */
export function holding(
  car: Car,
  surroundings: Surroundings,
  speed: number,
  seconds: number,
  solve: Solve = solveExplicit,
): {
  readonly pedal: number | null;
  readonly plant: Plant;
  readonly start: Float64Array;
  readonly mode: number;
  readonly solution: Solution | null;
} {
  const held = steadily(withoutSpin(car));
  const pedal = steadyPedal(held, surroundings, speed);
  const plant = plantFor(plantParameters(held, surroundings, pedal ?? 1));
  const start = plant.initial(speed);
  const mode = plant.modeAt(start);
  if (pedal === null) return { pedal, plant, start, mode, solution: null };
  const solution = solve(plant, {
    start: 0,
    end: seconds,
    initial: start.subarray(0, plant.states),
    mode,
    tolerance: TOLERANCE,
    maxStep: LONGEST_STEP,
    levels: stops(speed),
  });
  return { pedal, plant, start, mode, solution };
}

/** The run is over when the car falls behind, or when the pack is empty. */
function stops(speed: number): readonly Level[] {
  return [
    { name: 'slower', state: SPEED, value: (1 - FALL) * speed, direction: 'falling', action: 'stop' },
    { name: 'empty', state: CHARGE, value: 0, direction: 'falling', action: 'stop' },
  ];
}

function endedBy(plant: Plant, solution: Solution, end: Float64Array): Hold['limiter'] {
  if (nth(end, CHARGE) <= 0) return 'empty pack';
  const y = new Float64Array(plant.states + 1);
  y.set(end);
  const mode = nth(solution.modes, solution.nodes - 1);
  plant.rates(mode, y, new Float64Array(plant.states + plant.quadratures));
  return limiterOf(mode, plant.powerTabled());
}

function stateOf(
  car: Car,
  plant: Plant,
  y: Float64Array,
): Pick<Hold, 'endSpeed' | 'unitTemperature' | 'packTemperature' | 'charge'> {
  const units = car.drives
    .filter(drive => drive.unit.heat !== undefined)
    .map(({ axle }) => nth(y, plant.unitTemperatureState(axle === 'front' ? 0 : 1)));
  return {
    endSpeed: nth(y, SPEED),
    unitTemperature: units.length === 0 ? null : Math.max(...units),
    packTemperature: car.pack.heat === undefined ? null : nth(y, plant.packTemperatureState),
    charge: nth(y, CHARGE),
  };
}

/**
 * The pedal, 0 to 1, at which the car neither gains nor loses speed, to the last bits; null where the full pedal is not enough,
 * 0 where it gains speed by itself.
 * @param speed m/s.
 * @throws SpecError as `hold`.
 */
export function steadyPedal(car: Car, surroundings: Surroundings, speed: number): number | null {
  checkWhere(car, surroundings);
  SPEED_RULE(speed, 'speed');
  const plant = plantFor(plantParameters(car, surroundings, 1));
  const rates = new Float64Array(plant.states + plant.quadratures);
  const acceleration = (pedal: number): number => {
    plant.load(plantParameters(car, surroundings, pedal));
    const y = plant.initial(speed);
    plant.rates(plant.modeAt(y), y, rates);
    return plant.now.acceleration;
  };
  const most = acceleration(1);
  if (most < 0) return null;
  const least = acceleration(0);
  // The end towards the full pedal: at it the car does not lose speed.
  return least >= 0 ? 0 : findRoot(acceleration, 0, least, 1, most, Number.EPSILON / 2);
}
