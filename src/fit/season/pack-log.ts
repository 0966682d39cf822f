/** The log of a pack over a charge or a drive, from a rest to a rest: how much charge was counted, and the voltage at both rests. */
import * as elementary from '../../elementary.ts';
import { item, lastOf, nth } from '../../columns.ts';
import { type LogOptions, readRows } from '../../cycles/log.ts';
import { openTally } from '../../cycles/log/repair.ts';
import type { Cell } from '../../model/car.ts';
import { curvesOf } from '../../model/pack/cell-table.ts';
import { curveAt } from '../../model/tables/curve.ts';
import type { Measured } from '../coast/measured.ts';
import { averaged, refuseGaps } from '../rows.ts';
import { rowError } from '../speed-log.ts';
import { chargeAt } from './rest-charge.ts';

export interface PackLogOptions extends LogOptions {
  /** C of the pack when new. */
  readonly capacity: number;
  readonly cell: Cell;
  /** Cells in series. */
  readonly series: number;
}

export interface PackLog {
  /** V at rest before and after, each with what it still moved by. */
  readonly before: Measured;
  readonly after: Measured;
  /** C between them, whatever way it flowed. */
  readonly counted: Measured;
  /** J into the pack between them; below 0 for a drive. */
  readonly into: number;
  readonly notes: readonly string[];
}

/** A current of so many hours to full is a rest; so many times in an hour no pack is charged or emptied. Common practice, no source. */
const IDLE_HOURS = 50;
const MOST_RATE = 20;
/** s of a rest before its voltage is one, and over which that is averaged. Common practice, no source. */
const REST = 1800;
const MEAN = 60;
/** Share of the voltage by which it may still move over the second half of a rest. Common practice, no source. */
const CREEP = 0.004;
/** Shares of the voltages of an empty and a full pack beyond which a reading is none. Common practice, no source. */
const OUTSIDE = 0.3;
/** Standard uncertainty of a counted charge, as a share. Common practice, no source. */
export const COUNT = 0.01;
/** Hours to full of a current that is strong; share of it that may go against what the voltage says. Common practice, no source. */
const STRONG_HOURS = 4;
const AGAINST = 0.03;
/** Share of the charge by which every second row may tell another sum. Common practice, no source. */
const COARSE = 0.02;

interface Rows {
  readonly time: Float64Array;
  readonly line: Uint32Array;
  readonly current: Float64Array;
  readonly voltage: Float64Array;
}

/** @throws LogError for a log that does not begin and end at rest, or whose rows can not be. */
export function readPackLog(text: string, options: PackLogOptions): PackLog {
  const tally = openTally();
  const rows = rowsOf(text, options, tally);
  refuseGaps(rows, 0, rows.time.length, 'the charge is counted');
  refuseWild(rows, options);
  const idle = options.capacity / IDLE_HOURS / 3600;
  // By means, as a meter that is noisy is not still for a minute.
  const means = averaged({ time: rows.time, speed: rows.current }, MEAN);
  const flows = [...means.keys()].filter(i => Math.abs(nth(means, i)) > idle);
  const [first, last] = [flows[0], flows.at(-1)];
  if (first === undefined || last === undefined)
    throw rowError(rows, 0, 'no current flows in this log', 'a charge or a drive between two rests');
  const before = restOf(rows, 0, first, 'before');
  const after = restOf(rows, last + 1, rows.time.length, 'after');
  const charge = integralOf(rows, i => nth(rows.current, i), 1);
  const coarse = Math.abs(integralOf(rows, i => nth(rows.current, i), 2) - charge);
  if (coarse > COARSE * Math.abs(charge)) {
    const message = `every second row tells ${percent(coarse / Math.abs(charge))} more or less of charge: the current changes quicker than it is logged`;
    throw rowError(rows, first, message, 'rows once a second');
  }
  const notes = tally.repairs.map(({ text: each }) => each);
  refuseUnsigned(rows, restBetween(before.value, after.value, options), options.capacity / STRONG_HOURS / 3600);
  const still = meanOf(rows.current, 0, first);
  const between = lastOf(rows.time) - nth(rows.time, 0);
  const drift = Math.abs(still) * between;
  if (drift > COUNT * Math.abs(charge)) {
    notes.push(
      `the current reads ${Number(still.toPrecision(2))} A at rest, ${percent(drift / Math.abs(charge))} of the charge by the end: it is left in, and the interval is wider by it`,
    );
  }
  const sign = (after.value - before.value) * charge < 0 ? -1 : 1;
  const standard = elementary.hypot(elementary.hypot(COUNT * charge, drift), coarse);
  return {
    before,
    after,
    counted: { value: Math.abs(charge), standard },
    into: sign * integralOf(rows, i => nth(rows.current, i) * nth(rows.voltage, i), 1),
    notes,
  };
}

/** Rows with both; each that lacks one is none. */
function rowsOf(text: string, options: PackLogOptions, tally: ReturnType<typeof openTally>): Rows {
  const { time, line, bus } = readRows(text, options, tally, { driven: [], ofPack: true });
  const { current, voltage } = bus;
  const told = [...time.keys()].filter(i => !Number.isNaN((current?.[i] ?? Number.NaN) + (voltage?.[i] ?? Number.NaN)));
  const kept = (values: Float64Array | null): Float64Array =>
    Float64Array.from(told, i => (values === null ? Number.NaN : nth(values, i)));
  return {
    time: kept(time),
    line: Uint32Array.from(told, i => nth(line, i)),
    current: kept(current),
    voltage: kept(voltage),
  };
}

