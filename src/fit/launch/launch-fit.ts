/** From logs of launches to grip, power and how fast torque builds up, with their covariance. */
import { item, lastOf, nth } from '../../columns.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { hanging } from '../coast/one-run.ts';
import { type Fitted, leastSquares, scatterCovariance, shiftFor } from '../least-squares.ts';
import { added, type Covariance, effectOf, expanded, meanOf, scaled } from '../linear.ts';
import type { Shortcoming } from '../problem.ts';
import type { SpeedLog } from '../speed-log.ts';
import { weakestOf } from '../untold.ts';
import { createTold } from './modelled.ts';
import { type LaunchParameter, PARAMETER_KINDS } from './parameters.ts';

/** The same car and day with one uncertain thing a standard uncertainty up, and down. */
export interface Nuisance {
  readonly name: string;
  /** Below the car, where it is a number of the car that a covariance may name, and its standard uncertainty, SI. */
  readonly input: { readonly path: string; readonly standard: number } | null;
  /** The parameter that it is of: where that is fitted, it is nothing beside it. */
  readonly parameter?: LaunchParameter | undefined;
  readonly up: { readonly car: Car; readonly surroundings: Surroundings };
  readonly down: { readonly car: Car; readonly surroundings: Surroundings };
}

export interface LaunchMeasurement {
  /** Launches from rest, as `ascentOf` cuts them. */
  readonly logs: readonly SpeedLog[];
  readonly car: Car;
  readonly surroundings: Surroundings;
  readonly wanted: readonly LaunchParameter[];
  /** s over which the receiver averages. */
  readonly over: number;
  readonly nuisances: readonly Nuisance[];
}

