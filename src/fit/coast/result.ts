/** Coast-downs as a result: figures with their intervals, what was fitted and what is left, lines for a car. */
import { lastOf, nth } from '../../columns.ts';
import { column, speedColumn } from '../../runs/column.ts';
import { putInto } from '../../runs/found.ts';
import type { Coverage, Intervals, Result, Series } from '../../runs/result.ts';
import { standardOf } from '../linear.ts';
import type { Shortcoming } from '../problem.ts';
import { EMPTY_LEDGER, TWO_SIDED, coverageOf, noCalibration, residualColumns, within } from '../result.ts';
import type { CoastAbout, ForceBefore } from './about.ts';
import { type CoastDown, forceAt } from './coast-down.ts';
import { linesOf, tyreLines } from './lines.ts';
import type { Measured } from './measured.ts';
import { sideWindAdds } from './side-wind.ts';
import { coastDownOutputs, TOLD_SPEEDS } from './outputs.ts';
import { MOST_IMPRECISE } from './windows.ts';

export const COAST_DOWN = 'coast-down';

/** The result of coast-downs that give no figure. */
export function noCoastDown(short: readonly Shortcoming[], warnings: readonly string[]): Result {
  return noCalibration(COAST_DOWN, coastDownOutputs, short, warnings);
}

export function coastDownResult(found: CoastDown, about: CoastAbout): Result {
  const summary: { [key: string]: number | string | null } = {};
  const reasons: { [key: string]: string } = {};
  const put = putInto(summary, reasons);
  const of: { [key: string]: Coverage } = {};
  const measured = (key: string, { value, standard }: Measured): void => {
    put(key, value);
    of[key] = coverageOf(value, standard);
  };
  (['f0', 'f1', 'f2'] as const).forEach((key, i) =>
    measured(key, { value: nth(found.terms, i), standard: standardOf(alone(i), found.spread) }),
  );
  for (const at of TOLD_SPEEDS) {
    const key = `force_${at}_km_h`;
    const speed = at / 3.6;
    const [least, most] = spanOf(found);
    if (speed > most + 1 || speed < least - 1) put(key, null, `no run went through ${at} km/h`);
    else measured(key, forceOn(found, speed));
  }
  if (about.assumed === null) put('force_before', null, 'the car as it was assumed does not coast at that speed');
  else measured('force_before', about.assumed);
  measured('drag_area', found.dragArea);
  measured('rolling_coefficient', found.rolling);
  measured('wind', found.wind);
  measured('slope', found.slope);
  put('moved_mass', found.moved);
  put('pairs', found.pairs.length);
  const differ = differenceOf(found);
  put('ways_differ', differ?.share ?? null, 'too few windows of speed');
  put('worst_precision', worstPrecision(found), 'too few windows of speed');
  put('worst_residual', Math.max(...found.pairs.map(({ noise }) => noise)));
  put('longest_run', Math.max(...found.runs.map(({ track }) => lastOf(track.time))));
  return {
    kind: COAST_DOWN,
    summary,
    reasons,
    outputs: coastDownOutputs,
    series: { forces: forcesOf(found, about.before), windows: windowsOf(found), residuals: residualsOf(found) },
    bands: [],
    events: [],
    ledger: EMPTY_LEDGER,
    warnings: [...found.doubts, ...doubtsAbout(found, about), ...about.warnings],
    opinion: null,
    verdicts: verdictsOf(found, about),
    lines: linesOf(found, about),
    parts: { tyre: tyreLines(found, about) },
    intervals: intervalsOf(of),
  };
}

function intervalsOf(of: { readonly [key: string]: Coverage }): Intervals {
  return { probability: 0.95, samples: 0, seed: 0, inputs: 3, of, holes: {} };
}

function forceOn({ day, daySpread }: CoastDown, speed: number): Measured {
  return { value: forceAt(day, speed), standard: standardOf([1, speed, speed * speed], daySpread) };
}

