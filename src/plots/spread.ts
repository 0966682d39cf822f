/** What the uncertain inputs make of figures: a histogram of the samples of each, with its interval. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { capital, columnHeading, figure, scaleOf, written } from '../units/rounding.ts';
import { COLOUR, INK } from './kit/palette.ts';
import { leftAxis, stacked } from './kit/views.ts';
import { NARROW } from './kit/layout.ts';
import type { Picture } from './kit/picture.ts';
import { numbers } from '../runs/series.ts';
import { chanceText, samplesText } from './kit/interval.ts';

/** Figures that are drawn; the table has all of them. */
const MOST = 6;

/** One figure of a spread: its samples with an answer, in SI units and in order. */
interface Sampled {
  readonly key: string;
  readonly label: string;
  readonly sorted: Float64Array;
}

function sampled(result: Result): readonly Sampled[] {
  const series = result.series['samples'] ?? {};
  return Object.entries(series)
    .map(([key, { label }]) => ({
      key,
      label,
      sorted: numbers(series, key)
        .filter(value => !Number.isNaN(value))
        .toSorted(),
    }))
    .filter(({ sorted }) => sorted.length > 1);
}

/** A bar of a histogram: ends and count. */
export interface Bin {
  readonly from: number;
  readonly to: number;
  readonly count: number;
}

/**
 * Bins of equal width over sorted values, as many as Freedman and Diaconis have it (2 IQR n^(-1/3); Z. Wahrscheinlichkeitstheorie
 * 57 (1981) 453-476), 5 at least and 40 at most; one for values that are all alike.
 */
export function histogram(sorted: Float64Array): readonly Bin[] {
  const [low, high] = [sorted[0] ?? 0, sorted.at(-1) ?? 0];
  if (!(high > low)) return [{ from: low, to: high, count: sorted.length }];
  const at = (share: number): number => sorted[Math.round(share * (sorted.length - 1))] ?? Number.NaN;
  const wish = (2 * (at(0.75) - at(0.25))) / Math.cbrt(sorted.length);
  const count = Math.min(40, Math.max(5, wish > 0 ? Math.ceil((high - low) / wish) : 40));
  const width = (high - low) / count;
  const counts = Array.from({ length: count }, () => 0);
  for (const value of sorted) {
    const bin = Math.min(count - 1, Math.floor((value - low) / width));
    counts[bin] = (counts[bin] ?? 0) + 1;
  }
  return counts.map((of, k) => ({ from: low + k * width, to: low + (k + 1) * width, count: of }));
}

/** The picture of a spread: needs the series `samples` and the intervals. */
export function spreadHistograms(result: Result, system: System): Picture {
  const all = sampled(result);
  const drawn = all.slice(0, MOST);
  return {
    title: 'How the uncertain inputs spread the results',
    caption: caption(result),
    spec: width => spec(result, drawn, system, width),
    table: {
      columns: [
        'figure',
        'lowest',
        '5 % below',
        'a quarter below',
        'half below',
        'three quarters below',
        '95 % below',
        'highest',
      ],
      rows: all.map(({ key, label, sorted }) => {
        const output = result.outputs[key];
        const at = (share: number): string => {
          const value = sorted[Math.round(share * (sorted.length - 1))] ?? 0;
          return output === undefined ? String(value) : figure(value, output, system);
        };
        return [label, ...[0, 0.05, 0.25, 0.5, 0.75, 0.95, 1].map(at)];
      }),
    },
  };
}

function spec(result: Result, drawn: readonly Sampled[], system: System, width: number): object {
  const narrow = width < NARROW;
  return stacked(
    drawn.map(each => view(result, each, system)),
    { width, height: narrow ? 90 : 100, spacing: 54 },
  );
}

function view(result: Result, { key, label, sorted }: Sampled, system: System): object {
  const output = result.outputs[key];
  if (output === undefined) throw new Error(`no output ${key}`);
  const { unit, factor, offset } = scaleOf(output, system);
  const ends = result.intervals?.of[key];
  const shown = (value: number): number => value * factor + offset;
  // Bars that an end of the interval cuts are drawn in two parts, so that the shading is that of the interval.
  const bars = histogram(sorted).flatMap(({ from, to, count }) => {
    const cuts = [
      from,
      ...[ends?.low, ends?.high].filter(end => end !== undefined && end > from && end < to),
      to,
    ] as number[];
    return cuts.slice(1).map((end, k) => {
      const start = cuts[k] ?? from;
      const middle = (start + end) / 2;
      const inside = ends === undefined || (middle >= ends.low && middle <= ends.high);
      return { from: shown(start), to: shown(end), y: (100 * count) / sorted.length, zero: 0, inside };
    });
  });
  const best = result.summary[key];
  const x = {
    field: 'from',
    type: 'quantitative',
    scale: { zero: false, nice: false, padding: 4 },
    axis: { title: null, tickCount: 6 },
  };
  const marks = [
    ...(typeof best === 'number' ? [{ from: shown(best), dash: 'half' }] : []),
    ...(ends === undefined
      ? []
      : [
          { from: shown(ends.low), dash: 'end' },
          { from: shown(ends.high), dash: 'end' },
        ]),
  ];
  return {
    title: { text: capital(columnHeading(label, unit)) },
    resolve: { scale: { color: 'independent', strokeDash: 'independent' } },
    layer: [
      {
        data: { values: bars },
        mark: { type: 'rect', stroke: '#ffffff', strokeWidth: 0.5 },
        encoding: {
          x,
          x2: { field: 'to' },
          y: { field: 'zero', type: 'quantitative', axis: leftAxis(3) },
          y2: { field: 'y' },
          color: {
            field: 'inside',
            type: 'nominal',
            scale: { domain: [true, false], range: ['#5d6796', '#d3d6e4'] },
            legend: null,
          },
        },
      },
      {
        data: { values: marks },
        mark: { type: 'rule', strokeWidth: 1.75 },
        encoding: {
          x,
          color: {
            field: 'dash',
            type: 'nominal',
            scale: { domain: ['half', 'end'], range: [COLOUR.grip, INK] },
            legend: null,
          },
          strokeDash: {
            field: 'dash',
            type: 'nominal',
            scale: {
              domain: ['half', 'end'],
              range: [
                [1, 0],
                [4, 3],
              ],
            },
            legend: null,
          },
        },
      },
    ],
  };
}

function caption(result: Result): string {
  const { intervals } = result;
  if (intervals === undefined) return 'No sample has an answer.';
  const outside = written(Number((50 * (1 - intervals.probability)).toPrecision(3)), '%', 0);
  return `${samplesText(intervals)}, all of them drawn at once and each independent of the others. Heights are shares of the samples in per cent. The dark part, between the dashed lines, holds ${chanceText(intervals.probability)}; ${outside} lie on either side. The full line is the figure with every input as it is.`;
}
