/** What the log of a drive tells beside its way: the power out of the pack, held against that of the drive. */
import { lastOf, nth } from '../../columns.ts';
import { LogError, readRows } from '../../cycles/log.ts';
import { openTally } from '../../cycles/log/repair.ts';
import { packPowerOf, type Track } from '../../fit/launch/launch-log.ts';
import { column } from '../../runs/column.ts';
import type { Result, Series } from '../../runs/result.ts';
import { numbers } from '../../runs/series.ts';
import type { FieldValues } from '../fields/read-context.ts';
import { columnsOf, unitsOf } from './trip-way.ts';

/** Stretches over which both powers are taken as means: what a log jumps by within one is not told apart. */
const STRETCHES = 240;
/** s, the shortest of them: a log has some rows in it. */
const SHORTEST = 2;
/** s between two readings that are bridged: beyond, nobody knows what the pack gave. */
const LONGEST_GAP = 30;
/** s by which the clock of the log and that of the drive may differ at the end. */
const SAME_END = 5;

/** The result with the series `logged` where the log has power, or voltage and current; else as it is. */
export function withLoggedPower(result: Result, values: FieldValues, readFile: (path: string) => string): Result {
  const { log: file } = values;
  const trace = result.series['time'];
  if (result.kind !== 'drive' || typeof file !== 'string' || trace === undefined) return result;
  const notes: string[] = [];
  const power = powerIn(readFile(file), values, notes);
  if (power === null) return result;
  const problem = whyNot(power, trace);
  const told = [...notes, problem].filter(text => text !== '').map(text => `${file}: ${text}`);
  // Those of the power are passed over for the way alone.
  const before = (result.notes ?? []).map(text => text.replace(' passed over: ', ' passed over for the way: '));
  const all = { ...result, ...(before.length + told.length > 0 && { notes: [...before, ...told] }) };
  return problem === '' ? { ...all, series: { ...all.series, logged: loggedSeries(power, trace) } } : all;
}

/** On the clock of the drive; null where the log has none. What is wrong in the log was told when its way was read. */
function powerIn(text: string, values: FieldValues, notes: string[]): Track | null {
  try {
    const options = { units: unitsOf(values), columns: columnsOf(values) };
    const rows = readRows(text, options, openTally(), { driven: ['front', 'rear'] });
    const moves = rows.time.findIndex((_, k) => !Number.isNaN(rows.speed?.[k] ?? Number.NaN));
    const start = rows.time[Math.max(0, moves)] ?? 0;
    const power = packPowerOf(rows, notes);
    return power === null || power.time.length < 2 ? null : { ...power, time: power.time.map(t => t - start) };
  } catch (error) {
    if (error instanceof LogError) return null;
    throw error;
  }
}

/** Why the two can not be held against each other; '' where they can. */
function whyNot({ time }: Track, trace: Series): string {
  const end = lastOf(numbers(trace, 'time_s'));
  const gap = time.reduce((most, t, k) => (k === 0 ? most : Math.max(most, t - nth(time, k - 1))), 0);
  if (gap > LONGEST_GAP)
    return `its power is not held against that of the drive, as ${Math.round(gap)} s of it are missing in a row`;
  if (Math.abs(lastOf(time) - end) > SAME_END || Math.abs(nth(time, 0)) > SAME_END)
    return 'its power is not held against that of the drive, as the two do not last equally long';
  return '';
}

function loggedSeries(power: Track, trace: Series): Series {
  const [time, mean] = [numbers(trace, 'time_s'), numbers(trace, 'pack_power_W')];
  const [from, to] = [Math.max(0, nth(power.time, 0)), Math.min(lastOf(time), lastOf(power.time))];
  const count = Math.max(1, Math.min(STRETCHES, Math.floor((to - from) / SHORTEST)));
  const edge = (k: number): number => from + ((to - from) * k) / count;
  // Energies up to an instant; between two readings the power goes in a straight line, over an interval of the drive it is a mean.
  const readEnergy = energyOf(power.time, i => 0.5 * (nth(power.value, i) + nth(power.value, i - 1)));
  const drivenEnergy = energyOf(time, i => nth(mean, i));
  const means = (energy: (t: number) => number): Float64Array =>
    Float64Array.from({ length: count }, (_, k) => (energy(edge(k + 1)) - energy(edge(k))) / (edge(k + 1) - edge(k)));
  const [read, driven] = [means(readEnergy), means(drivenEnergy)];
  const watts = (label: string, values: Float64Array) => column(label, 'W', 'kW', 'kW', values);
  return {
    time_s: column(
      'time',
      's',
      'min',
      'min',
      Float64Array.from({ length: count }, (_, k) => 0.5 * (edge(k) + edge(k + 1))),
    ),
    length_s: column(
      'length',
      's',
      's',
      's',
      Float64Array.from({ length: count }, (_, k) => edge(k + 1) - edge(k)),
    ),
    read_W: watts('pack power as read', read),
    driven_W: watts('pack power as predicted', driven),
    difference_W: watts(
      'read less predicted',
      read.map((value, k) => value - nth(driven, k)),
    ),
  };
}

/** J up to an instant; within an interval in proportion to the time. @param mean W over the interval that ends at a row. */
function energyOf(time: Float64Array, mean: (row: number) => number): (t: number) => number {
  const sums = new Float64Array(time.length);
  for (let i = 1; i < time.length; i++) sums[i] = nth(sums, i - 1) + mean(i) * (nth(time, i) - nth(time, i - 1));
  let row = 1;
  return t => {
    if (row >= time.length || nth(time, row - 1) > t) row = 1;
    while (row + 1 < time.length && nth(time, row) < t) row += 1;
    const [begin, end] = [nth(time, row - 1), nth(time, row)];
    const share = end > begin ? Math.max(0, Math.min(1, (t - begin) / (end - begin))) : 1;
    return nth(sums, row - 1) + share * (nth(sums, row) - nth(sums, row - 1));
  };
}
