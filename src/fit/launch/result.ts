/** Launches as a result: figures with their intervals, what was read beside what is modelled, the limiter. */
import { item, nth } from '../../columns.ts';
import { loadedMass } from '../../model/body/loaded-mass.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { column, speedColumn } from '../../runs/column.ts';
import { putInto } from '../../runs/found.ts';
import { launch } from '../../runs/launch/launch.ts';
import { number, output, power, seconds, share, speed, torque } from '../../runs/output.ts';
import type { Coverage, Output, Result, Series } from '../../runs/result.ts';
import { numbers } from '../../runs/series.ts';
import { totalPower } from '../../runs/variant.ts';
import type { Measured } from '../coast/measured.ts';
import type { Shortcoming } from '../problem.ts';
import { EMPTY_LEDGER, TWO_SIDED, coverageOf, noCalibration, residualColumns, within } from '../result.ts';
import { doubtsOf } from './doubts.ts';
import type { LaunchFit, Nuisance } from './measurement.ts';
import { promiseOf } from './promise.ts';
import { apartOf, besideOf } from './words.ts';
import { type LaunchParameter, LAUNCH_PARAMETERS, PARAMETER_KINDS } from './parameters.ts';

export const LAUNCH_LOG = 'launch-log';

const outputs: { readonly [key: string]: Output } = {
  power: power('peak power', 'of all drive units together, at the motor shaft, as the launches show it'),
  power_at_top: share('power at the top speed of the motor', 'as a share of the peak power'),
  grip: number('peak friction', 'of the driven tyres at their reference load'),
  torque: torque('peak torque', 'at the motor shaft of the first drive'),
  torque_rise: seconds('build-up of torque', 'from the pedal to the peak'),
  copper_loss: output(
    'copper loss',
    'W/(N m)^2',
    'W/(N m)^2',
    'W/(N m)^2',
    'of the first drive, over the square of its torque; by the power of the pack, as far as all other losses are known',
  ),
  mass: output('mass', 'kg', 'kg', 'lb', 'of the car without people'),
  time_before: seconds(
    'to the end of the log, as it was assumed',
    'from the pedal to the speed at which the first log ends',
  ),
  time_after: seconds('to the end of the log, as it was measured', 'the same with what was found'),
  tread: number('tread of the wheels', 'the speed of the driven wheels as the bus has it, over that of the model'),
  bus_late: seconds('the bus is late', 'behind the speed, in the first log'),
  residual_power: power('what is left of power', 'read less fitted, root of the mean square'),
  end_speed: speed('end of the log', 'speed up to which the first log is used'),
  residual: speed('what is left', 'of speed, read less fitted, root of the mean square'),
  launches: number('launches', 'that were fitted'),
};

export interface LaunchAbout {
  readonly car: Car;
  readonly surroundings: Surroundings;
  readonly nuisances: readonly Nuisance[];
  readonly lines: readonly string[];
  readonly warnings: readonly string[];
}

export function noLaunchFit(short: readonly Shortcoming[], warnings: readonly string[]): Result {
  return noCalibration(LAUNCH_LOG, outputs, short, warnings);
}

/** What a value of a parameter means for this car, SI. */
export function meantBy(parameter: LaunchParameter, car: Car, wet = false): (value: number) => number {
  const slope = slopeOf(parameter, car, wet);
  // The scales weigh people as well, and the car cell says the car without them.
  const people = parameter === 'mass' ? car.body.driver + car.body.load : 0;
  return value => value * slope - people;
}

/** What a change of it means. */
export function slopeOf(parameter: LaunchParameter, car: Car, wet = false): number {
  const { body, drives, tyres } = car;
  const [first] = drives;
  const tyre = first === undefined ? undefined : tyres[first.axle];
  const factor: { readonly [key in LaunchParameter]: number } = {
    power: totalPower(car),
    grip: (wet ? tyre?.wet.peak : tyre?.dry.peak) ?? 1,
    torque: first?.unit.peakTorque ?? 1,
    power_at_top: 1,
    torque_rise: 1,
    copper_loss: first?.unit.losses.copper ?? 1,
    mass: loadedMass(body),
  };
  return factor[parameter];
}

export function launchLogResult(found: LaunchFit, about: LaunchAbout): Result {
  const summary: { [key: string]: number | string | null } = {};
  const reasons: { [key: string]: string } = {};
  const put = putInto(summary, reasons);
  const of: { [key: string]: Coverage } = {};
  for (const parameter of LAUNCH_PARAMETERS) {
    const place = found.parameters.indexOf(parameter);
    const untold = found.untold.find(each => each.startsWith(`the ${PARAMETER_KINDS[parameter].name} can`));
    if (place < 0) put(parameter, null, untold ?? 'it was not asked for');
    else {
      const wet = about.surroundings.surface === 'wet';
      const value = meantBy(parameter, about.car, wet)(nth(found.values, place));
      put(parameter, value);
      const standard = Math.sqrt(nth(item(found.covariance, place), place));
      of[parameter] = coverageOf(value, standard * slopeOf(parameter, about.car, wet));
    }
  }
  const end = Math.max(...item(found.launches, 0).log.speed);
  const promised = promiseOf(found, about.car, about.surroundings, about.nuisances, end);
  const [before, after] = [about.car, found.car].map(car => launch(car, { surroundings: about.surroundings, to: end }));
  const promise = (key: string, time: Measured | null, why: string): void => {
    put(key, time?.value ?? null, why);
    if (time !== null) of[key] = coverageOf(time.value, time.standard);
  };
  promise('time_before', promised.before, 'the car as it was assumed does not get there');
  promise('time_after', promised.after, 'the car does not get there');
  const bus = found.launches.some(({ log }) => log.wheel !== undefined || log.power !== undefined);
  put('tread', found.wheelFactor, 'no log tells the speed of the driven wheels');
  put('bus_late', bus ? item(found.launches, 0).late : null, 'the logs tell speed alone');
  put('residual_power', found.powerNoise, 'no log tells the power of the pack');
  put('end_speed', end);
  put('residual', found.noise);
  put('launches', found.launches.length);
  return {
    kind: LAUNCH_LOG,
    summary,
    reasons,
    outputs,
    series: {
      read: readOf(found),
      ...busOf(found),
      after: tracedOf(after),
      before: tracedOf(before),
    },
    bands: after?.bands ?? [],
    events: [],
    ledger: EMPTY_LEDGER,
    warnings: [...doubtsOf(found), ...about.warnings],
    opinion: null,
    verdicts: verdictsOf(found, about),
    lines: about.lines,
    intervals: {
      probability: 0.95,
      samples: 0,
      seed: 0,
      inputs: found.parameters.length,
      of,
      holes: {},
    },
  };
}

