/** The log of a launch: the speed of the car, and what its bus tells beside it. */
import { lastOf, nth } from '../../columns.ts';
import { type LogOptions, readRows } from '../../cycles/log.ts';
import type { BusOptions } from '../../cycles/log/header.ts';
import { openTally } from '../../cycles/log/repair.ts';
import type { LogRows } from '../../cycles/log/rows.ts';
import { ABOVE_0, each, oneOf, optional } from '../../runs/rules.ts';
import { TURNS } from '../../cycles/log/units.ts';
import { type SpeedLog, speedLogOf } from '../speed-log.ts';
import { ascentOf } from './ascent.ts';

/** What was read at its own times, s on the clock of the speeds. */
export interface Track {
  readonly time: Float64Array;
  readonly value: Float64Array;
}

export interface LaunchLog extends SpeedLog {
  /** m/s of the tread of the driven wheels. */
  readonly wheel?: Track;
  /** W out of the pack. */
  readonly power?: Track;
  /** Whether the speed itself is that of wheels that are driven. */
  readonly ofWheels?: true;
  /** Rows that stood far off the fit and are left out. */
  readonly left?: number;
}

export interface LaunchLogOptions extends LogOptions, BusOptions {
  /** m, of the driven tyres: what makes a speed of turns. */
  readonly radius: number;
  /** m/s up to which the launch counts; default: just before the highest speed. */
  readonly to?: number | undefined;
}

/** m/s below which no sensor of a wheel tells its speed. Common practice, no source. */
const SLOWEST_WHEEL = 1;
/** Share by which two ways to the power may differ. Common practice, no source. */
const SAME_POWER = 0.05;

/**
 * One launch with all that its log tells of it.
 * @throws LogError for a log that can not be read, or has no launch; SpecError for a radius or a speed that can not be.
 */
export function readLaunchLog(text: string, options: LaunchLogOptions): LaunchLog {
  const given: Partial<LaunchLogOptions> | null | undefined = options;
  ABOVE_0(given?.radius, 'options.radius');
  optional(ABOVE_0)(given?.to, 'options.to');
  each(oneOf(['front', 'rear']))(given?.driven, 'options.driven');
  const tally = openTally();
  const rows = readRows(text, options, tally, options);
  const whole = speedLogOf(rows, options.title ?? 'log', tally);
  const ascent = ascentOf(whole, options.to);
  const start = nth(whole.time, whole.line.indexOf(nth(ascent.line, 0)));
  const cut = ({ time, value }: Track): Track => {
    const within = [...time.keys()].filter(i => nth(time, i) >= start && nth(time, i) <= start + lastOf(ascent.time));
    return {
      time: Float64Array.from(within, i => nth(time, i) - start),
      value: Float64Array.from(within, i => nth(value, i)),
    };
  };
  const notes: string[] = [...whole.notes];
  const wheels = told(rows, rows.bus.wheel);
  const power = packPowerOf(rows, notes, cut);
  const turns = rows.header.columns.find(({ kind }) => kind === 'wheel')?.unit === TURNS;
  const wheel = wheels === null ? null : cut(scaled(wheels, turns ? options.radius : 1));
  const rolls = wheel === null ? null : only(wheel, value => value >= SLOWEST_WHEEL);
  if (rows.header.unitless.length > 0) {
    const names = rows.header.unitless.map(each => `"${each}"`).join(', ');
    notes.push(
      `columns of the bus say no unit and are passed over, ${names}: write power [kW], voltage [V], current [A], wheel speed [km/h]`,
    );
  }
  const ofWheels = rolls === null && rows.header.ofWheels;
  if (ofWheels) notes.push('the only speed is that of the wheels: it is held against that of the wheels in the model');
  return {
    ...ascent,
    notes,
    ...(rolls !== null && rolls.time.length > 0 && { wheel: rolls }),
    ...(power !== null && power.time.length > 0 && { power }),
    ...(ofWheels && { ofWheels }),
  };
}

/** By its own column, else by voltage and current; out of the pack whatever the sign that it is logged with. */
export function packPowerOf(
  { bus, ...rows }: LogRows,
  notes: string[],
  cut: (track: Track) => Track = track => track,
): Track | null {
  const [own, current, voltage] = [bus.power, bus.current, bus.voltage].map(each => told(rows, each));
  if ((current === null) !== (voltage === null) && own === null)
    notes.push(
      `${current === null ? 'voltage without current' : 'current without voltage'} gives no power: it takes both`,
    );
  const product = current != null && voltage != null ? cut(productOf(current, voltage)) : null;
  const power = own == null ? product : cut(own);
  if (power === null) return null;
  if (own != null && product !== null) {
    const [one, other] = [power, product].map(meanOf);
    const off = Math.abs(Math.abs(other ?? 0) / Math.abs(one ?? 1) - 1);
    if (off > SAME_POWER)
      notes.push(
        `voltage times current is ${Math.round(100 * off)} % off the column of power, which is taken: look at which of them is of the pack`,
      );
  }
  if (meanOf(power) >= 0) return power;
  notes.push('what flows out of the pack is logged with a minus: taken as power out of it');
  return scaled(power, -1);
}

/** The rows that tell something. */
function told({ time }: Pick<LogRows, 'time'>, values: Float64Array | null | undefined): Track | null {
  return values == null ? null : only({ time, value: values }, value => !Number.isNaN(value));
}

function only({ time, value }: Track, counts: (value: number) => boolean): Track {
  const kept = [...value.keys()].filter(i => counts(nth(value, i)));
  return { time: Float64Array.from(kept, i => nth(time, i)), value: Float64Array.from(kept, i => nth(value, i)) };
}

/** At the times of the current: the voltage changes slower. */
function productOf(current: Track, voltage: Track): Track {
  let k = 0;
  const value = current.time.map((t, i) => {
    while (k + 2 < voltage.time.length && nth(voltage.time, k + 1) <= t) k++;
    if (voltage.time.length < 2) return nth(current.value, i) * (voltage.value[0] ?? Number.NaN);
    const [t0, t1] = [nth(voltage.time, k), nth(voltage.time, k + 1)];
    const share = Math.max(0, Math.min(1, (t - t0) / (t1 - t0)));
    return nth(current.value, i) * (nth(voltage.value, k) * (1 - share) + nth(voltage.value, k + 1) * share);
  });
  return only({ time: current.time, value }, each => !Number.isNaN(each));
}

function scaled({ time, value }: Track, factor: number): Track {
  return { time, value: value.map(each => factor * each) };
}

function meanOf({ value }: Track): number {
  return value.reduce((all, each) => all + each, 0) / Math.max(1, value.length);
}
