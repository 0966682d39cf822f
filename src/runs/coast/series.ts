/** The columns of a coast-down: the trace over time, and the marks. */
import { nth } from '../../columns.ts';
import { COAST } from '../../model/backward/coasting.ts';
import type { Following, Side } from '../../model/backward/state.ts';
import type { Column, Series } from '../result.ts';
import { column, emptyColumn } from '../column.ts';
import { traceTimes } from '../trace-times.ts';
import type { CoastRun } from './run.ts';

/** Rows of a trace between the switches. */
const ROWS = 200;

/** What slows a car, N at the road; less than nothing where it pushes. */
export interface Slowing {
  readonly drag: number;
  readonly rolling: number;
  readonly slope: number;
  /** Of the drives: torque, what drags in them, and the losses of their gears. */
  readonly drive: number;
}

/** Right after the rates. */
export function slowingOf({ moving: { now, car }, front, rear }: Following): Slowing {
  return {
    drag: now.drag,
    rolling: front.roll + rear.roll + car.towedRoll,
    slope: car.gradeForce,
    drive: held(front) + held(rear),
  };
}

/** What turns pushes the car along; that is no force of the drive. */
function held({ axle, at, moment, rotor }: Side): number {
  return axle.driven ? -(moment + rotor * at.gear.ratio) / axle.radius : 0;
}

export function slowingForce({ drag, rolling, slope, drive }: Slowing): number {
  return drag + rolling + slope + drive;
}

/** Evenly spaced rows, with a row more at every switch and mark. */
export function coastTrace({ coasting, solution }: CoastRun): Series {
  const times = traceTimes(solution, ROWS);
  const n = times.length;
  const series = {
    time_s: emptyColumn('time', 's', 's', 's', n),
    speed_m_s: emptyColumn('speed', 'm/s', 'km/h', 'mph', n),
    distance_m: emptyColumn('distance', 'm', 'm', 'ft', n),
    deceleration_m_s2: emptyColumn('deceleration', 'm/s^2', 'm/s^2', 'ft/s^2', n),
    drag_N: emptyColumn('drag', 'N', 'N', 'lbf', n),
    rolling_N: emptyColumn('rolling resistance', 'N', 'N', 'lbf', n),
    slope_N: emptyColumn('slope', 'N', 'N', 'lbf', n),
    drive_N: emptyColumn('drive', 'N', 'N', 'lbf', n),
    pack_power_W: emptyColumn('power into the pack', 'W', 'kW', 'kW', n),
    charge_current_A: emptyColumn('charge current', 'A', 'A', 'A', n),
    charge_1: emptyColumn('state of charge', '1', '%', '%', n),
  };
  const { states, quadratures, following } = coasting;
  const row = new Float64Array(states + quadratures);
  const y = new Float64Array(states + 1);
  const out = new Float64Array(states + quadratures);
  times.forEach((time, i) => {
    const mode = nth(solution.modes, solution.at(time, row));
    y.set(row.subarray(0, states));
    coasting.rates(mode, y, out);
    const { drag, rolling, slope, drive } = slowingOf(following);
    series.time_s.values[i] = time;
    series.speed_m_s.values[i] = nth(y, COAST.speed);
    series.distance_m.values[i] = nth(y, COAST.distance);
    series.deceleration_m_s2.values[i] = -following.acceleration;
    series.drag_N.values[i] = drag;
    series.rolling_N.values[i] = rolling;
    series.slope_N.values[i] = slope;
    series.drive_N.values[i] = drive;
    series.pack_power_W.values[i] = -following.powers.power;
    series.charge_current_A.values[i] = -following.pack.current;
    series.charge_1.values[i] = nth(y, COAST.charge);
  });
  return series;
}

/** How long and how far it is from any of these speeds to any other: the difference of two rows. */
export function coastMarks({ marks }: CoastRun): Series {
  const of = (
    label: string,
    units: readonly [string, string, string],
    value: (mark: CoastRun['end']) => number,
  ): Column => column(label, ...units, Float64Array.from(marks, value));
  return {
    speed_m_s: of('speed', ['m/s', 'km/h', 'mph'], ({ speed }) => speed),
    time_s: of('time since the foot came off', ['s', 's', 's'], ({ time }) => time),
    distance_m: of('distance', ['m', 'm', 'ft'], ({ states }) => nth(states, COAST.distance)),
  };
}
