/** The columns of a launch: the trace over time, and forces over speed. */
import { named, nth } from '../../columns.ts';
import { CHARGE, DISTANCE, L, LIMIT_COUNT, SPEED } from '../../model/forward/state.ts';
import type { AxleNow } from '../../model/forward/instant.ts';
import { limiterOf } from '../../model/forward/limiter.ts';
import type { Limiter } from '../../model/forward/limiter.ts';
import type { Balance } from '../sheet/balance.ts';
import { SHOWN_BEYOND, SHOWN_MARKS } from './marks.ts';
import type { LaunchRun } from './run.ts';
import type { Band, Series } from '../result.ts';
import { emptyColumn } from '../column.ts';
import { numbers } from '../series.ts';

/** Which limits each word stands for; 0 is grip. */
const HEADROOM: readonly (readonly [Limiter, readonly number[]])[] = [
  ['grip', [0]],
  ['motor torque', [L.torque, L.buildUp]],
  ['motor power', [L.power]],
  ['motor speed', [L.speed]],
  ['pack voltage', [L.busVoltage, L.minVoltage]],
  ['pack current', [L.current, L.packCold, L.packLow]],
  ['driveline', [L.shaft, L.split]],
  ['heat', [L.heatTorque, L.heatPower, L.packHeat]],
  ['driver', [L.pedal]],
];

/** Peak torques; as much or more is left where a limit is far off or does not count. */
const MOST_HEADROOM = 10;

/** Rows of a trace between the switches. */
const ROWS = 400;
/** Those of them up to where pictures look. */
const LOOKED_AT = 300;

/** Of one driven axle; `which` names it where there are two. */
function axleColumns(which: '' | 'front ' | 'rear ', n: number) {
  const tyres = which === '' ? 'driven ' : which;
  return {
    motor_speed_rad_s: emptyColumn(`${which}motor speed`, 'rad/s', 'rpm', 'rpm', n),
    motor_torque_N_m: emptyColumn(`${which}motor torque`, 'N m', 'N m', 'lbf ft', n),
    available_torque_N_m: emptyColumn(`${which}torque available`, 'N m', 'N m', 'lbf ft', n),
    wheel_force_N: emptyColumn(`force at the ${tyres}tyres`, 'N', 'N', 'lbf', n),
    grip_force_N: emptyColumn(`grip of the ${tyres}tyres`, 'N', 'N', 'lbf', n),
    driven_load_N: emptyColumn(`load of the ${tyres}axle`, 'N', 'N', 'lbf', n),
    slip_1: emptyColumn(`slip of the ${tyres}tyres`, '1', '%', '%', n),
  };
}

function noteAxle(columns: ReturnType<typeof axleColumns>, at: AxleNow, row: number): void {
  columns.motor_speed_rad_s.values[row] = at.motorSpeed;
  columns.motor_torque_N_m.values[row] = at.torque;
  columns.available_torque_N_m.values[row] = at.available;
  columns.wheel_force_N.values[row] = at.force;
  columns.grip_force_N.values[row] = at.grip;
  columns.driven_load_N.values[row] = at.load;
  columns.slip_1.values[row] = at.slip;
}

/** The trace over time. */
export function timeSeries(run: LaunchRun): Series {
  const { plant, solution } = run;
  const times = sampleTimes(run);
  const n = times.length;
  const columns = {
    time_s: emptyColumn('time', 's', 's', 's', n),
    distance_m: emptyColumn('distance', 'm', 'm', 'ft', n),
    speed_m_s: emptyColumn('speed', 'm/s', 'km/h', 'mph', n),
    acceleration_m_s2: emptyColumn('acceleration', 'm/s^2', 'm/s^2', 'ft/s^2', n),
    pack_power_W: emptyColumn('pack power', 'W', 'kW', 'kW', n),
    pack_current_A: emptyColumn('pack current', 'A', 'A', 'A', n),
    pack_voltage_V: emptyColumn('pack voltage', 'V', 'V', 'V', n),
    charge_1: emptyColumn('state of charge', '1', '%', '%', n),
  };
  const headroom = Object.fromEntries(
    HEADROOM.map(([word]) => [headroomKey(word), emptyColumn(`torque left before ${word}`, '1', '%', '%', n)]),
  );
  const room = new Float64Array(LIMIT_COUNT + 1);
  const limiter: Limiter[] = [];
  const at = new Float64Array(plant.states + plant.quadratures);
  const out = new Float64Array(plant.states + plant.quadratures);
  const y = new Float64Array(plant.states + 1);
  const { now } = plant;
  const [one = plant.atFront, two] = plant.driven;
  const axle = axleColumns(two === undefined ? '' : 'front ', n);
  const second = two === undefined ? null : axleColumns('rear ', n);
  // What was asked of the run before moves no bit of its series.
  plant.forget();
  for (let row = 0; row < n; row++) {
    const t = nth(times, row);
    const mode = nth(solution.modes, solution.at(t, at));
    y.set(at.subarray(0, plant.states));
    y[plant.states] = t;
    plant.rates(mode, y, out);
    columns.time_s.values[row] = t;
    columns.distance_m.values[row] = nth(y, DISTANCE);
    columns.speed_m_s.values[row] = nth(y, SPEED);
    columns.acceleration_m_s2.values[row] = now.acceleration;
    noteAxle(axle, one, row);
    if (two !== undefined && second !== null) noteAxle(second, two, row);
    columns.pack_power_W.values[row] = now.busPower;
    columns.pack_current_A.values[row] = now.current;
    columns.pack_voltage_V.values[row] = now.voltage;
    columns.charge_1.values[row] = nth(y, CHARGE);
    limiter.push(limiterOf(mode, plant.powerTabled()));
    plant.headroom(room);
    for (const [word, limits] of HEADROOM) {
      const least = Math.min(...limits.map(l => nth(room, l)));
      named(headroom, headroomKey(word)).values[row] = Math.min(least, MOST_HEADROOM);
    }
  }
  return {
    ...columns,
    ...axle,
    ...(second !== null && Object.fromEntries(Object.entries(second).map(([key, each]) => [`rear_${key}`, each]))),
    limiter: { label: 'held back by', unit: '', display: { metric: '', imperial: '' }, values: limiter },
    ...headroom,
  };
}

