/** A season as a result: figures with their intervals, each drive as it was metered and as it is modelled. */
import { item, nth } from '../../columns.ts';
import { column, textColumn } from '../../runs/column.ts';
import { putInto } from '../../runs/found.ts';
import { kilowattHours, number, output, power, share } from '../../runs/output.ts';
import type { Coverage, Output, Result, Series } from '../../runs/result.ts';
import type { Measured } from '../coast/measured.ts';
import type { Shortcoming } from '../problem.ts';
import { coverageOf, EMPTY_LEDGER, noCalibration, within } from '../result.ts';
import type { SeasonFit } from './season-fit.ts';

export const SEASON = 'season';

const outputs: { readonly [key: string]: Output } = {
  auxiliaries: output('consumers', 'W', 'W', 'W', 'drawn on the 12 V side while driving'),
  drag_area: output('drag area', 'm^2', 'm^2', 'ft^2', 'by the drives of the season'),
  rolling_resistance: number(
    'rolling resistance',
    'coefficient c0 at 25 °C of the rear tyres, hubs and brakes that drag with it',
  ),
  capacity: output('capacity', 'C', 'A h', 'A h', 'of the pack, by the charge that was counted'),
  health: share('health of the pack', 'that capacity over the one when new'),
  charger_efficiency: share('charger', 'of the energy from the wall what reaches the pack'),
  drives: number('drives', 'that were fitted'),
  charges: number('charges', 'that were read'),
  residual: share('what is left', 'of the energy of a drive, metered less modelled, root of the mean square'),
  energy: kilowattHours('energy of the season', 'out of the pack, all drives together'),
  mean_power: power('mean power', 'of the energy that was metered, over the time of the drives'),
};

export interface SeasonAbout {
  readonly figures: { readonly [key: string]: Measured | null };
  /** Why a figure has no number. */
  readonly missing: { readonly [key: string]: string };
  readonly fit: SeasonFit | null;
  readonly drives: readonly { readonly title: string; readonly energy: number; readonly time: number }[];
  readonly charges: number;
  readonly lines: readonly string[];
  readonly warnings: readonly string[];
}

export function noSeason(short: readonly Shortcoming[], warnings: readonly string[]): Result {
  return noCalibration(SEASON, outputs, short, warnings);
}

export function seasonResult({ figures, missing, fit, drives, charges, lines, warnings }: SeasonAbout): Result {
  const summary: { [key: string]: number | string | null } = {};
  const reasons: { [key: string]: string } = {};
  const put = putInto(summary, reasons);
  const of: { [key: string]: Coverage } = {};
  for (const key of ['auxiliaries', 'drag_area', 'rolling_resistance', 'capacity', 'health', 'charger_efficiency']) {
    const found = figures[key] ?? null;
    put(key, found?.value ?? null, missing[key] ?? 'it was not asked for');
    if (found !== null) of[key] = coverageOf(found.value, found.standard);
  }
  const energy = drives.reduce((all, each) => all + each.energy, 0);
  const time = drives.reduce((all, each) => all + each.time, 0);
  const off = drives.map(
    (each, i) => (each.energy - (fit === null ? each.energy : nth(fit.modelled, i))) / each.energy,
  );
  put('drives', drives.length);
  put('charges', charges);
  put(
    'residual',
    fit === null ? null : Math.sqrt(off.reduce((all, each) => all + each * each, 0) / off.length),
    'no drive was fitted',
  );
  put('energy', drives.length === 0 ? null : energy, 'no drive was metered');
  put('mean_power', time > 0 ? energy / time : null, 'no drive was metered');
  return {
    kind: SEASON,
    summary,
    reasons,
    outputs,
    series: fit === null ? {} : { drives: drivesOf(drives, fit) },
    bands: [],
    events: [],
    ledger: EMPTY_LEDGER,
    warnings,
    opinion: null,
    verdicts: verdictsOf(of, missing, fit),
    ...(lines.length > 0 && { lines }),
    intervals: {
      probability: 0.95,
      samples: 0,
      seed: 0,
      inputs: Object.keys(of).length,
      of,
      holes: {},
    },
  };
}

function verdictsOf(
  of: { readonly [key: string]: Coverage },
  missing: SeasonAbout['missing'],
  fit: SeasonFit | null,
): readonly string[] {
  const untold = Object.values(missing);
  const told = Object.entries(of).map(([key, { low, high }]) => {
    const what = item(
      [outputs[key]].flatMap(each => (each === undefined ? [] : [each])),
      0,
    );
    return `${what.label} ${within((low + high) / 2, (high - low) / 2, each => shown(key, each))}`;
  });
  return [
    `What can not be told apart: capacity needs counted charge, the charger a meter on either side of it; drag and rolling resistance part by drives of different speed, consumers by drives of different length in time${untold.map(each => `; ${each}`).join('')}`,
    ...(told.length === 0 ? [] : [`The season gives ${told.join(', ')}; in brackets what holds 19 of 20`]),
    ...(fit !== null && fit.excess > 1.5
      ? [
          `The drives scatter ${fit.excess.toFixed(1)} times as much as their meters explain, and the intervals are wider by that`,
        ]
      : []),
  ];
}

function shown(key: string, value: number): string {
  const [factor, unit] = {
    capacity: [1 / 3600, ' A h'] as const,
    health: [100, ' %'] as const,
    charger_efficiency: [100, ' %'] as const,
    auxiliaries: [1, ' W'] as const,
    drag_area: [1, ' m²'] as const,
  }[key] ?? [1, ''];
  return `${Number((factor * value).toPrecision(key === 'rolling_resistance' ? 2 : 3))}${unit}`;
}

function drivesOf(drives: SeasonAbout['drives'], { modelled }: SeasonFit): Series {
  return {
    drive: textColumn(
      'drive',
      drives.map(({ title }) => title),
    ),
    metered_J: column(
      'metered',
      'J',
      'kWh',
      'kWh',
      Float64Array.from(drives, ({ energy }) => energy),
    ),
    modelled_J: column('modelled', 'J', 'kWh', 'kWh', Float64Array.from(modelled)),
  };
}
