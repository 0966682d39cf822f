/**
 * The bare launch: one plant, one solver, the marks it passes. What `launch.ts` explains and what sweeps repeat some
 * thousand times.
 */
import { nth } from '../../columns.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { plantParameters } from '../../model/forward/load.ts';
import type { PlantParameters } from '../../model/forward/load.ts';
import { SPEED } from '../../model/forward/state.ts';
import { createPlant } from '../../model/forward/plant.ts';
import { sameShape, shapeOf } from '../../model/forward/shape.ts';
import type { Plant } from '../../model/forward/plant.ts';
import type { PlantShape } from '../../model/forward/shape.ts';
import { createExplicit, solveExplicit } from '../../solvers/explicit.ts';
import { solveRosenbrock } from '../../solvers/rosenbrock.ts';
import { createUntilStiff, solveUntilStiff } from '../../solvers/until-stiff.ts';
import type { Solution, Solve, SolveEvent, SolveOptions } from '../../solvers/system.ts';
import { overrunSpeed } from '../overrun.ts';
import { launchLevels } from './marks.ts';
import { withBestShifts } from './shift-points.ts';
import type { Mark } from './marks.ts';
import { trailingEnd, withTrailingWheels } from '../trailing-wheels.ts';

/** How a launch is driven. */
export interface LaunchOptions {
  readonly surroundings: Surroundings;
  /** m/s at the start; default 0. */
  readonly from?: number;
  /** m/s, the target speed; default 100 km/h. */
  readonly to?: number;
  /** Above 0 to 1, share of the peak torque asked for; default 1. */
  readonly pedal?: number;
  /** The mark that ends the run; default 1000 m. */
  readonly stop?: Mark;
  /** Relative tolerance of the integration; default 1e-6. */
  readonly tolerance?: number;
  /** 0 to 1, state of charge at which the run ends wherever it has come to; default none. */
  readonly emptyAt?: number;
  /** States at the start, from the plant that is launched: warm, or with less charge. In place of `from`. */
  readonly initial?: (plant: Plant) => Float64Array;
}

export interface LaunchRun {
  readonly plant: Plant;
  readonly solution: Solution;
  /** The first passing of each mark that was passed. */
  readonly marks: ReadonlyMap<Mark, SolveEvent>;
  /** Where and why the pack ceased to carry what is drawn, and the run ended. */
  readonly starved?: Starved;
}

export interface Starved {
  readonly why: string;
  /** State of charge. */
  readonly emptyAt: number;
}

/** s; a car that has not got there by then will not. */
const LONGEST = 300;

/** Usual launches take some dozen steps, stiff ones some thousand; what takes more would take minutes, and is given up. */
const MOST_STEPS = 5_000;

/**
 * What second derivatives fear at the start of a launch is not there: from rest on a car on rolling wheels goes by low powers of time. By
 * trial over 300 cars at three tolerances: 4 calls of the rates in 100 less than with 1, and the times of marks as close.
 */
const FIRST_LENGTH = 16;

/** s; a limit that comes and goes within one step is seen where the guards bend, and not for sure. */
const LONGEST_STEP = 4;

/** m/s, what a launch aims at where nothing is said. */
export const TARGET = 100 / 3.6;

/**
 * The tolerance of a single run that somebody reads. Free wheels are stiff: there a tenth of the tolerance takes up to five times
 * the steps, and the times of all marks at 1e-7 are within 2e-7 of those at 1e-9.
 */
export function fineTolerance(car: Car): number {
  return stiff(shapeOf(withTrailingWheels(car))) ? 1e-7 : 1e-9;
}

/**
 * Makes a launcher: a function that launches one car after the other in the same memory, which is fast as long as the cars
 * are of one shape. The solution it returns is good until its next call.
 * @param only the marks that are watched, beside the one that ends the run; no energies, and nothing of the nodes, is there then.
 */
export function createLauncher(only?: readonly Mark[]): (car: Car, options: LaunchOptions) => LaunchRun {
  let plant: Plant | undefined;
  let solve: ((options: SolveOptions) => Solution) | undefined;
  const trial = createTrial();
  return (given, options) => {
    const car = withBestShifts(given, wayOf(options), trial(options));
    const parameters = parametersOf(car, options);
    if (plant === undefined || solve === undefined || !sameShape(plant.shape, parameters.shape)) {
      plant = createPlant(parameters.shape, only === undefined);
      solve = stiff(plant.shape) ? createUntilStiff(plant) : createExplicit(plant);
    }
    const ends = endsOf(car);
    const problem = prepare(plant, parameters, options, ends, only);
    const solution = solve(problem);
    if (isStuck(solution))
      return collect(plant, solveRosenbrock(plant, prepare(plant, parameters, options, ends, only)), problem);
    return collect(plant, solution, problem);
  };
}