/** `motor torque` -> `headroom_motor_torque_1`: left over the torque in use, in peak torques. */
function headroomKey(word: Limiter): string {
  return `headroom_${word.replaceAll(' ', '_')}_1`;
}

/**
 * Times over the run, ascending, none twice: most of the rows where pictures look, the others to its end, both evenly spaced; and at every switch one just before it and
 * one after it, since force and current may jump there.
 */
function sampleTimes({ solution, marks }: LaunchRun): number[] {
  // Until its torque is more than what resists, the car stands.
  const start = nth(solution.times, 0);
  const end = nth(solution.times, solution.nodes - 1);
  const last = Math.max(...SHOWN_MARKS.map(mark => marks.get(mark)?.time ?? -Infinity));
  const looked = last > start ? Math.min(end, SHOWN_BEYOND * last) : end;
  const rows = looked < end ? LOOKED_AT : ROWS;
  const times: number[] = [];
  for (let i = 0; i <= rows; i++) times.push(start + ((looked - start) * i) / rows);
  for (let i = 1; i <= ROWS - rows; i++) times.push(looked + ((end - looked) * i) / (ROWS - rows));
  for (const { kind, time } of solution.events) {
    if (kind !== 'switch') continue;
    if (time > start) times.push(time * (1 - Number.EPSILON));
    times.push(time);
  }
  times.sort((a, b) => a - b);
  return times.filter((t, i) => i === 0 || t > nth(times, i - 1));
}

/** What held the car back, stretch by stretch; neighbours differ. */
export function bandsOf(series: Series): readonly Band[] {
  const times = numbers(series, 'time_s');
  const words = named(series, 'limiter').values as readonly Limiter[];
  const bands: { from: number; to: number; limiter: Limiter }[] = [];
  words.forEach((limiter, i) => {
    const last = bands[bands.length - 1];
    // What holds a car that stands until its torque has built up holds it from the first.
    const from = last === undefined ? 0 : nth(times, i);
    if (last === undefined || last.limiter !== limiter) bands.push({ from, to: nth(times, i), limiter });
    if (last !== undefined) last.to = nth(times, i);
  });
  return bands;
}

/** Forces over speed, from rest to a little past the top speed. */
export function tractionSeries(balance: (speed: number) => Balance, top: number): Series {
  const rows = 121;
  const columns = {
    speed_m_s: emptyColumn('speed', 'm/s', 'km/h', 'mph', rows),
    drive_force_N: emptyColumn('the drive unit could give', 'N', 'N', 'lbf', rows),
    grip_force_N: emptyColumn('the driven tyres can take', 'N', 'N', 'lbf', rows),
    used_force_N: emptyColumn('used', 'N', 'N', 'lbf', rows),
    resistance_N: emptyColumn('resistance', 'N', 'N', 'lbf', rows),
  };
  for (let i = 0; i < rows; i++) {
    const b = balance((1.02 * top * i) / (rows - 1));
    columns.speed_m_s.values[i] = b.speed;
    columns.drive_force_N.values[i] = Math.max(0, b.drive);
    columns.grip_force_N.values[i] = b.grip;
    columns.used_force_N.values[i] = Math.max(0, b.used);
    columns.resistance_N.values[i] = b.resistance;
  }
  return columns;
}
