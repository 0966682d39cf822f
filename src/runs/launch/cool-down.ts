/** A car that stands still after a launch: the drive is off, the 12 V side draws on, what is warm cools. */
import { nth } from '../../columns.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { DISTANCE, RC, SPEED } from '../../model/forward/state.ts';
import { plantParameters } from '../../model/forward/load.ts';
import { plantFor } from '../../model/forward/plant.ts';
import { recovered } from '../../model/pack/balance.ts';
import type { Plant } from '../../model/forward/plant.ts';
import { solveExplicit } from '../../solvers/explicit.ts';
import type { SwitchedSystem } from '../../solvers/system.ts';

const TOLERANCE = 1e-9;

/** How a car stands at the end of a pause. */
export interface Paused {
  /** Of the plant: at rest, distance 0. */
  readonly states: Float64Array;
  /** Integrals of the pause, J, in the order of `QUADRATURES`. */
  readonly integrals: Float64Array;
}

/** Stands for `seconds`, from the states at the end of a launch of the same car; speed and spinning wheels are taken away first. */
export function pause(car: Car, surroundings: Surroundings, states: Float64Array, seconds: number): Paused {
  const plant = plantFor(plantParameters(switchedOff(car), surroundings, 0));
  const start = atRest(plant, states);
  const solution = solveExplicit(still(plant), settings(start, seconds));
  if (solution.status === 'failed') throw new Error(`the pause could not be integrated: ${solution.reason}`);
  const last = solution.nodes - 1;
  const end = solution.states.slice(last * plant.states, (last + 1) * plant.states);
  const { budgetState } = plant;
  if (budgetState >= 0) {
    const [left] = recovered(plant.moving.pack, nth(states, budgetState), 0, seconds);
    end[budgetState] = left;
  }
  return {
    states: end,
    integrals: solution.integrals.slice(last * plant.quadratures, (last + 1) * plant.quadratures),
  };
}

function settings(initial: Float64Array, seconds: number): Parameters<typeof solveExplicit>[1] {
  return { start: 0, end: seconds, initial, mode: 0, tolerance: TOLERANCE };
}

/** Nothing turns, so nothing but the heat that is there already reaches the drive unit. */
function switchedOff(car: Car): Car {
  const losses = { copper: 0, iron: 0, windage: 0, fixed: 0 };
  return { ...car, drives: car.drives.map(drive => ({ ...drive, unit: { ...drive.unit, losses } })) };
}

/** Charge, polarisation and temperatures as they are, all else at rest. */
function atRest(plant: Plant, states: Float64Array): Float64Array {
  const start = plant.initial(0).slice(0, plant.states);
  const end = plant.packTemperatureState < 0 ? RC + plant.shape.pairs : plant.packTemperatureState + 1;
  for (let i = 0; i < end; i++) if (i !== SPEED && i !== DISTANCE) start[i] = nth(states, i);
  return start;
}

/** The plant with everything mechanical held still. */
function still(plant: Plant): SwitchedSystem {
  const mode = plant.modeAt(plant.initial(0));
  const from = plant.packTemperatureState < 0 ? RC + plant.shape.pairs : plant.packTemperatureState + 1;
  return {
    states: plant.states,
    quadratures: plant.quadratures,
    guards: 0,
    scales: plant.scales,
    rates(_mode, y, out) {
      plant.rates(mode, y, out);
      out[SPEED] = 0;
      out[DISTANCE] = 0;
      out.fill(0, from, plant.states);
    },
  };
}
