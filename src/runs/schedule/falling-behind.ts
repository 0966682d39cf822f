/**
 * The car that can not do what its schedule asks: the forward model at full pedal, with speed as a state, until it has the speed
 * of the schedule again or the interval ends.
 */
import { item, nth } from '../../columns.ts';
import type { FollowParameters } from '../../model/backward/load.ts';
import { CHARGE, DISTANCE, gearOf, QUADRATURES, RC, SPEED } from '../../model/forward/state.ts';
import { createPlant } from '../../model/forward/plant.ts';
import { sameShape } from '../../model/forward/shape.ts';
import type { Plant } from '../../model/forward/plant.ts';
import { createExplicit } from '../../solvers/explicit.ts';
import type { Level, Solution, Solve, SolveOptions, SwitchedSystem } from '../../solvers/system.ts';
import type { Journey } from './journey.ts';
import { shiftLosses, terminalEnergy } from '../ledger.ts';

const TOLERANCE = 1e-8;

/** m/s; a car slower than this that does not gain speed stands. */
const STANDSTILL = 1e-3;

/** A line in time that the speed may come up to: m/s at the start of the interval, m/s2. */
interface Line {
  from: number;
  rise: number;
}

/** How a stretch at full pedal ended. */
export interface FreeEnd {
  readonly outcome: 'caught up' | 'interval over' | 'stuck' | 'empty' | 'too fast' | 'failed';
  readonly reason: string;
  /** s in the interval. */
  readonly at: number;
}

/** What else ends a stretch: a state of charge that it falls to, and a speed in m/s that it rises to. */
export interface FreeEnds {
  readonly low: number;
  readonly fastest: number;
}

export interface FreeDrive {
  /**
   * From `s` seconds into the interval, at the speed of the car, to the end of the interval at most. States, sums and the distance of
   * the car are taken along.
   */
  drive(car: Journey, s: number, ends: FreeEnds): FreeEnd;
  /** The solution of the last stretch. */
  last(): Solution | null;
  /** Gear at the end of the last stretch, 0 for the first. */
  gear(): number;
}

/** The plant, and the line as one more guard. */
interface Pursuit {
  readonly plant: Plant;
  readonly line: Line;
  readonly solve: (options: SolveOptions) => Solution;
}

/** @param method in place of the explicit one, for the second opinion. */
export function createFreeDrive(method?: Solve): FreeDrive {
  let pursuit: Pursuit | null = null;
  let solution: Solution | null = null;
  return {
    last: () => solution,
    gear: () => (solution === null ? 0 : gearOf(nth(solution.modes, Math.max(0, solution.nodes - 2)))),
    drive(inner, s, ends) {
      const { parameters, interval } = inner;
      if (parameters === null) throw new Error('no car has been loaded');
      if (pursuit === null || !sameShape(pursuit.plant.shape, parameters.shape)) pursuit = pursue(parameters, method);
      const { plant } = pursuit;
      pursuit.line.from = interval.from;
      pursuit.line.rise = interval.rise;
      // The present figures: with the slope of this interval and what the consumers take now.
      const { car, front, rear } = inner.following.moving;
      car.auxiliaryPower = inner.following.powers.auxiliaries;
      plant.load({ ...parameters, car, front, rear });
      const y = statesOf(plant, inner);
      y[plant.states] = s;
      const mode = plant.modeAt(y);
      plant.rates(mode, y, new Float64Array(plant.states + plant.quadratures));
      if (inner.speed < STANDSTILL && !(plant.now.acceleration > 0)) {
        solution = null;
        inner.mode = mode;
        return { outcome: 'stuck', reason: '', at: s };
      }
      solution = pursuit.solve({
        start: s,
        end: interval.length,
        initial: y.subarray(0, plant.states),
        mode,
        tolerance: TOLERANCE,
        maxStep: 1,
        levels: levelsAt(ends),
      });
      return collect(plant, solution, inner, s);
    },
  };
}