export interface OneLaunch {
  readonly log: SpeedLog;
  /** s of the log at which the pedal went down. */
  readonly zero: number;
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

/** Launches whose scatter means something. */
const ENOUGH = 3;

export function launchFit(measured: LaunchMeasurement): LaunchFit | { readonly short: readonly Shortcoming[] } {
  const untold: string[] = [];
  let { wanted } = measured;
  for (;;) {
    const found = fitOf({ ...measured, wanted, nuisances: [...measured.nuisances, ...forcesOf(measured, wanted)] });
    const weak = weakOf(found, wanted);
    if (weak === null) return { ...found, untold };
    const [only] = weak;
    if (weak.length > 1 || only === undefined || wanted.length === 1 || only === 'mass')
      return { short: [shortOf(weak)] };
    untold.push(untoldOf(only));
    wanted = wanted.filter(each => each !== only);
  }
}

/** Share by which a force that nobody measured may be off, where the mass is asked for: with all forces and the mass the speed stays. */
const UNMEASURED = 0.15;

function forcesOf({ car, surroundings }: LaunchMeasurement, wanted: readonly LaunchParameter[]): readonly Nuisance[] {
  if (!wanted.includes('mass')) return [];
  const one = (name: string, change: (factor: number) => Car): Nuisance => ({
    name,
    input: null,
    up: { car: change(1 + UNMEASURED), surroundings },
    down: { car: change(1 - UNMEASURED), surroundings },
  });
  const forces = (['power', 'torque', 'grip'] as const).filter(each => !wanted.includes(each));
  return [
    ...forces.map(each => one(PARAMETER_KINDS[each].name, factor => PARAMETER_KINDS[each].apply(car, factor))),
    one('drag', factor => ({ ...car, body: { ...car.body, dragArea: factor * car.body.dragArea } })),
  ];
}

type Found = Omit<LaunchFit, 'untold'>;

function fitOf(measured: LaunchMeasurement): Found {
  const { logs, wanted } = measured;
  const together = fitLogs(measured, logs);
  const count = wanted.length;
  const top = (matrix: Covariance): number[][] => matrix.slice(0, count).map(row => row.slice(0, count));
  const byLog = logs.length >= ENOUGH ? logs.map(log => fitLogs(measured, [log])) : [];
  const scatter = byLog.length === 0 ? null : meanOf(byLog.map(({ fit }) => fit.parameters.slice(0, count)));
  const factor = hanging(together.fit.residuals);
  const values = scatter === null ? together.fit.parameters.slice(0, count) : scatter.mean;
  const effects = measured.nuisances
    .filter(({ parameter }) => parameter === undefined || !wanted.includes(parameter))
    .map(
      (nuisance): Effect => ({
        name: nuisance.name,
        input: nuisance.input,
        shift: together.shift(nuisance).slice(0, count),
      }),
    );
  const beside = effects.reduce<number[][]>(
    (all, { shift }) => added(all, effectOf(shift, 1)),
    wanted.map(() => wanted.map(() => 0)),
  );
  const covariance =
    scatter === null || beside.flat().some(value => !Number.isFinite(value))
      ? added(top(scaled(scatterCovariance(together.fit), factor)), beside)
      : expanded(scatter.covariance, beside, logs.length - 1);
  return {
    parameters: wanted,
    values,
    covariance,
    car: carWith(measured.car, wanted, values),
    launches: together.launches,
    noise: Math.sqrt(together.fit.squares / together.fit.residuals.length),
    effects,
    greatest: greatestOf(effects, covariance),
    scatter: scatter === null ? 'rows' : 'launches',
  };
}

function greatestOf(effects: readonly Effect[], covariance: Covariance): LaunchFit['greatest'] {
  const whole = nth(item(covariance, 0), 0);
  const shares = effects.map(({ name, shift }) => ({ name, share: nth(shift, 0) ** 2 / whole }));
  return shares.toSorted((a, b) => b.share - a.share)[0] ?? null;
}

interface FittedLogs {
  readonly fit: Fitted;
  readonly launches: readonly OneLaunch[];
  readonly shift: (nuisance: Nuisance) => number[];
}

/** The wanted parameters, and one time zero for each log. */
function fitLogs(measured: LaunchMeasurement, logs: readonly SpeedLog[]): FittedLogs {
  const { car, surroundings, wanted, over } = measured;
  const kinds = wanted.map(each => PARAMETER_KINDS[each]);
  const told = createTold(
    1.1 * Math.max(...logs.map(({ speed }) => speed.reduce((a, b) => Math.max(a, b), 0))) + 2,
    over,
  );
  const residualsOf = (base: Car, day: Surroundings, parameters: readonly number[]): Float64Array => {
    const speed = told(carWith(base, wanted, parameters), day);
    const parts = logs.map((log, k) => {
      const zero = nth(parameters, kinds.length + k);
      return log.speed.map((v, i) => v - speed(nth(log.time, i) - zero));
    });
    return Float64Array.from(parts.flatMap(part => Array.from(part)));
  };
  const first = told(car, surroundings);
  const scale = [...kinds.map(kind => kind.scale), ...logs.map(() => 0.2)];
  const fit = leastSquares({
    residuals: parameters => residualsOf(car, surroundings, parameters),
    start: [...kinds.map(kind => kind.start(car)), ...logs.map(log => zeroOf(log, first))],
    scale,
    within: [...kinds.map(kind => kind.within), ...logs.map(log => [-5, lastOf(log.time)] as const)],
  });
  let row = 0;
  const launches = logs.map((log, k) => {
    const residuals = fit.residuals.slice(row, (row += log.speed.length));
    return { log, zero: nth(fit.parameters, kinds.length + k), residuals };
  });
  return {
    fit,
    launches,
    shift: ({ up, down }) => {
      const [high, low] = [up, down].map(each => residualsOf(each.car, each.surroundings, fit.parameters));
      return shiftFor(
        fit,
        scale,
        fit.residuals.map((_, i) => ((high?.[i] ?? 0) - (low?.[i] ?? 0)) / 2),
      );
    },
  };
}

function carWith(car: Car, wanted: readonly LaunchParameter[], values: readonly number[]): Car {
  return wanted.reduce((changed, each, k) => PARAMETER_KINDS[each].apply(changed, nth(values, k)), car);
}

/** s of the log: where it passes a third of its speed, less the time that the car as it is known takes to there. */
function zeroOf({ time, speed }: SpeedLog, told: (time: number) => number): number {
  const third = lastOf(speed) / 3;
  const passed = nth(
    time,
    speed.findIndex(v => v >= third),
  );
  let needs = 0;
  while (told(needs) < third && needs < 60) needs += 0.02;
  return passed - needs;
}

function weakOf({ covariance }: Found, wanted: readonly LaunchParameter[]): readonly LaunchParameter[] | null {
  const weak = weakestOf(
    covariance,
    wanted.map(each => PARAMETER_KINDS[each].scale),
  );
  return weak === null ? null : weak.map(k => item(wanted, k));
}

function shortOf(weak: readonly LaunchParameter[]): Shortcoming {
  const names = weak.map(each => PARAMETER_KINDS[each].name).join(' and ');
  if (weak.includes('mass'))
    return {
      what: `speed over time gives power over mass, never both: ${names} can not be told apart`,
      cure: 'the mass from the scales, and fit: without mass',
    };
  if (weak.includes('grip') && weak.includes('torque'))
    return {
      what: `${names} can not be told apart by the speed of the car: either holds the start back alike`,
      cure: 'the speed of the driven wheels, or fit: with one of them',
    };
  return {
    what: `${names} can not be told ${weak.length > 1 ? 'apart ' : ''}by this log`,
    cure: 'more launches, more rows a second, a level road both ways, or fit: with fewer of them',
  };
}

function untoldOf(parameter: LaunchParameter): string {
  const why: { readonly [key in LaunchParameter]: string } = {
    power: 'the launch is not held back by power for long enough',
    power_at_top: 'the log does not go far enough beyond the corner of torque and power',
    grip: 'the tyres never hold it back; whether that is so or torque is low, only the speed of the driven wheels tells',
    torque: 'torque never holds it back; whether that is so or grip is low, only the speed of the driven wheels tells',
    torque_rise: 'it is hidden behind the time zero at so few rows a second, or behind grip',
    mass: 'speed over time gives power over mass',
  };
  return `the ${PARAMETER_KINDS[parameter].name} can not be told and stays as the car cell has it: ${why[parameter]}`;
}