/** The weights of one term. */
function alone(term: number): readonly number[] {
  return [0, 1, 2].map(k => (k === term ? 1 : 0));
}

/** m/s that all runs have gone through. */
function spanOf({ runs }: CoastDown): readonly [number, number] {
  return [
    Math.max(...runs.map(({ track }) => lastOf(track.speed))),
    Math.min(...runs.map(({ track }) => nth(track.speed, 0))),
  ];
}

interface Difference {
  readonly share: number;
  readonly speed: number;
  /** Whether it is within the interval of the fit. */
  readonly within: boolean;
}

/** Where the two ways are furthest apart. */
function differenceOf(found: CoastDown): Difference | null {
  const { windowed, windows } = found;
  if (windowed === null) return null;
  return windows
    .map(({ speed }): Difference => {
      const { value, standard } = forceOn(found, speed);
      const off = forceAt(windowed, speed) - value;
      return { share: Math.abs(off) / value, speed, within: Math.abs(off) <= TWO_SIDED * standard };
    })
    .reduce((worst, each) => (each.share > worst.share ? each : worst));
}

function worstPrecision({ windows }: CoastDown): number | null {
  return windows.length === 0 ? null : Math.max(...windows.map(({ precision }) => precision));
}

/** Factor by which the force may differ from what was assumed before a wrong unit or mass is thought of. Common practice, no source. */
const DOUBTFUL = 1.4;

function doubtsAbout(found: CoastDown, { before, dragArea }: CoastAbout): readonly string[] {
  const doubts: string[] = [];
  const precision = worstPrecision(found);
  if (precision !== null && precision > MOST_IMPRECISE) {
    doubts.push(
      `the times in the windows are known to ${percent(precision)} only where UN GTR 15 asks for 3 % (from memory): more runs, or a calmer day`,
    );
  }
  const differ = differenceOf(found);
  if (differ !== null && !differ.within) {
    doubts.push(
      `at ${kmh(differ.speed)} the two ways differ by ${percent(differ.share)}, more than the fit leaves room for: the road load may not have three terms, or the road is not the same both ways`,
    );
  }
  const [, most] = spanOf(found);
  const ratio = before === null ? 1 : forceOn(found, 0.8 * most).value / before(0.8 * most);
  const compare = (what: string, times: number): void => {
    if (times <= DOUBTFUL && times >= 1 / DOUBTFUL) return;
    doubts.push(
      `${what} is ${Number(times.toPrecision(2))} times what the car cell makes of it: look at the units of the log, at the mass, and for a brake that drags`,
    );
  };
  compare(`at ${kmh(0.8 * most)} the road load`, ratio);
  compare('the drag area', found.dragArea.value / dragArea);
  return doubts;
}

/** m/s across the road that is told of: 10 km/h. */
const ACROSS = 10 / 3.6;

function acrossWords({ day }: CoastDown, { sideWind }: Pick<CoastAbout, 'sideWind'>): string {
  if (sideWind) return '; wind across the road neither, and what the cell says of it is taken off F0';
  return `; wind across the road neither: 10 km/h of it would hide some ${sideWindAdds(day, ACROSS).toFixed(0)} N in F0, and side_wind says how much there was`;
}

function verdictsOf(found: CoastDown, about: CoastAbout): readonly string[] {
  const { pairs, terms, spread } = found;
  const { before } = about;
  const [least, most] = spanOf(found);
  const u = [0, 1, 2].map(i => standardOf(alone(i), spread));
  const speed = most > 100 / 3.6 ? 100 / 3.6 : 0.8 * most;
  const force = forceOn(found, speed);
  const was = before === null ? '' : `, where the car cell assumes ${before(speed).toFixed(0)} N`;
  const differ = differenceOf(found);
  return [
    `What can not be told apart: speed over time gives force over mass, so the mass is that of the scales; drag of brakes and hubs never parts from rolling resistance; wind and slope part from them only by driving both ways${acrossWords(found, about)}`,
    `${pairs.length} pairs of coast-downs from ${kmh(most)} to ${kmh(least)}: the road load at ${kmh(speed)} is ${within(force.value, TWO_SIDED * force.standard, each => `${each.toFixed(0)} N`)}, in brackets what holds 19 of 20${was}`,
    `Drag and rolling resistance come apart to ${percent((TWO_SIDED * nth(u, 2)) / terms[2])} and ${percent((TWO_SIDED * nth(u, 0)) / terms[0])}, by how they grow with speed`,
    ...(differ === null
      ? []
      : [
          `The windows of speed say the same within ${percent(differ.share)}${differ.within ? ', which is inside the interval of the fit' : ''}`,
        ]),
  ];
}

