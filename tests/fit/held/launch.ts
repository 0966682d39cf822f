/** Launches of a car that is known, ten rows a second, whose mass the scales told with an uncertainty. */
import { item, nth } from '../../../src/columns.ts';
import { launchFit } from '../../../src/fit/launch/launch-fit.ts';
import { type LaunchParameter, PARAMETER_KINDS } from '../../../src/fit/launch/parameters.ts';
import type { Car } from '../../../src/model/car.ts';
import { normalQuantile } from '../../../src/studies/sampling/normal.ts';
import { type Drag, LEVEL, launchCar, launchLog, normals } from '../launch-logs.ts';
import { type Counting, holds } from './counting.ts';

const TEN: Drag = { rate: 10, noise: 0.03, over: 0.1, to: 110 };
/** Standard uncertainty of the mass, as a share. */
const SCALES = 0.003;

/**
 * What the scales are off by, in that: of a normal distribution each thousandth once, in a fixed disorder. The power leans on little else, and
 * by single draws it was told how many of them happened to lie inside (930 of 1,000), not whether the interval is right.
 */
function scalesOff(seed: number): number {
  return normalQuantile((((seed * 389) % 1000) + 0.5) / 1000);
}

interface Launching {
  readonly car: Car;
  readonly truth: { readonly [key in LaunchParameter]?: number };
  readonly logs: number;
  readonly drag?: Drag;
}

function launching(name: string, { car, truth, logs, drag = TEN }: Launching): Counting {
  const wanted = Object.keys(truth) as LaunchParameter[];
  const heavier = (by: number): Car => PARAMETER_KINDS.mass.apply(car, 1 + by);
  const mass = {
    name: 'mass',
    input: null,
    up: { car: heavier(SCALES), surroundings: LEVEL },
    down: { car: heavier(-SCALES), surroundings: LEVEL },
  };
  return {
    name,
    figures: wanted,
    repeats: 1000,
    hits: seed => {
      const normal = normals(seed);
      const real = heavier(SCALES * scalesOff(seed));
      const found = launchFit({
        logs: Array.from({ length: logs }, () => launchLog(real, truth, drag, normal)),
        car,
        surroundings: LEVEL,
        wanted,
        over: drag.over,
        nuisances: [mass],
      });
      if ('short' in found || found.parameters.length < wanted.length) return null;
      return wanted.map((each, k) =>
        holds(nth(found.values, k) - (truth[each] ?? 1), Math.sqrt(nth(item(found.covariance, k), k))),
      );
    },
  };
}

const weak = launchCar();
const strong = launchCar(120_000, 300);

export const launchCountings: readonly Counting[] = [
  launching('one launch', { car: weak, truth: { power: 0.92, torque: 0.95, torque_rise: 0.3 }, logs: 1 }),
  launching('four launches', { car: weak, truth: { power: 0.92, torque: 0.95, torque_rise: 0.3 }, logs: 4 }),
  launching('three launches on their tyres', { car: strong, truth: { power: 0.92, grip: 1.05 }, logs: 3 }),
];
