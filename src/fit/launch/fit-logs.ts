/** Some launches fitted at once: what is asked for is the same in all, each has its own time zero. */
import { item, lastOf, nth } from '../../columns.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { type Fitted, leastSquares, shiftFor } from '../least-squares.ts';
import { rowNoise } from '../rows.ts';
import type { SpeedLog } from '../speed-log.ts';
import type { LaunchLog, Track } from './launch-log.ts';
import type { LaunchMeasurement, Nuisance, OneLaunch } from './measurement.ts';
import { createTold, type Told } from './modelled.ts';
import { type LaunchParameter, PARAMETER_KINDS } from './parameters.ts';

export interface FittedLogs {
  readonly fit: Fitted;
  readonly launches: readonly OneLaunch[];
  readonly shift: (nuisance: Nuisance) => number[];
  /** Tread of the driven wheels as it was read over that of the model; null where no log has it. */
  readonly wheelFactor: number | null;
  /** W, root of the mean square; null where no log has the power. */
  readonly powerNoise: number | null;
  readonly weights: Weights;
  /** Residuals of each stretch of rows that hang together. */
  readonly stretches: readonly Float64Array[];
}

const CHANNELS = ['speed', 'wheel', 'power'] as const;
export type Channel = (typeof CHANNELS)[number];

interface Read extends Track {
  readonly channel: Channel;
  readonly log: number;
}

/** By how much the tread that a bus tells may be off, and how late it is in s, as far as they go; and what is usual. */
const TREAD = { scale: 0.05, within: [0.3, 3] } as const;
const LATE = { scale: 0.1, within: [-2, 2] } as const;
/**
 * The wanted parameters; where a bus tells of wheels how far their tread is off; for each log its time zero, and by how much its bus is late.
 * @param near a fit that these logs are part of: from there it is not far.
 */
export function fitLogs(measured: LaunchMeasurement, logs: readonly LaunchLog[], near?: FittedLogs): FittedLogs {
  const { car, surroundings, wanted, over } = measured;
  const kinds = wanted.map(each => PARAMETER_KINDS[each]);
  const reads = logs.flatMap(readsOf);
  const treads = reads.some(({ channel }) => channel === 'wheel');
  const late = reads.some(({ channel }) => channel !== 'speed');
  const zeroAt = kinds.length + (treads ? 1 : 0);
  const told = createTold(1.1 * Math.max(...logs.map(({ speed }) => speed.reduce((a, b) => Math.max(a, b), 0))) + 2, {
    over,
  });
  let weights = near?.weights ?? firstWeights(reads);
  let last: { readonly of: string; readonly base: Car; readonly day: Surroundings; readonly now: Told } | null = null;
  // Most parameters are of the logs: the same launch serves them all.
  const launched = (base: Car, day: Surroundings, parameters: readonly number[]): Told => {
    const of = parameters.slice(0, kinds.length).join(' ');
    if (last?.of !== of || last.base !== base || last.day !== day)
      last = { of, base, day, now: told(carWith(base, wanted, parameters), day) };
    return last.now;
  };
  const partsOf = (base: Car, day: Surroundings, parameters: readonly number[], meter = 0): readonly Float64Array[] => {
    const now = launched(base, day, parameters);
    return reads.map(({ channel, log, time, value }) => {
      const zero = nth(parameters, zeroAt + log);
      const off = channel === 'speed' ? 0 : nth(parameters, zeroAt + logs.length + log);
      const factor = channel === 'wheel' ? nth(parameters, kinds.length) : channel === 'power' ? 1 + meter : 1;
      const tells = channel === 'speed' && item(logs, log).ofWheels === true ? now.wheel : now[channel];
      const weight = weights[channel];
      return value.map((read, i) => weight * (read - factor * tells(nth(time, i) - zero - off)));
    });
  };
  const residualsOf = (...asked: Parameters<typeof partsOf>): Float64Array => joined(partsOf(...asked));
  const scale = [
    ...kinds.map(kind => kind.scale),
    ...(treads ? [TREAD.scale] : []),
    ...logs.map(() => 0.2),
    ...(late ? logs.map(() => LATE.scale) : []),
  ];
  const within = [
    ...kinds.map(kind => kind.within),
    ...(treads ? [TREAD.within] : []),
    ...logs.map(log => [-5, lastOf(log.time)] as const),
    ...(late ? logs.map(() => LATE.within) : []),
  ];
  const solve = (start: readonly number[]): Fitted =>
    leastSquares({
      residuals: parameters => residualsOf(car, surroundings, parameters),
      start,
      scale,
      within,
      gain: GAIN,
    });
  const start = (): number[] => {
    const first = launched(
      car,
      surroundings,
      kinds.map(kind => kind.start(car)),
    );
    return [
      ...kinds.map(kind => kind.start(car)),
      ...(treads ? [1] : []),
      ...logs.map(log => zeroOf(log, first)),
      ...(late ? logs.map(() => 0) : []),
    ];
  };
  let fit = solve(near === undefined ? start() : startNear(near, logs, treads, late));
  // Weights by what the first fit left of each channel.
  if (late && near === undefined) {
    weights = weightsBy(reads, partsOf(car, surroundings, fit.parameters), weights);
    fit = solve(fit.parameters);
  }
  const stretches = partsOf(car, surroundings, fit.parameters);
  const launches = logs.map((log, k): OneLaunch => {
    return {
      log,
      zero: nth(fit.parameters, zeroAt + k),
      late: late ? nth(fit.parameters, zeroAt + logs.length + k) : 0,
      residuals: stretches[reads.findIndex(each => each.log === k && each.channel === 'speed')] ?? new Float64Array(0),
    };
  });
  return {
    fit,
    weights,
    launches,
    stretches,
    powerNoise: reads.some(({ channel }) => channel === 'power') ? restOf('power', reads, stretches, weights) : null,
    wheelFactor: treads ? nth(fit.parameters, kinds.length) : null,
    shift: ({ up, down, meter = 0 }) => {
      const high = residualsOf(up.car, up.surroundings, fit.parameters, meter);
      const low = residualsOf(down.car, down.surroundings, fit.parameters, -meter);
      return shiftFor(
        fit,
        scale,
        high.map((each, i) => (each - nth(low, i)) / 2),
      );
    },
  };
}