function refuseWild(rows: Rows, { capacity, cell, series }: PackLogOptions): void {
  const [empty, full] = [series * item(cell.ocv.voltage, 0), series * lastOf(cell.ocv.voltage)];
  const most = (MOST_RATE * capacity) / 3600;
  const [least, highest] = [(1 - OUTSIDE) * empty, (1 + OUTSIDE) * full];
  for (const [i, voltage] of rows.voltage.entries()) {
    const current = nth(rows.current, i);
    if (Math.abs(current) > most) {
      const message = `a current of ${Number(current.toPrecision(4))} A, beyond the ${Math.round(most)} A that would fill or empty this pack in ${60 / MOST_RATE} minutes`;
      throw rowError(rows, i, message, 'a current in A, of the pack of the car cell');
    }
    if (voltage >= least && voltage <= highest) continue;
    const message = `${Number(voltage.toPrecision(4))} V is no voltage of a pack of ${Math.round(empty)} to ${Math.round(full)} V`;
    throw rowError(rows, i, message, 'the voltage of the whole pack in V, and its cells in series in the car cell');
  }
}

/** V at the end of a rest, with what it moved by over the second half of it. */
function restOf(rows: Rows, from: number, to: number, which: string): Measured {
  const { time, voltage } = rows;
  const length = to - from < 2 ? 0 : nth(time, to - 1) - nth(time, from);
  const place = Math.min(from, time.length - 1);
  if (length < REST) {
    const message = `the pack rests for ${Math.round(length / 60)} min ${which} the charge that is counted`;
    throw rowError(rows, place, message, `${REST / 60} min or more without current, better some hours`);
  }
  const at = (end: number): number => {
    const until = time.findLastIndex(t => t <= end);
    const since = Math.max(
      from,
      time.findIndex(t => t >= end - MEAN),
    );
    return meanOf(voltage, since, until + 1);
  };
  const end = nth(time, to - 1);
  const value = at(end);
  const creep = Math.abs(value - at(end - length / 2));
  if (creep > CREEP * value) {
    const message = `the voltage still moves by ${Number(creep.toPrecision(2))} V over the second half of the rest ${which}`;
    throw rowError(rows, place, message, 'a longer rest');
  }
  return { value, standard: creep };
}

/** By the trapezoidal rule over every row, or every second. */
function integralOf({ time }: Rows, of: (row: number) => number, step: 1 | 2): number {
  let sum = 0;
  for (let i = 0; i < time.length - 1; ) {
    const next = Math.min(i + step, time.length - 1);
    sum += ((of(i) + of(next)) / 2) * (nth(time, next) - nth(time, i));
    i = next;
  }
  return sum;
}

/**
 * A current that lost its sign counts what comes back as if it went out. Under a strong current the voltage lies below that at rest on the way
 * out and above it on the way in: above and below, the current must have two signs.
 */
function refuseUnsigned({ time, line, current, voltage }: Rows, rest: (share: number) => number, strong: number): void {
  const flowed = cumulated(time, current);
  const whole = lastOf(flowed);
  const sums = [0, 0];
  let at = -1;
  for (const [i, now] of current.entries()) {
    if (Math.abs(now) < strong) continue;
    const above = nth(voltage, i) - rest(nth(flowed, i) / whole);
    const side = above * now > 0 ? 1 : 0;
    sums[side] = nth(sums, side) + Math.abs(now);
    if (at < 0 && above > 0) at = i;
  }
  const [one, other] = [nth(sums, 0), nth(sums, 1)];
  const against = Math.min(one, other) / (one + other);
  if (!(against > AGAINST)) return;
  const message = `${percent(against)} of the strong current goes against what the voltage says: what flows in and what flows out have the same sign, or voltage and current are not of the same time`;
  throw rowError({ line }, Math.max(0, at), message, 'a current with a sign, plus one way and minus the other');
}

/** V at rest after a share of all that flowed: by the curve of the cells, through both rests. */
function restBetween(before: number, after: number, { cell, series }: PackLogOptions): (share: number) => number {
  const { ocv } = curvesOf(cell);
  const [from, to] = [chargeAt(ocv, before / series), chargeAt(ocv, after / series)];
  const [off, over] = [before - series * curveAt(ocv, from), after - series * curveAt(ocv, to)];
  return share => series * curveAt(ocv, from + (to - from) * share) + off + (over - off) * share;
}

/** C that have flowed up to each row, whatever way. */
function cumulated(time: Float64Array, current: Float64Array): Float64Array {
  let sum = 0;
  return time.map((t, i) => {
    if (i > 0) sum += (t - nth(time, i - 1)) * Math.abs((nth(current, i) + nth(current, i - 1)) / 2);
    return sum;
  });
}

function meanOf(values: Float64Array, from: number, to: number): number {
  return values.subarray(from, to).reduce((all, each) => all + each, 0) / Math.max(1, to - from);
}

function percent(share: number): string {
  return `${Number((100 * share).toPrecision(2))} %`;
}
