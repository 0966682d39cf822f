/** A launch as the instruments of a car tell it. */
import { nth } from '../../columns.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { DISTANCE, SPEED } from '../../model/forward/state.ts';
import { terminalEnergy } from '../../runs/ledger.ts';
import { createLauncher, type LaunchRun } from '../../runs/launch/run.ts';

/** At s since the pedal went down, each as the mean over the time that it is averaged over until then. */
export interface Told {
  /** m/s. */
  readonly speed: (time: number) => number;
  /** m/s of the tread of the driven wheels, of both axles together where both are. */
  readonly wheel: (time: number) => number;
  /** W out of the pack. */
  readonly power: (time: number) => number;
}

export interface Averaging {
  /** s over which the receiver averages speeds, and the bus what it tells; 0 for none. */
  readonly over: number;
  readonly busOver?: number;
}

/**
 * A function that launches one car after the other; what it gives is good until its next call. A receiver that averages over some time tells
 * the way of that time over it: the smoothing is part of the model, and the log is left as it is.
 * @param to m/s up to which it is launched.
 */
export function createTold(
  to: number,
  { over, busOver = over }: Averaging,
): (car: Car, surroundings: Surroundings) => Told {
  const launch = createLauncher();
  return (car, surroundings) => {
    const run = launch(car, { surroundings, to, stop: 'to', tolerance: 1e-8 });
    const way = createWay(run);
    const mean = (of: (time: number) => number, window: number) => (time: number) =>
      (of(time) - of(time - window)) / window;
    return {
      speed: over > 0 ? mean(way.distance, over) : way.speed,
      power: mean(way.energy, busOver > 0 ? busOver : INSTANT),
      wheel: createWheels(run, busOver),
    };
  };
}

/** s over which the power of an instant is told: as the energy of that time over it. */
const INSTANT = 1e-3;

interface Way {
  readonly distance: (time: number) => number;
  readonly speed: (time: number) => number;
  /** J out of the pack. */
  readonly energy: (time: number) => number;
}

/** Beyond the end, where no row of the log lies once the fit has come near, it goes on as it ended. */
function createWay({ plant, solution }: LaunchRun): Way {
  const row = new Float64Array(plant.states + plant.quadratures);
  const begin = nth(solution.times, 0);
  const end = nth(solution.times, solution.nodes - 1);
  const first = solution.states.slice(0, plant.states);
  const idle = plant.moving.car.auxiliaryPower;
  const integrals = row.subarray(plant.states);
  const energyIn = (): number => terminalEnergy(plant, first, row, integrals);
  let last = Number.NaN;
  const at = (time: number): void => {
    const within = Math.min(time, end);
    if (within !== last) solution.at(within, row);
    last = within;
  };
  return {
    speed: time => {
      if (time <= begin) return 0;
      at(time);
      return nth(row, SPEED);
    },
    distance: time => {
      if (time <= begin) return 0;
      at(time);
      return nth(row, DISTANCE) + Math.max(0, time - end) * nth(row, SPEED);
    },
    energy: time => {
      if (time <= begin) return idle * (time - begin);
      at(time);
      const until = energyIn();
      if (time <= end) return until;
      at(end - INSTANT);
      return until + ((time - end) * (until - energyIn())) / INSTANT;
    },
  };
}

function createWheels({ plant, solution }: LaunchRun, over: number): (time: number) => number {
  const out = new Float64Array(plant.states + plant.quadratures);
  const y = new Float64Array(plant.states + 1);
  const begin = nth(solution.times, 0);
  const end = nth(solution.times, solution.nodes - 1);
  const { front, rear } = plant.moving;
  const at = (time: number): number => {
    if (time <= begin) return 0;
    const until = Math.min(time, end);
    const mode = nth(solution.modes, solution.at(until, out));
    y.set(out.subarray(0, plant.states));
    y[plant.states] = until;
    plant.rates(mode, y, out);
    const [one, other] = [front.radius * plant.atFront.wheelSpeed, rear.radius * plant.atRear.wheelSpeed];
    if (front.driven && rear.driven) return (one + other) / 2;
    return front.driven ? one : other;
  };
  // A mean over so short a time is what turns in its middle.
  return time => at(time - over / 2);
}
