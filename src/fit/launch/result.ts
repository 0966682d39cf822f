/** Launches as a result: figures with their intervals, what was read beside what is modelled, the limiter. */
import { item, nth } from '../../columns.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { column } from '../../runs/column.ts';
import { putInto } from '../../runs/found.ts';
import { launch } from '../../runs/launch/launch.ts';
import { number, output, power, seconds, share, speed, torque } from '../../runs/output.ts';
import type { Coverage, Output, Result, Series } from '../../runs/result.ts';
import { numbers } from '../../runs/series.ts';
import { totalPower } from '../../runs/variant.ts';
import type { Shortcoming } from '../problem.ts';
import { EMPTY_LEDGER, coverageOf, noCalibration, residualColumns } from '../result.ts';
import type { LaunchFit } from './launch-fit.ts';
import { type LaunchParameter, LAUNCH_PARAMETERS, PARAMETER_KINDS } from './parameters.ts';

export const LAUNCH_LOG = 'launch-log';

const outputs: { readonly [key: string]: Output } = {
  power: power('peak power', 'of all drive units together, at the motor shaft, as the launches show it'),
  power_at_top: share('power at the top speed of the motor', 'as a share of the peak power'),
  grip: number('peak friction', 'of the driven tyres at their reference load'),
  torque: torque('peak torque', 'at the motor shaft of the first drive'),
  torque_rise: seconds('build-up of torque', 'from the pedal to the peak'),
  mass: output('mass', 'kg', 'kg', 'lb', 'of the car without people'),
  time_before: seconds(
    'to the end of the log, as it was assumed',
    'from the pedal to the speed at which the first log ends',
  ),
  time_after: seconds('to the end of the log, as it was measured', 'the same with what was found'),
  end_speed: speed('end of the log', 'speed up to which the first log is used'),
  residual: speed('what is left', 'of speed, read less fitted, root of the mean square'),
  launches: number('launches', 'that were fitted'),
};

export interface LaunchAbout {
  readonly car: Car;
  readonly surroundings: Surroundings;
  readonly lines: readonly string[];
  readonly warnings: readonly string[];
}

export function noLaunchFit(short: readonly Shortcoming[], warnings: readonly string[]): Result {
  return noCalibration(LAUNCH_LOG, outputs, short, warnings);
}

/** What a value of a parameter means for this car, SI. */
export function meantBy(parameter: LaunchParameter, car: Car, wet = false): (value: number) => number {
  const [first] = car.drives;
  const tyre = first === undefined ? undefined : car.tyres[first.axle];
  const factor: { readonly [key in LaunchParameter]: number } = {
    power: totalPower(car),
    grip: (wet ? tyre?.wet.peak : tyre?.dry.peak) ?? 1,
    torque: first?.unit.peakTorque ?? 1,
    power_at_top: 1,
    torque_rise: 1,
    mass: car.body.mass,
  };
  return value => value * factor[parameter];
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
      const meant = meantBy(parameter, about.car, about.surroundings.surface === 'wet');
      const value = meant(nth(found.values, place));
      put(parameter, value);
      of[parameter] = coverageOf(value, meant(Math.sqrt(nth(item(found.covariance, place), place))));
    }
  }
  const end = Math.max(...item(found.launches, 0).log.speed);
  const [before, after] = [about.car, found.car].map(car => launch(car, { surroundings: about.surroundings, to: end }));
  const timeOf = (result: Result | undefined): number | null => {
    const time = result?.summary['time'];
    return typeof time === 'number' ? time : null;
  };
  put('time_before', timeOf(before), 'the car as it was assumed does not get there');
  put('time_after', timeOf(after), 'the car does not get there');
  put('end_speed', end);
  put('residual', found.noise);
  put('launches', found.launches.length);
  return {
    kind: LAUNCH_LOG,
    summary,
    reasons,
    outputs,
    series: { read: readOf(found), after: tracedOf(after), before: tracedOf(before) },
    bands: after?.bands ?? [],
    events: [],
    ledger: EMPTY_LEDGER,
    warnings: about.warnings,
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
    const meant = meantBy(parameter, car, surroundings.surface === 'wet');
    const [value, u] = [meant(nth(found.values, k)), meant(Math.sqrt(nth(item(found.covariance, k), k)))];
    return `${wordOf(parameter)} ${shown(parameter, value)} ± ${shown(parameter, 1.96 * u)}`;
  });
  const { greatest, launches, scatter } = found;
  return [
    `What can not be told apart: speed over time gives power over mass, so the mass is that of the scales; grip and torque part only where each holds the car back for a while, or by the speed of the driven wheels${found.untold.map(each => `; ${each}`).join('')}`,
    `${launches.length === 1 ? 'One launch gives' : `${launches.length} launches give`} ${told.join(', ')} (19 of 20)`,
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
    mass: 'mass',
  }[parameter];
}

function shown(parameter: LaunchParameter, value: number): string {
  if (parameter === 'power') return `${Number((value / 1000).toPrecision(3))} kW`;
  const unit = { power_at_top: '', grip: '', torque: ' N m', torque_rise: ' s', mass: ' kg' }[parameter];
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
    speed_m_s: column(
      'speed',
      'm/s',
      'km/h',
      'mph',
      Float64Array.from(rows, ({ speed: v }) => v),
    ),
    ...residualColumns(rows),
  };
}

function tracedOf(result: Result | undefined): Series {
  const time = result?.series['time'];
  const empty = new Float64Array(0);
  return {
    time_s: column('time', 's', 's', 's', time === undefined ? empty : numbers(time, 'time_s')),
    speed_m_s: column('speed', 'm/s', 'km/h', 'mph', time === undefined ? empty : numbers(time, 'speed_m_s')),
  };
}
