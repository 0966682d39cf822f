/** What launches gave and nobody should take at its word. */
import { nth } from '../../columns.ts';
import { alikeIn } from '../alike.ts';
import type { Shortcoming } from '../problem.ts';
import { kmh, rowNoise, usualStep } from '../rows.ts';
import type { LaunchFit } from './measurement.ts';
import { type LaunchParameter, PARAMETER_KINDS } from './parameters.ts';

/** Factors against the car cell beyond which a unit, a mass or a gear is thought of, and beyond which nothing is believed. Common practice, no source. */
const DOUBTFUL = 1.4;
const BEYOND = 2;
/** Share by which a tread, and of the greatest power by which what is left of it, may be off; s by which a bus may be late. Common practice, no source. */
const TREAD = 0.1;
const LEFT = 0.1;
const LATE = 0.5;

/** What is fitted as a share of what the car cell says. */
const SHARES: readonly LaunchParameter[] = ['power', 'torque', 'grip', 'mass'];

type Factors = Pick<LaunchFit, 'parameters' | 'values'>;

/** Null where all of it may be. */
export function unlikelyOf({ parameters, values }: Factors): Shortcoming | null {
  const k = parameters.findIndex((each, i) => SHARES.includes(each) && isOff(nth(values, i), BEYOND));
  const parameter = parameters[k];
  if (parameter === undefined) return null;
  return {
    what: `the ${PARAMETER_KINDS[parameter].name} comes out as ${said(nth(values, k))} times what the car cell says, which no ${PARAMETER_KINDS[parameter].name} is off by`,
    cure: 'the right units of speed, time and power; the mass, the ratio and the gear of that day in the car cell',
  };
}

/** m/s and s: launches that are all off alike by so much for so long are none of the car in the cell. Common practice, no source. */
const OFF = 0.3;
const FOR = 0.5;

/** What all launches leave alike, which scatter between them does not show; null where nothing is. */
export function unevenOf({ launches }: Pick<LaunchFit, 'launches'>): Shortcoming | null {
  const left = launches.map(({ log, zero, residuals }) => ({ time: log.time.map(t => t - zero), residuals }));
  const step = Math.max(...launches.map(({ log }) => usualStep(log)));
  const noise = Math.max(...launches.map(({ log }) => rowNoise(log.speed)));
  const found = alikeIn(left, Math.max(FOR, 2.5 * step), OFF, noise);
  if (found === null) return null;
  const alone = launches.length === 1;
  const more = alone
    ? ', or a second log, the other way over the same road: what only one of two launches is off by is taken, as their scatter'
    : '';
  return {
    what: `${alone ? 'the launch is' : 'all launches are'} ${kmh(Math.abs(found.off))} ${found.off > 0 ? 'above' : 'below'} what this car does with any such figures, some ${found.at.toFixed(1)} s after the pedal goes down`,
    cure:
      'a clock that loses no time, a receiver that averages no longer than receiver: says, full pedal from the first, and the ratio, gear changes and curve of torque in the car cell' +
      more,
  };
}

export function doubtsOf(found: LaunchFit): readonly string[] {
  const { parameters, values, wheelFactor, launches, powerNoise } = found;
  const off = parameters.flatMap((each, k) =>
    (SHARES.includes(each) || each === 'copper_loss') &&
    isOff(nth(values, k), each === 'copper_loss' ? BEYOND : DOUBTFUL)
      ? [
          `the ${PARAMETER_KINDS[each].name} is ${said(nth(values, k))} times what the car cell says: look at the units of the log, at mass, ratio and gear`,
        ]
      : [],
  );
  const late = launches.find(each => Math.abs(each.late) > LATE);
  const most = Math.max(0, ...launches.flatMap(({ log }) => Array.from(log.power?.value ?? [])));
  const left = launches.flatMap(({ log }) =>
    log.left === undefined
      ? []
      : [`${log.title}: ${log.left} of ${log.left + log.speed.length} speeds stand far off and were left out`],
  );
  return [
    ...off,
    ...left,
    ...(wheelFactor !== null && Math.abs(wheelFactor - 1) > TREAD
      ? [
          `the driven wheels are read ${said(wheelFactor)} times as quick as in the model: look at the unit, at the size of the tyres and at which wheels they are; grip is only as good as that`,
        ]
      : []),
    ...(late === undefined
      ? []
      : [
          `${late.log.title}: what the bus tells lies ${said(late.late)} s behind the speed, more than one logger makes`,
        ]),
    ...(powerNoise !== null && powerNoise > LEFT * most
      ? [
          `the power that was read is ${said(powerNoise / 1000)} kW off the model in the root of the mean square: look at its unit, at its meter, and at whether it is that of the pack`,
        ]
      : []),
  ];
}

function isOff(factor: number, by: number): boolean {
  return factor > by || factor < 1 / by;
}

function said(value: number): string {
  return String(Number(value.toPrecision(2)));
}
