/** Bars of the load on each axle, drawn under the axles of a side view. */
import type { Result } from '../runs/result.ts';
import { massText } from '../runs/weigh/text.ts';
import type { System } from '../units.ts';
import { scaleOf, unitText, written } from '../units/rounding.ts';
import { COLOUR, INK, PAPER } from './kit/palette.ts';
import { numbers } from '../runs/series.ts';

/** Where the bars go, px. */
export interface BarPlace {
  readonly width: number;
  /** From the left edge to the front axle, and from there to the rear axle. */
  readonly left: number;
  readonly span: number;
  /** From the top of the picture. */
  readonly top: number;
  readonly narrow: boolean;
}

const MASS = { unit: 'kg', display: { metric: 'kg', imperial: 'lb' } } as const;
const LINE = 15;
/** Lines above the bars: the axle, what is permitted, what is left. */
const HEAD = 3 * LINE + 8;
const FOOT = LINE + 6;

const BARS = [
  { key: 'before_kg', word: 'before', fill: PAPER, ink: INK, dash: [5, 3] },
  { key: 'kerb_kg', word: 'now', fill: COLOUR['motor power'], ink: INK, dash: [1, 0] },
  { key: 'full_kg', word: 'loaded', fill: COLOUR['motor torque'], ink: PAPER, dash: [1, 0] },
] as const;

/** The layers, and where they end, px from the top. */
export function axleBars(
  result: Result,
  system: System,
  place: BarPlace,
): { layers: readonly object[]; bottom: number } {
  const axles = result.series['axles'] ?? {};
  const height = place.narrow ? 100 : 120;
  const all = [...BARS.map(({ key }) => key), 'permitted_kg'].flatMap(key => [...numbers(axles, key)]);
  const most = Math.max(...all.filter(value => Number.isFinite(value)));
  const ground = place.top + HEAD + height;
  const wide = Math.min(56, (place.span - 16) / 3, (2 * place.left) / 2.6);
  const groups = ['front', 'rear'].map((axle, i) => ({
    axle,
    // A group stays whole in the picture where an axle is close to its edge.
    middle: Math.min(place.width - 1.6 * wide, Math.max(1.6 * wide, place.left + i * place.span)),
    permitted: numbers(axles, 'permitted_kg')[i] ?? Number.NaN,
    loads: BARS.map(bar => ({ ...bar, load: numbers(axles, bar.key)[i] ?? 0 })),
  }));
  const up = (load: number): number => ground - (load / most) * height;
  const bars = groups.flatMap(({ middle, loads }) =>
    loads.map((bar, k) => ({
      ...bar,
      x: middle + (k - 1.5) * wide + 2,
      x2: middle + (k - 0.5) * wide - 2,
      at: middle + (k - 1) * wide,
      y: up(bar.load),
      y2: ground,
    })),
  );
  const rules = groups
    .filter(({ permitted }) => Number.isFinite(permitted))
    .map(({ middle, permitted }) => ({ x: middle - 1.6 * wide, x2: middle + 1.6 * wide, y: up(permitted) }));
  return {
    layers: [...barLayers(bars, ground, system), ...ruleLayers(rules), ...heads(groups, place.top, system)],
    bottom: ground + FOOT,
  };
}

interface Bar {
  readonly key: string;
  readonly word: string;
  readonly fill: string;
  readonly ink: string;
  readonly dash: readonly number[];
  readonly load: number;
  readonly x: number;
  readonly x2: number;
  readonly at: number;
  readonly y: number;
  readonly y2: number;
}

function barLayers(bars: readonly Bar[], ground: number, system: System): readonly object[] {
  const { factor } = scaleOf(MASS, system);
  const text = { field: 'text', type: 'nominal' };
  const middle = { type: 'text', align: 'center' };
  return [
    ...BARS.map(({ key, fill, dash }) => ({
      data: { values: bars.filter(bar => bar.key === key).map(({ x, x2, y, y2 }) => ({ x, x2, y, y2 })) },
      mark: { type: 'rect', fill, stroke: INK, strokeWidth: 1.4, strokeDash: dash, opacity: 1 },
      encoding: { x2: { field: 'x2' }, y2: { field: 'y2' } },
    })),
    ...BARS.map(({ key, ink }) => ({
      data: {
        values: bars
          .filter(bar => bar.key === key)
          .map(({ at, load }) => ({ x: at, y: ground - 5, text: written(load * factor, '1', 0) })),
      },
      mark: { ...middle, baseline: 'bottom', color: ink, fontWeight: 600 },
      encoding: { text },
    })),
    {
      data: { values: bars.map(({ at, word }) => ({ x: at, y: ground + 4, text: word })) },
      mark: { ...middle, baseline: 'top' },
      encoding: { text },
    },
  ];
}

function ruleLayers(rules: readonly object[]): readonly object[] {
  const mark = { type: 'rule', color: COLOUR.grip, strokeWidth: 2.5 };
  return [{ data: { values: rules }, mark, encoding: { x2: { field: 'x2' } } }];
}

interface Group {
  readonly axle: string;
  readonly middle: number;
  readonly permitted: number;
  readonly loads: readonly { readonly load: number }[];
}

/** Which axle, the permitted load, and what is left of it. */
function heads(groups: readonly Group[], top: number, system: System): readonly object[] {
  const unit = unitText(scaleOf(MASS, system).unit);
  const lines = groups.map(({ axle, middle, permitted, loads }) => {
    const known = Number.isFinite(permitted);
    const margin = permitted - (loads.at(-1)?.load ?? 0);
    const size = known ? massText(Math.abs(margin), system) : '';
    return {
      x: middle,
      first: `${axle} axle, ${unit}`,
      second: known ? `line: permitted ${massText(permitted, system)}` : 'permitted load not given',
      third: known ? (margin < 0 ? `OVER by ${size}` : `${size} left`) : '',
    };
  });
  return (['first', 'second', 'third'] as const).map((key, k) => ({
    data: { values: lines.map(line => ({ x: line.x, y: top + k * LINE, text: line[key] })) },
    mark: { type: 'text', align: 'center', baseline: 'top', fontWeight: key === 'second' ? 400 : 600 },
    encoding: { text: { field: 'text', type: 'nominal' } },
  }));
}
