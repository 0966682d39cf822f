/** The interval of a figure as a pale bar in a picture, where the picture has that figure. */
import type { Column, Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { scaleOf } from '../../units/rounding.ts';
import { INK } from './palette.ts';
import { chanceText } from './interval.ts';

/** Looks of a bar, whatever its colour: what lies behind it stays readable. */
const PALE = { strokeWidth: 6, opacity: 0.28 } as const;

/** Both ends in the unit of display. */
export interface EndsShown {
  readonly low: number;
  readonly high: number;
}

/** @param shown as what the figure is drawn. */
export function endsShown(result: Result, key: string, shown: Column, system: System): EndsShown | null {
  const ends = result.intervals?.of[key];
  if (ends === undefined) return null;
  const { factor, offset } = scaleOf(shown, system);
  return { low: ends.low * factor + offset, high: ends.high * factor + offset };
}

/** A lying bar at a height. @param x of the view. */
export function lyingBar(ends: EndsShown | null, y: number, x: object): readonly object[] {
  if (ends === null) return [];
  return [
    {
      data: { values: [{ from: ends.low, to: ends.high, y }] },
      mark: { type: 'rule', color: INK, ...PALE },
      encoding: { x: { ...x, field: 'from' }, x2: { field: 'to' }, y: { field: 'y', type: 'quantitative' } },
    },
  ];
}

/** An upright bar at a place along the axis. @param x of the view. */
export function uprightBar(ends: EndsShown | null, at: number, x: object): readonly object[] {
  if (ends === null) return [];
  return [
    {
      data: { values: [{ x: at, from: ends.low, to: ends.high }] },
      mark: { type: 'rule', color: INK, ...PALE },
      encoding: { x, y: { field: 'from', type: 'quantitative' }, y2: { field: 'to' } },
    },
  ];
}

/** At each speed that has an interval of its time: a bar from its lower to its upper end. */
export interface TimeBar {
  readonly from: number;
  readonly to: number;
  readonly y: number;
}

/** How keys of times name the speed in the unit of display. */
const NAMED = { metric: /^time_to_(\d+)_km_h$/u, imperial: /^time_to_(\d+)_mph$/u } as const;

/** Bars of the times of a launch that begin before the end of what is drawn. */
export function timeBars({ intervals }: Result, system: System, end: number): readonly TimeBar[] {
  return Object.entries(intervals?.of ?? {}).flatMap(([key, { low, high }]) => {
    const speed = NAMED[system].exec(key)?.[1];
    return speed === undefined || low >= end ? [] : [{ from: low, to: Math.min(high, end), y: Number(speed) }];
  });
}

export function timeBarsLayer(bars: readonly (TimeBar & { readonly colour?: string })[]): readonly object[] {
  if (bars.length === 0) return [];
  return [
    {
      data: { values: bars.map(bar => ({ colour: INK, ...bar })) },
      mark: { type: 'rule', ...PALE },
      encoding: {
        x: { field: 'from', type: 'quantitative' },
        x2: { field: 'to' },
        y: { field: 'y', type: 'quantitative' },
        // By the stroke, not the colour: a colour here would part the key of the lines in one of colours and one of dashes.
        stroke: { field: 'colour', type: 'nominal', scale: null },
      },
    },
  ];
}

/** ` The pale bar: nine of ten end between its ends.`; nothing where no bar is drawn. */
export function barText({ intervals }: Result, drawn: boolean, what: string): string {
  return drawn ? ` The pale bar: ${chanceText(intervals?.probability ?? 0)} ${what} between its ends.` : '';
}