/** Rows for the pictures: the road load over the speed of the runs, with its interval and what was assumed. */
function forcesOf(found: CoastDown, before: ForceBefore): Series {
  const [least, most] = spanOf(found);
  const rows = 25;
  const speeds = Float64Array.from({ length: rows }, (_, i) => least + ((most - least) * i) / (rows - 1));
  const of = (pick: (speed: number) => number): Float64Array => speeds.map(pick);
  const reach = (speed: number): number => TWO_SIDED * forceOn(found, speed).standard;
  return {
    speed_m_s: speedColumn('speed', speeds),
    force_N: column(
      'measured',
      'N',
      'N',
      'lbf',
      of(v => forceOn(found, v).value),
    ),
    low_N: column(
      'low end',
      'N',
      'N',
      'lbf',
      of(v => forceOn(found, v).value - reach(v)),
    ),
    high_N: column(
      'high end',
      'N',
      'N',
      'lbf',
      of(v => forceOn(found, v).value + reach(v)),
    ),
    before_N: column(
      'as the car cell assumes',
      'N',
      'N',
      'lbf',
      of(v => before?.(v) ?? Number.NaN),
    ),
  };
}

function windowsOf({ windows, moved }: CoastDown): Series {
  const of = (pick: (window: CoastDown['windows'][number]) => number): Float64Array => Float64Array.from(windows, pick);
  return {
    speed_m_s: speedColumn(
      'speed',
      of(({ speed }) => speed),
    ),
    time_s: column(
      'time for 10 km/h',
      's',
      's',
      's',
      of(({ time }) => time),
    ),
    precision_1: column(
      'statistical precision',
      '1',
      '%',
      '%',
      of(({ precision }) => precision),
    ),
    force_N: column(
      'windows of speed',
      'N',
      'N',
      'lbf',
      of(({ slowing }) => (moved * slowing.reduce((all, each) => all + each, 0)) / slowing.length),
    ),
  };
}

/** Rows of residuals that are kept, each the mean of some seconds. */
const RESIDUALS = 40;

function residualsOf({ pairs }: CoastDown): Series {
  const rows = pairs.flatMap(({ there, back, residuals }) => [
    ...means(there.track.title, there.track.speed, residuals.there),
    ...means(back.track.title, back.track.speed, residuals.back),
  ]);
  return {
    speed_m_s: speedColumn(
      'speed',
      Float64Array.from(rows, ({ speed }) => speed),
    ),
    ...residualColumns(rows),
  };
}

function means(
  run: string,
  speed: Float64Array,
  residuals: Float64Array,
): readonly { readonly run: string; readonly speed: number; readonly off: number }[] {
  const size = Math.max(1, Math.ceil(residuals.length / RESIDUALS));
  const mean = (values: Float64Array, from: number): number => {
    const part = values.slice(from, from + size);
    return part.reduce((all, each) => all + each, 0) / part.length;
  };
  return Array.from({ length: Math.ceil(residuals.length / size) }, (_, k) => ({
    run,
    speed: mean(speed, k * size),
    off: mean(residuals, k * size),
  }));
}

function kmh(speed: number): string {
  return `${Math.round(3.6 * speed)} km/h`;
}

function percent(share: number): string {
  return `${Number((100 * share).toPrecision(2))} %`;
}
