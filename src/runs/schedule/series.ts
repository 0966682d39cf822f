/** The columns of a drive: the trace over time, where the power goes by speed, and the phases. */
import { lastOf, nth, item } from '../../columns.ts';
import { limiterOf } from '../../model/forward/limiter.ts';
import type { Limiter } from '../../model/forward/limiter.ts';
import { R } from './record.ts';
import type { FollowRecord } from './record.ts';
import { column, speedColumn, textColumn } from '../column.ts';
import type { Band, Series } from '../result.ts';
import type { TravelRun } from './trip.ts';

/** What held the car back at the end of each interval; `driver` while it follows: the schedule asks for no more. */
function limitersOf(record: FollowRecord): readonly Limiter[] {
  return Array.from(record.column(R.mode), mode => (mode < 0 ? 'driver' : limiterOf(mode)));
}

/**
 * The trace at the points of the schedules. Power, current and voltage are means over the interval that ends there: at the
 * points themselves they jump.
 */
export function driveTrace(record: FollowRecord, unitAxle: number): Series {
  return { ...numbersOf(record, unitAxle), limiter: textColumn('held back by', limitersOf(record)) };
}

/** The same without what holds the car back. */
export function numbersOf(record: FollowRecord, unitAxle: number): Series {
  const n = record.rows();
  const get = (index: number): Float64Array => record.column(index);
  const [energy, length, emf, ohm] = [get(R.energy), get(R.length), get(R.emf), get(R.resistance)];
  const power = new Float64Array(n);
  const current = new Float64Array(n);
  const voltage = new Float64Array(n);
  const braking = new Float64Array(n);
  const brakes = get(R.brakes);
  for (let i = 0; i < n; i++) {
    const h = nth(length, i);
    const P = h > 0 ? (nth(energy, i) - nth(energy, i - 1)) / h : 0;
    braking[i] = h > 0 ? (nth(brakes, i) - nth(brakes, i - 1)) / h : 0;
    const E = nth(emf, i);
    const I = (2 * P) / (E + Math.sqrt(Math.max(0, E * E - 4 * nth(ohm, i) * P)));
    power[i] = P;
    current[i] = I;
    voltage[i] = E - nth(ohm, i) * I;
  }
  return {
    time_s: column('time', 's', 'min', 'min', get(R.time)),
    distance_m: column('distance', 'm', 'km', 'mile', get(R.distance)),
    schedule_speed_m_s: speedColumn('speed of the schedule', get(R.asked)),
    speed_m_s: speedColumn('speed', get(R.speed)),
    pack_power_W: column('pack power', 'W', 'kW', 'kW', power),
    pack_current_A: column('pack current', 'A', 'A', 'A', current),
    pack_voltage_V: column('pack voltage', 'V', 'V', 'V', voltage),
    brake_power_W: column('power in the brakes', 'W', 'kW', 'kW', braking),
    charge_1: column('state of charge', '1', '%', '%', get(R.charge)),
    pack_temperature_K: column('pack', 'K', 'degC', 'degF', get(R.pack)),
    unit_temperature_K: column('drive unit', 'K', 'degC', 'degF', get(unitAxle === 0 ? R.unitFront : R.unitRear)),
  };
}

/** Stretches of one and the same limiter. */
export function driveBands(record: FollowRecord): readonly Band[] {
  const time = record.column(R.time);
  const words = limitersOf(record);
  const bands: { from: number; to: number; limiter: Limiter }[] = [];
  for (let i = 1; i < words.length; i++) {
    const last = bands[bands.length - 1];
    if (last !== undefined && last.limiter === words[i] && last.to === time[i - 1]) last.to = nth(time, i);
    else bands.push({ from: nth(time, i - 1), to: nth(time, i), limiter: item(words, i) });
  }
  return bands;
}

/** m/s, 10 km/h. */
const BIN = 10 / 3.6;