/** Multiples of the usual scatter beyond which a row by itself is none of the launch, those within which its neighbours are, and the share of rows that may be. */
const FAR = 5;
const NEAR = 2.5;
const MOST_LEFT = 0.05;

/** The launches without single rows that stand far off a first fit; the same list where there are none. */
export function withoutSpikes({ launches }: FittedLogs): readonly LaunchLog[] {
  const logs = launches.map(({ log }) => log);
  const kept = launches.map(({ log, residuals }): LaunchLog => {
    const off = residuals.map(Math.abs);
    const usual = nth(off.toSorted(), off.length >> 1) / 0.6745;
    const beyond = (i: number, times: number): boolean => (off[i] ?? 0) > times * usual;
    const spikes = [...off.keys()].filter(i => beyond(i, FAR) && !beyond(i - 1, NEAR) && !beyond(i + 1, NEAR));
    if (spikes.length === 0 || spikes.length > MOST_LEFT * off.length) return log;
    const rows = [...off.keys()].filter(i => !spikes.includes(i));
    return {
      ...log,
      time: Float64Array.from(rows, i => nth(log.time, i)),
      speed: Float64Array.from(rows, i => nth(log.speed, i)),
      line: Uint32Array.from(rows, i => nth(log.line, i)),
      left: spikes.length,
    };
  });
  return kept.every((log, k) => log === logs[k]) ? logs : kept;
}

/** Less than a thousandth of a standard uncertainty: what is left is how launches are integrated. */
const GAIN = 1e-9;

function startNear(near: FittedLogs, logs: readonly LaunchLog[], treads: boolean, late: boolean): number[] {
  const own = near.launches.filter(({ log }) => logs.includes(log));
  const before = near.fit.parameters.length - near.launches.length * (late ? 2 : 1);
  return [
    ...near.fit.parameters.slice(0, before - (near.wheelFactor !== null && !treads ? 1 : 0)),
    ...own.map(({ zero }) => zero),
    ...(late ? own.map(each => each.late) : []),
  ];
}

function readsOf(log: LaunchLog, k: number): readonly Read[] {
  const beside = (['wheel', 'power'] as const).flatMap((channel): Read[] => {
    const track = log[channel];
    return track === undefined ? [] : [{ channel, log: k, ...track }];
  });
  return [{ channel: 'speed', log: k, time: log.time, value: log.speed }, ...beside];
}

type Weights = { readonly [key in Channel]: number };

/** A row of speed counts 1, and one of the bus by how its rows scatter beside those of speed. */
function firstWeights(reads: readonly Read[]): Weights {
  const noise = (channel: Channel): number => {
    const all = reads.filter(each => each.channel === channel).map(({ value }) => value);
    const most = Math.max(...all.map(value => value.reduce((a, b) => Math.max(a, Math.abs(b)), 0)));
    return Math.max(LEAST_SCATTER * most, ...all.map(rowNoise));
  };
  const speed = noise('speed');
  return { speed: 1, wheel: speed / noise('wheel'), power: speed / noise('power') };
}

/** Share of the greatest reading: rows that do not scatter at all would count for everything. */
const LEAST_SCATTER = 0.002;

/** Root of the mean square of what a fit left of a channel, in its unit. */
function restOf(channel: Channel, reads: readonly Read[], parts: readonly Float64Array[], weights: Weights): number {
  const own = parts.filter((_, k) => reads[k]?.channel === channel);
  return rootMeanSquare(joined(own)) / weights[channel];
}

/** By what a fit left of each channel. */
function weightsBy(reads: readonly Read[], parts: readonly Float64Array[], before: Weights): Weights {
  const speed = restOf('speed', reads, parts, before);
  const weight = (channel: Channel): number => {
    const found = speed / restOf(channel, reads, parts, before);
    return Number.isFinite(found) && found > 0 ? found : before[channel];
  };
  return { speed: 1, wheel: weight('wheel'), power: weight('power') };
}

export function rootMeanSquare(values: Float64Array): number {
  return Math.sqrt(values.reduce((all, each) => all + each * each, 0) / values.length);
}

function joined(parts: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(parts.reduce((n, part) => n + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

export function carWith(car: Car, wanted: readonly LaunchParameter[], values: readonly number[]): Car {
  return wanted.reduce((changed, each, k) => PARAMETER_KINDS[each].apply(changed, nth(values, k)), car);
}

/** s of the log: where it passes a third of its speed, less the time that the car as it is known takes to there. */
function zeroOf({ time, speed }: SpeedLog, told: Told): number {
  const third = lastOf(speed) / 3;
  const passed = nth(
    time,
    speed.findIndex(v => v >= third),
  );
  let needs = 0;
  while (told.speed(needs) < third && needs < 60) needs += 0.02;
  return passed - needs;
}