function pursue(parameters: FollowParameters, method: Solve | undefined): Pursuit {
  const plant = createPlant(parameters.shape);
  const line: Line = { from: 0, rise: 0 };
  const system: SwitchedSystem = {
    states: plant.states,
    quadratures: plant.quadratures,
    guards: plant.guards + 1,
    scales: plant.scales,
    rates: (mode, y, out) => plant.rates(mode, y, out),
    guard(mode, y, out) {
      plant.guard!(mode, y, out);
      // `guard` of the plant has filled the whole of `out`.
      out[plant.guards] = (line.from + line.rise * y[plant.states]! - y[SPEED]!) * 0.1;
    },
    switched: (mode, fired, y) => (fired === plant.guards ? -1 : plant.switched!(mode, fired, y)),
  };
  return { plant, line, solve: method === undefined ? createExplicit(system) : options => method(system, options) };
}

const OUTCOMES = ['stuck', 'too fast', 'empty'] as const;

function levelsAt({ low, fastest }: FreeEnds): Level[] {
  const levels: Level[] = [
    { name: 'rest', state: SPEED, value: 0, direction: 'falling', action: 'stop' },
    { name: 'too fast', state: SPEED, value: fastest, direction: 'rising', action: 'stop' },
  ];
  if (low > -Infinity) levels.push({ name: 'empty', state: CHARGE, value: low, direction: 'falling', action: 'stop' });
  return levels;
}

function statesOf(plant: Plant, { following, speed, distance }: Journey): Float64Array {
  const { pack: k, front, rear } = following;
  const y = plant.initial(speed);
  y[DISTANCE] = distance;
  y[CHARGE] = k.charge;
  if (plant.shape.pairs > 0) y[RC] = k.pair1;
  if (plant.shape.pairs > 1) y[RC + 1] = k.pair2;
  [front, rear].forEach(({ at }, axle) => {
    const state = plant.unitTemperatureState(axle);
    if (state >= 0) y[state] = at.temperature;
  });
  if (plant.packTemperatureState >= 0) y[plant.packTemperatureState] = k.temperature;
  return y;
}

function collect(plant: Plant, solution: Solution, inner: Journey, start: number): FreeEnd {
  const { following, sums, totals } = inner;
  const { pack: k, front, rear } = following;
  const last = solution.nodes - 1;
  const y = solution.states.subarray(last * plant.states, (last + 1) * plant.states);
  inner.speed = Math.max(0, nth(y, SPEED));
  inner.distance = nth(y, DISTANCE);
  inner.mode = nth(solution.modes, Math.max(0, last - 1));
  k.charge = nth(y, CHARGE);
  if (plant.shape.pairs > 0) k.pair1 = nth(y, RC);
  if (plant.shape.pairs > 1) k.pair2 = nth(y, RC + 1);
  [front, rear].forEach(({ at }, axle) => {
    const state = plant.unitTemperatureState(axle);
    if (state >= 0) at.temperature = nth(y, state);
  });
  if (plant.packTemperatureState >= 0) k.temperature = nth(y, plant.packTemperatureState);
  const row = solution.integrals.subarray(last * plant.quadratures, (last + 1) * plant.quadratures);
  const integral = (name: (typeof QUADRATURES)[number]): number => nth(row, QUADRATURES.indexOf(name));
  k.heat += integral('packHeat');
  sums.power += terminalEnergy(plant, solution.states.subarray(0, plant.states), y, row);
  for (const name of SUMS) sums[name] += integral(name);
  totals.synchronised += shiftLosses({ plant, solution });
  totals.lateSwitches += solution.statistics.lateSwitches;
  const at = nth(solution.times, last);
  totals.beyond += at - start;
  if (solution.status === 'failed') return { outcome: 'failed', reason: solution.reason, at };
  if (solution.status === 'level') {
    const event = item(solution.events, solution.events.length - 1);
    return { outcome: OUTCOMES[event.index] ?? 'failed', reason: '', at };
  }
  return { outcome: solution.status === 'switched' ? 'caught up' : 'interval over', reason: '', at };
}

const SUMS = ['unitHeat', 'gearHeat', 'spinUp', 'slip', 'rolling', 'drag', 'grade', 'auxiliaries'] as const;