/** Energy out of the pack and back into it, and time, by speed. */
export function powerBySpeed(record: FollowRecord): Series {
  const [speed, energy, length] = [record.column(R.speed), record.column(R.energy), record.column(R.length)];
  const rows = Math.max(1, Math.ceil(speed.reduce((most, each) => Math.max(most, each), 0) / BIN - 1e-9));
  const from = Float64Array.from({ length: rows }, (_, i) => i * BIN);
  const out = new Float64Array(rows);
  const back = new Float64Array(rows);
  const time = new Float64Array(rows);
  for (let i = 1; i < speed.length; i++) {
    if (!(nth(length, i) > 0)) continue;
    const mean = 0.5 * (nth(speed, i) + nth(speed, i - 1));
    // Round-off leaves a car that comes to rest a trifle below nothing.
    const bin = Math.max(0, Math.min(rows - 1, Math.floor(mean / BIN)));
    const change = nth(energy, i) - nth(energy, i - 1);
    time[bin] = nth(time, bin) + nth(length, i);
    if (change > 0) out[bin] = nth(out, bin) + change;
    else back[bin] = nth(back, bin) - change;
  }
  return {
    from_m_s: speedColumn('from', from),
    to_m_s: speedColumn(
      'to',
      from.map(v => v + BIN),
    ),
    time_s: column('time', 's', 'min', 'min', time),
    out_J: column('out of the pack', 'J', 'kWh', 'kWh', out),
    back_J: column('back into the pack', 'J', 'kWh', 'kWh', back),
  };
}

/** One row for each phase of the schedules of the first trip. */
export function phaseTable(run: TravelRun, record: FollowRecord): Series {
  const [time, distance, energy] = [record.column(R.time), record.column(R.distance), record.column(R.energy)];
  const rows: (Driven & { readonly time: number })[] = [];
  const starts = legStarts(record);
  for (const [i, { leg }] of run.legs.slice(0, starts.length).entries()) {
    const { schedule } = leg;
    const row = nth(starts, i);
    const start = nth(time, row);
    const whole = { name: schedule.title, from: 0, to: lastOf(schedule.time) };
    const phases = schedule.phases.length > 0 ? schedule.phases : [whole];
    for (const { name, from, to } of phases) {
      const a = indexAt(time, start + from, row);
      const b = indexAt(time, start + to, row);
      const way = nth(distance, b) - nth(distance, a);
      if (way > 0) rows.push({ name, time: to - from, distance: way, energy: nth(energy, b) - nth(energy, a) });
    }
  }
  const times = Float64Array.from(rows, row => row.time);
  return {
    phase: textColumn('phase', namesOf(rows)),
    time_s: column('time', 's', 'min', 'min', times),
    ...drivenColumns(rows, 'energy'),
  };
}

/** A stretch that was driven: its name, m, and J out of the pack. */
export interface Driven {
  readonly name: string;
  readonly distance: number;
  readonly energy: number;
}

export function namesOf(rows: readonly Driven[]): readonly string[] {
  return rows.map(({ name }) => name);
}

/** The ways, the energies, and one over the other. @param label of the energies. */
export function drivenColumns(rows: readonly Driven[], label: string): Series {
  const distance = Float64Array.from(rows, row => row.distance);
  const energy = Float64Array.from(rows, row => row.energy);
  const consumption = Float64Array.from(rows, row => row.energy / row.distance);
  return {
    distance_m: column('distance', 'm', 'km', 'mile', distance),
    energy_J: column(label, 'J', 'kWh', 'kWh', energy),
    consumption_J_m: column('consumption', 'J/m', 'Wh/km', 'Wh/mile', consumption),
  };
}

/** Rows of the record at which the legs that it holds begin: no interval ends there. */
function legStarts(record: FollowRecord): readonly number[] {
  return Array.from(record.column(R.length), (length, row) => (length > 0 ? -1 : row)).filter(row => row >= 0);
}

/** The last row not later than a time, from a row on. */
function indexAt(time: Float64Array, at: number, from: number): number {
  let i = from;
  while (i + 1 < time.length && nth(time, i + 1) <= at + 1e-6) i++;
  return i;
}
