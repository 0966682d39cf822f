/** What a formula reads off a run over time: `town.trail.pack_current_A.rms_10_s`, `dash.time.speed_m_s.max`. */
import { nth } from '../../columns.ts';
import { extremesOf, meanOf } from '../../model/duty/track.ts';
import type { Track } from '../../model/duty/track.ts';
import { rootMeanSquare, windowed } from '../../model/duty/windows.ts';
import { greatestMean } from '../../runs/duty/runs.ts';
import { halfShaft } from '../../runs/duty/currents.ts';
import type { Column, Result, Series } from '../../runs/result.ts';
import type { Trail } from '../../runs/trail/trail.ts';
import type { System } from '../../units.ts';
import type { FormulaValue } from './formula.ts';

/** What is kept of a run between the points of its pictures, by the names of formulas. */
const TRAIL: { readonly [name: string]: { readonly unit: string; readonly of: (trail: Trail) => Track } } = {
  pack_current_A: { unit: 'A', of: trail => trail.track('pack') },
  pack_voltage_V: { unit: 'V', of: trail => trail.track('voltage') },
  front_inverter_current_A: { unit: 'A', of: trail => trail.track('front') },
  rear_inverter_current_A: { unit: 'A', of: trail => trail.track('rear') },
  consumers_current_A: { unit: 'A', of: trail => trail.track('consumers') },
  front_half_shaft_N_m: { unit: 'N m', of: trail => halfShaft(trail, 'front') },
  rear_half_shaft_N_m: { unit: 'N m', of: trail => halfShaft(trail, 'rear') },
  speed_m_s: { unit: 'm/s', of: trail => trail.track('speed') },
  unit_heat_W: { unit: 'W', of: trail => trail.track('heat') },
  wall_power_W: { unit: 'W', of: trail => trail.track('wall') },
};

/** Name of the series that is kept, and no part of any file. */
const KEPT = 'trail';

/** What may stand at the end. */
const REDUCED = 'max, min, mean, rms, or over the worst stretch mean_60_s, rms_60_s';

/** Why there is none. */
export interface NoSeriesValue {
  readonly message: string;
  readonly expected: string;
}

/**
 * @param tail of the path behind the name of the cell.
 * @returns null for a path that leads to no series.
 */
export function seriesValue(result: Result, tail: string, system: System): FormulaValue | NoSeriesValue | null {
  const [name = '', key = '', how = '', ...more] = tail.split('.');
  const known = name === KEPT ? result.trail : Object.hasOwn(result.series, name) ? result.series[name] : undefined;
  if (known === undefined || key === '') return null;
  const columns = name === KEPT ? Object.keys(TRAIL) : Object.keys(result.series[name] ?? {});
  if (!columns.includes(key)) return { message: `${name} has no column "${key}"`, expected: columns.join(', ') };
  if (how === '' || more.length > 0) return { message: `${name}.${key} is a series, not a value`, expected: REDUCED };
  const found = name === KEPT ? kept(result, key, system) : plotted(result.series[name] ?? {}, key, system);
  if (found === null) return { message: `${name}.${key} is text`, expected: 'a column of numbers' };
  return reduced(found, how);
}

/** Whether a complaint was found in place of a value. */
export function isComplaint(found: FormulaValue | NoSeriesValue): found is NoSeriesValue {
  return 'message' in found;
}

interface Reduced {
  readonly track: Track;
  readonly unit: string;
  readonly display: string | undefined;
  /** Whether it goes over time. */
  readonly timed: boolean;
}

function kept({ trail }: Result, key: string, system: System): Reduced | null {
  const column = TRAIL[key];
  if (trail === undefined || column === undefined) return null;
  const display = column.unit === 'm/s' ? (system === 'metric' ? 'km/h' : 'mph') : undefined;
  return { track: column.of(trail), unit: column.unit, display, timed: true };
}

/** A column of a picture: straight lines between its rows, holes left out. */
function plotted(series: Series, key: string, system: System): Reduced | null {
  const [along] = Object.values(series);
  const column = series[key];
  if (along === undefined || column === undefined || !(column.values instanceof Float64Array)) return null;
  const timed = along.unit === 's' && along.values instanceof Float64Array;
  return { track: lines(along, column.values), unit: column.unit, display: column.display[system], timed };
}

function lines({ values: along }: Column, values: Float64Array): Track {
  const rows = Array.from({ length: values.length }, (_, i) => i).filter(i => !Number.isNaN(nth(values, i)));
  const pieces = rows.slice(1);
  const at = (i: number): number => (along instanceof Float64Array ? nth(along, i) : i);
  return {
    length: Float64Array.from(pieces, (i, k) => at(i) - at(rows[k] ?? i)),
    from: Float64Array.from(pieces, (_, k) => nth(values, rows[k] ?? 0)),
    to: Float64Array.from(pieces, i => nth(values, i)),
  };
}

function reduced({ track, unit, display, timed }: Reduced, how: string): FormulaValue | NoSeriesValue {
  const value = (each: number): FormulaValue | NoSeriesValue =>
    Number.isFinite(each)
      ? { value: each, unit, ...(display !== undefined && { display }) }
      : { message: 'the series has no numbers', expected: '' };
  if (how === 'max') return value(extremesOf(track).greatest);
  if (how === 'min') return value(extremesOf(track).least);
  const [, what, window] = /^(mean|rms)(?:_(\d+)_s)?$/u.exec(how) ?? [];
  if (what === undefined) return { message: `"${how}" is nothing that is made of a series`, expected: REDUCED };
  if (!timed) return { message: `this series does not go over time: it has no ${what}`, expected: 'max or min' };
  const seconds = Number(window ?? 0);
  if (window !== undefined && !(seconds > 0))
    return { message: 'a stretch of no length has no mean', expected: REDUCED };
  if (what === 'mean') return value(window === undefined ? meanOf(track) : greatestMean(track, seconds));
  return value(window === undefined ? rootMeanSquare(track) : windowed(track, seconds).once);
}