/** Close to the greatest speed of a motor the torque may fall so steeply with it that the speed settles within a millisecond. */
function isStuck({ status }: Solution): boolean {
  return status === 'failed';
}

/** One launch that owns its memory, with the method that suits the car or with a given one. */
export function launchOnce(car: Car, options: LaunchOptions, method?: Solve): LaunchRun {
  const shifting = withBestShifts(car, wayOf(options), createTrial()(options));
  const parameters = parametersOf(shifting, options);
  const plant = createPlant(parameters.shape);
  const ends = endsOf(car);
  const problem = prepare(plant, parameters, options, ends);
  const solve = method ?? (stiff(plant.shape) ? solveUntilStiff : solveExplicit);
  const solution = solve(plant, problem);
  if (method !== undefined || !isStuck(solution)) return collect(plant, solution, problem);
  return collect(plant, solveRosenbrock(plant, prepare(plant, parameters, options, ends)), problem);
}

/** A launch that goes on where another one ended may have any charge and any temperature. */
function parametersOf(car: Car, { surroundings, pedal = 1, initial }: LaunchOptions): PlantParameters {
  return plantParameters(
    withTrailingWheels(car),
    surroundings,
    pedal,
    true,
    initial === undefined ? LONGEST : Infinity,
  );
}

function wayOf({ surroundings, to = TARGET }: LaunchOptions): Parameters<typeof withBestShifts>[1] {
  return { surroundings, to };
}

/** Launches to the target only, to find out how long they take; made when first asked. */
function createTrial(): (options: LaunchOptions) => (car: Car) => number {
  let launch: ReturnType<typeof createLauncher> | undefined;
  return ({ surroundings, from, to, pedal }) =>
    car => {
      launch ??= createLauncher(['to']);
      const settings = { from, to, pedal };
      const given = Object.fromEntries(Object.entries(settings).filter(([, value]) => value !== undefined));
      return launch(car, { surroundings, ...given, stop: 'to' }).marks.get('to')?.time ?? Infinity;
    };
}

/** Wheel slip settles in milliseconds, the launch takes seconds: an explicit method would crawl. */
function stiff(shape: PlantShape): boolean {
  return shape.front === 'spin' || shape.rear === 'spin';
}

/** m/s at which a run ends whatever its goal: see `overrunSpeed` and `trailingEnd`. */
interface Ends {
  readonly over: number;
  readonly behind: number;
}

function endsOf(car: Car): Ends {
  return { over: overrunSpeed(car), behind: trailingEnd(car) };
}

function prepare(
  plant: Plant,
  parameters: PlantParameters,
  options: LaunchOptions,
  { over, behind }: Ends,
  only?: readonly Mark[],
): SolveOptions {
  plant.load(parameters);
  const { tolerance = 1e-6 } = options;
  plant.settle(tolerance);
  const start = options.initial?.(plant) ?? plant.initial(options.from ?? 0);
  const begin = pressed(plant, start);
  const mode = plant.modeAt(start);
  const smooth = !stiff(plant.shape) && plant.timed?.(mode) !== true;
  return {
    start: begin,
    end: LONGEST,
    initial: start,
    mode,
    tolerance,
    maxStep: LONGEST_STEP,
    firstLength: smooth ? FIRST_LENGTH : 1,
    maxSteps: MOST_STEPS,
    levels: launchLevels(options.to ?? TARGET, options.stop ?? '1000_m', over, only, options.emptyAt, behind),
  };
}

/**
 * s at which the run begins: a car at rest stands until its torque has come to what resists, and nothing is counted until then. One
 * that rolls is held at its speed by that torque when the pedal goes down, and it builds up from there.
 */
function pressed(plant: Plant, start: Float64Array): number {
  const wait = plant.standingTime(start);
  if (wait === 0) return 0;
  const rolls = nth(start, SPEED) > 0;
  if (rolls) plant.now.pressedAt = -wait;
  else start[plant.states] = wait;
  return rolls ? 0 : wait;
}

function collect(plant: Plant, solution: Solution, problem: SolveOptions): LaunchRun {
  const marks = new Map<Mark, SolveEvent>();
  for (const event of solution.events) {
    if (event.kind !== 'level') continue;
    const name = problem.levels?.[event.index]?.name as Mark;
    if (!marks.has(name)) marks.set(name, event);
  }
  return { plant, solution, marks };
}
