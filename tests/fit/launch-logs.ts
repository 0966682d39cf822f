/** Logs of launches of a car that is known, through a receiver that averages and is not perfect. All invented. */
import { completeCar } from '../../src/model/complete.ts';
import { readSpeedLog, type SpeedLog } from '../../src/fit/speed-log.ts';
import { ascentOf } from '../../src/fit/launch/ascent.ts';
import { createTold } from '../../src/fit/launch/modelled.ts';
import { type LaunchParameter, PARAMETER_KINDS } from '../../src/fit/launch/parameters.ts';
import type { Car, Surroundings } from '../../src/model/car.ts';
import { shippedPart } from '../../src/model/parts/shipped.ts';
import { csvOf, normals } from './coast-logs.ts';

export const LEVEL: Surroundings = {
  temperature: 293.15,
  altitude: 0,
  humidity: 0.5,
  wind: 0,
  slope: 0,
  surface: 'dry',
};

/** A light car of 60 kW at the rear axle that spins its tyres for a moment; `more` power makes that longer. */
export function launchCar(peakPower = 60_000, peakTorque = 160): Car {
  const cell = shippedPart('cell', 'cell_nmc_60ah')?.values ?? {};
  const { car } = completeCar({
    mass: 1155,
    tyres: { radius: 0.29 },
    drive: { axle: 'rear', ratio: 8.5, unit: { peakTorque, peakPower, maxSpeed: 1200 } },
    pack: { cell, series: 96, parallel: 3 },
  });
  return car;
}

export interface Drag {
  /** Rows a second, m/s of white noise, s that the receiver averages over. */
  readonly rate: number;
  readonly noise: number;
  readonly over: number;
  /** km/h. */
  readonly to: number;
}

/** One launch with the pedal down at about 2 s, as the file of a logger says it. */
export function loggedLaunch(
  car: Car,
  truth: { readonly [key in LaunchParameter]?: number },
  { rate, noise, over, to }: Drag,
  normal: () => number,
  day: Surroundings = LEVEL,
): string {
  const real = Object.entries(truth).reduce(
    (changed, [key, value]) => PARAMETER_KINDS[key as LaunchParameter].apply(changed, value),
    car,
  );
  const told = createTold(to / 3.6 + 3, over)(real, day);
  const zero = 2 + 0.03 * normal();
  const time: number[] = [];
  const speed: number[] = [];
  for (let k = 0; k < 60 * rate; k++) {
    const t = k / rate;
    const v = told(t - zero);
    time.push(t);
    speed.push(Math.max(0, v + (v > 0 ? noise : noise / 3) * normal()));
    if (v > to / 3.6 + 1) break;
  }
  return csvOf({ time: Float64Array.from(time), speed: Float64Array.from(speed) });
}

/** The same as a fit takes it. */
export function launchLog(...asked: Parameters<typeof loggedLaunch>): SpeedLog {
  return ascentOf(readSpeedLog(loggedLaunch(...asked)));
}

export { normals };
