/** Charges of a season as a calibrate cell reads them: by a gauge, by voltages at rest, or by the log of the pack. */
import * as elementary from '../../elementary.ts';
import type { Measured } from '../../fit/coast/measured.ts';
import type { Shortcoming } from '../../fit/problem.ts';
import { COUNT, type PackLog, readPackLog } from '../../fit/season/pack-log.ts';
import { chargeAtRest } from '../../fit/season/rest-charge.ts';
import type { SeasonCharge } from '../../fit/season/season-fit.ts';
import type { Pack } from '../../model/car.ts';
import { filler } from '../../model/fields/filler.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { FieldValue, FieldValues } from '../fields/read-context.ts';
import { inLog } from '../files/log-file.ts';
import { calibrateFields } from './calibrate-fields.ts';
import type { Calibrating } from './calibrating.ts';
import { columnsOf, rowsOf, textOf, unitsOf } from './trip-way.ts';

/** Standard uncertainties where a row says none: shares of an energy and of a voltage, and of a state of charge. Common practice, no source. */
const METER = 0.02;
const VOLTMETER = 0.002;
const GAUGE = 0.01;

export interface ReadCharges {
  readonly charges: readonly SeasonCharge[];
  /** Why a state of charge is not told, of rows that count. */
  readonly short: readonly Shortcoming[];
  readonly notes: readonly string[];
}

export function readCharges(asked: Calibrating): ReadCharges {
  const notes: string[] = [];
  const short: Shortcoming[] = [];
  const charges = rowsOf(asked.values['charges']).map((row, i) => {
    const path = `${asked.name}.charges[${i + 1}]`;
    const log = logOf(asked, row, path, notes);
    const part =
      row['from'] !== undefined || row['to'] !== undefined ? byGauge(asked, row, path) : byRest(asked, row, path, log);
    if (part !== null && 'short' in part) short.push(part.short);
    const { counted, wall, into } = row;
    const metered = (key: string, value: FieldValue | undefined, usual: number): Measured | null =>
      typeof value === 'number' ? { value, standard: standardAt(asked, `${path}.${key}`) ?? usual * value } : null;
    if (log !== null && counted !== undefined)
      throw new SpecError(`${path}.counted`, 'stands beside a log, which counts by itself', 'one of the two');
    const logged = log === null || log.into <= 0 ? null : { value: log.into, standard: METER * log.into };
    return {
      part: part === null || 'short' in part ? null : part,
      counted: log?.counted ?? metered('counted', counted, COUNT),
      wall: metered('wall', wall, METER),
      into: metered('into', into, METER) ?? logged,
    };
  });
  return { charges, short, notes };
}

function byGauge(asked: Calibrating, row: FieldValues, path: string): Measured {
  const { from, to } = row;
  if (typeof from !== 'number' || typeof to !== 'number')
    throw new SpecError(path, 'needs the state of charge before and after', 'from: 20 % and to: 80 %');
  const beside = ['restBefore', 'restAfter'].find(key => row[key] !== undefined);
  if (beside !== undefined)
    throw new SpecError(path, 'has a gauge and a voltage at rest', 'from and to, or rest_before and rest_after');
  if (to <= from) throw new SpecError(`${path}.to`, 'is not above from');
  const [start, end] = (['from', 'to'] as const).map(key => standardAt(asked, `${path}.${key}`) ?? GAUGE);
  return { value: to - from, standard: elementary.hypot(start ?? GAUGE, end ?? GAUGE) };
}

/** Null where the row tells no state of charge at all: it may be there for the charger. */
function byRest(
  asked: Calibrating,
  row: FieldValues,
  path: string,
  log: PackLog | null,
): Measured | { readonly short: Shortcoming } | null {
  const { pack } = asked.car.car;
  const curve = filler(asked.name, calibrateFields, asked.values, asked.assumed).number('curve');
  const cell = (key: 'restBefore' | 'restAfter', written: string, logged: Measured | undefined): Measured | null => {
    const own = row[key];
    const value = typeof own === 'number' ? own : logged?.value;
    if (value === undefined) return null;
    const meter = standardAt(asked, `${path}.${written}`) ?? VOLTMETER * value;
    const crept = typeof own === 'number' ? 0 : (logged?.standard ?? 0);
    return { value: value / pack.series, standard: elementary.hypot(meter, crept) / pack.series };
  };
  const [before, after] = [cell('restBefore', 'rest_before', log?.before), cell('restAfter', 'rest_after', log?.after)];
  if (before === null && after === null) return null;
  if (before === null || after === null) {
    const lacks = before === null ? 'rest_before' : 'rest_after';
    throw new SpecError(path, `has no ${lacks} beside the other`, 'the voltage of the pack at both rests');
  }
  const [start, end] = [chargeAtRest(pack.cell, before, curve), chargeAtRest(pack.cell, after, curve)];
  if ('short' in start) return start;
  if ('short' in end) return end;
  // A voltmeter that is off alike at both ends counts less than this.
  return { value: Math.abs(end.value - start.value), standard: elementary.hypot(start.standard, end.standard) };
}

function logOf(asked: Calibrating, { log }: FieldValues, path: string, notes: string[]): PackLog | null {
  if (typeof log !== 'string') return null;
  const { values, world, car } = asked;
  const text = textOf(log, path, file => world.readFile(file));
  const { series, cell } = car.car.pack;
  return inLog(text, log, () => {
    const read = readPackLog(text, {
      title: log,
      units: unitsOf(values),
      columns: columnsOf(values),
      capacity: newCapacity(car.car.pack),
      cell,
      series,
    });
    notes.push(...read.notes.map(note => `${log}: ${note}`));
    return read;
  });
}

/** C of the pack when new. */
export function newCapacity({ cell, parallel }: Pack): number {
  return cell.capacity * parallel;
}

export function standardAt({ inputs }: Calibrating, path: string): number | null {
  const spread = inputs.find((input: Input) => input.path === path)?.spread;
  if (spread === undefined) return null;
  return spread.kind === 'normal' ? spread.standard : (spread.high - spread.low) / Math.sqrt(12);
}
