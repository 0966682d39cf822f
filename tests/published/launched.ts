/** Ideal cars through the real launch run and the real solver. */
import type { Car, Surroundings } from '../../src/model/car.ts';
import { DISTANCE, SPEED } from '../../src/model/forward/state.ts';
import { plantParameters } from '../../src/model/forward/load.ts';
import { plantFor } from '../../src/model/forward/plant.ts';
import type { Mark } from '../../src/runs/launch/marks.ts';
import { launchOnce } from '../../src/runs/launch/run.ts';
import { solveExplicit } from '../../src/solvers/explicit.ts';
import type { SolveEvent } from '../../src/solvers/system.ts';
import { roadWithDensity } from './ideal.ts';

/** A hundred times tighter than the digits asked for; much tighter and the steps meet rounding. */
const TOLERANCE = 1e-11;

export interface Passing {
  /** s. */
  readonly time: number;
  /** m/s. */
  readonly speed: number;
  /** m. */
  readonly distance: number;
}

export interface Launched {
  /** m/s at the start; default 0. */
  readonly from?: number;
  /** m/s of the mark `to`. */
  readonly to?: number;
  readonly road?: Surroundings;
}

/** The passing of a mark; throws where the car never gets there. */
export function passing(car: Car, mark: Mark, options: Launched = {}): Passing {
  const { from = 0, to = 100 / 3.6, road = roadWithDensity() } = options;
  const run = launchOnce(car, { surroundings: road, from, to, stop: mark, tolerance: TOLERANCE }, solveExplicit);
  const event = run.marks.get(mark);
  if (event === undefined) throw new Error(`${mark} is not passed: ${run.solution.status} ${run.solution.reason}`);
  return passed(event);
}

/** Rolls with the pedal up from one speed down to another, m/s. */
export function coasting(car: Car, from: number, to: number, road = roadWithDensity()): Passing {
  const plant = plantFor(plantParameters(car, road, 0));
  const start = plant.initial(from);
  const solution = solveExplicit(plant, {
    start: 0,
    end: 1000,
    initial: start.subarray(0, plant.states),
    mode: plant.modeAt(start),
    tolerance: TOLERANCE,
    levels: [{ name: 'to', state: SPEED, value: to, direction: 'falling', action: 'stop' }],
  });
  const event = solution.events.find(({ kind }) => kind === 'level');
  if (event === undefined) throw new Error(`${to} m/s is not passed: ${solution.status} ${solution.reason}`);
  return passed(event);
}

function passed(event: SolveEvent): Passing {
  return { time: event.time, speed: event.states[SPEED] ?? Number.NaN, distance: event.states[DISTANCE] ?? Number.NaN };
}