function verdictsOf(found: LaunchFit, { car, surroundings }: LaunchAbout): readonly string[] {
  const told = found.parameters.map((parameter, k) => {
    const wet = surroundings.surface === 'wet';
    const value = meantBy(parameter, car, wet)(nth(found.values, k));
    const u = slopeOf(parameter, car, wet) * Math.sqrt(nth(item(found.covariance, k), k));
    return `${wordOf(parameter)} ${within(value, TWO_SIDED * u, each => shown(parameter, each))}`;
  });
  const { greatest, launches, scatter } = found;
  return [
    `${apartOf(besideOf(launches.map(({ log }) => log)))}${found.untold.map(each => `; ${each}`).join('')}`,
    `${launches.length === 1 ? 'One launch gives' : `${launches.length} launches give`} ${told.join(', ')}; in brackets what holds 19 of 20`,
    ...(greatest !== null && greatest.share > 0.2
      ? [
          `Most of what is uncertain about the ${wordOf(item(found.parameters, 0))} comes from ${greatest.name}: ${Math.round(100 * greatest.share)} % of the variance`,
        ]
      : []),
    ...(scatter === 'rows'
      ? ['Fewer than three launches: their uncertainty is that of the rows, not of how launches scatter']
      : []),
  ];
}

function wordOf(parameter: LaunchParameter): string {
  return {
    power: 'power',
    power_at_top: 'power at the top speed',
    grip: 'grip',
    torque: 'torque',
    torque_rise: 'build-up time',
    copper_loss: 'copper loss',
    mass: 'mass',
  }[parameter];
}

function shown(parameter: LaunchParameter, value: number): string {
  if (parameter === 'power') return `${Number((value / 1000).toPrecision(3))} kW`;
  const unit = { power_at_top: '', grip: '', torque: ' N m', torque_rise: ' s', copper_loss: ' W/(N m)²', mass: ' kg' }[
    parameter
  ];
  return `${Number(value.toPrecision(3))}${unit}`;
}

/** All logs over the time since their pedal went down. */
function readOf({ launches }: LaunchFit): Series {
  const rows = launches.flatMap(({ log, zero, residuals }) =>
    Array.from(log.time, (t, i) => ({
      run: log.title,
      time: t - zero,
      speed: nth(log.speed, i),
      off: nth(residuals, i),
    })),
  );
  return {
    time_s: column(
      'time since the pedal went down',
      's',
      's',
      's',
      Float64Array.from(rows, ({ time }) => time),
    ),
    speed_m_s: speedColumn(
      'speed',
      Float64Array.from(rows, ({ speed: v }) => v),
    ),
    ...residualColumns(rows),
  };
}

/** What the bus told, likewise; the wheels by the tread that the fit found. */
function busOf({ launches, wheelFactor }: LaunchFit): { readonly [name: string]: Series } {
  const time = (all: readonly number[]): Series[string] =>
    column('time since the pedal went down', 's', 's', 's', Float64Array.from(all));
  const of = (
    channel: 'wheel' | 'power',
    factor: number,
  ): readonly { readonly time: number; readonly value: number }[] =>
    launches.flatMap(({ log, zero, late }) => {
      const track = log[channel];
      if (track === undefined) return [];
      return Array.from(track.time, (t, i) => ({ time: t - zero - late, value: nth(track.value, i) / factor }));
    });
  const [wheel, power] = [of('wheel', wheelFactor ?? 1), of('power', 1)];
  return {
    ...(wheel.length > 0 && {
      read_wheel: {
        time_s: time(wheel.map(each => each.time)),
        wheel_m_s: speedColumn(
          'speed of the driven wheels',
          Float64Array.from(wheel, each => each.value),
        ),
      },
    }),
    ...(power.length > 0 && {
      read_power: {
        time_s: time(power.map(each => each.time)),
        power_W: column(
          'power of the pack',
          'W',
          'kW',
          'kW',
          Float64Array.from(power, each => each.value),
        ),
      },
    }),
  };
}

function tracedOf(result: Result | undefined): Series {
  const series = result?.series['time'];
  const of = (key: string): Float64Array => (series?.[key] === undefined ? new Float64Array(0) : numbers(series, key));
  const [time, v] = [of('time_s'), of('speed_m_s')];
  const slips = ['slip_1', 'rear_slip_1'].map(of).filter(({ length }) => length > 0);
  const slip = (i: number): number => slips.reduce((all, each) => all + nth(each, i), 0) / slips.length;
  return {
    time_s: column('time', 's', 's', 's', time),
    speed_m_s: speedColumn('speed', v),
    wheel_m_s: speedColumn(
      'speed of the driven wheels',
      v.map((each, i) => each * (1 + slip(i))),
    ),
    power_W: column('power of the pack', 'W', 'kW', 'kW', of('pack_power_W')),
  };
}
