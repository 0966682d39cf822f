/** What is fitted to logs of launches, and what comes of it. */
import type { Car, Surroundings } from '../../model/car.ts';
import type { Covariance } from '../linear.ts';
import type { LaunchLog } from './launch-log.ts';
import type { LaunchParameter } from './parameters.ts';

/** The same car and day with one uncertain thing a standard uncertainty up, and down. */
export interface Nuisance {
  readonly name: string;
  /** Below the car, where it is a number of the car that a covariance may name, and its standard uncertainty, SI. */
  readonly input: { readonly path: string; readonly standard: number } | null;
  /** The parameter that it is of: where that is fitted, it is nothing beside it. */
  readonly parameter?: LaunchParameter | undefined;
  /** Share by which the meter of the pack's power may be off, in place of car and day. */
  readonly meter?: number;
  readonly up: { readonly car: Car; readonly surroundings: Surroundings };
  readonly down: { readonly car: Car; readonly surroundings: Surroundings };
}

export interface LaunchMeasurement {
  /** Launches from rest, as `ascentOf` or `readLaunchLog` cut them. */
  readonly logs: readonly LaunchLog[];
  readonly car: Car;
  readonly surroundings: Surroundings;
  readonly wanted: readonly LaunchParameter[];
  /** Of them what nobody asked for by name: where it can not be told apart from another it goes first. */
  readonly beside?: readonly LaunchParameter[];
  /** s over which the receiver averages. */
  readonly over: number;
  readonly nuisances: readonly Nuisance[];
}

export interface OneLaunch {
  readonly log: LaunchLog;
  /** s of the log at which the pedal went down, and by which its bus is late. */
  readonly zero: number;
  readonly late: number;
  /** m/s, read less fitted. */
  readonly residuals: Float64Array;
}

export interface LaunchFit {
  readonly parameters: readonly LaunchParameter[];
  readonly values: readonly number[];
  readonly covariance: Covariance;
  /** The car with these values. */
  readonly car: Car;
  readonly launches: readonly OneLaunch[];
  /** m/s, root of the mean square of what is left. */
  readonly noise: number;
  /** W, root of the mean square of what is left of the power; null where no log has it. */
  readonly powerNoise: number | null;
  /** Tread of the driven wheels as it was read over that of the model; null where no log has it. */
  readonly wheelFactor: number | null;
  /** What was asked for and is not told, as sentences without a full stop. */
  readonly untold: readonly string[];
  /** By how much a standard uncertainty of each other input moves the parameters. */
  readonly effects: readonly Effect[];
  /** What adds most to the uncertainty of the first parameter, with its share of the variance. */
  readonly greatest: { readonly name: string; readonly share: number } | null;
  /** Of the scatter between launches, where there are enough; else that of the rows. */
  readonly scatter: 'launches' | 'rows';
}

export interface Effect extends Pick<Nuisance, 'name' | 'input'> {
  readonly shift: readonly number[];
}
