/** What the views of a drawing have in common: axes, keys, how they stand above each other. */
import { FONT_SIZE, LEFT, NARROW, plotWidth } from './layout.ts';
import { THEME } from './picture.ts';

/** A vertical axis whose labels take the same room in every view, so that plots above each other line up. */
export function leftAxis(ticks: number): object {
  return { title: null, tickCount: ticks, minExtent: LEFT - 6, maxExtent: LEFT - 6 };
}

/** A key below the plot, in as many columns as surely fit: the drawing library takes a character for 0.8 of its height. */
export function lineKey(labels: readonly string[], width: number): object {
  const longest = Math.max(...labels.map(label => label.length));
  const columns = Math.max(1, Math.min(labels.length, Math.floor((width - LEFT) / (50 + 0.8 * FONT_SIZE * longest))));
  return { title: null, orient: 'bottom', direction: 'vertical', columns, symbolType: 'stroke', symbolSize: 500 };
}

/** How views are put above each other. */
export interface Stack {
  /** px of the whole drawing. */
  readonly width: number;
  /** px of each view that does not say its own. */
  readonly height?: number;
  /** px between two views. */
  readonly spacing: number;
}

/** Views above each other; each says the rest of its spec. */
export function stacked(views: readonly object[], { width, height, spacing }: Stack): object {
  const frame = { width: plotWidth(width), ...(height !== undefined && { height }) };
  return {
    config: THEME,
    bounds: 'flush',
    spacing,
    vconcat: views.map(view => ({ ...frame, ...view })),
  };
}

/** Views above each other of which the first has a key of its lines below it; no two share their colours. */
export function stackedUnderKey(views: readonly object[], width: number): object {
  return {
    ...stacked(views, { width, spacing: width < NARROW ? 66 : 44 }),
    resolve: { scale: { color: 'independent', strokeDash: 'independent' } },
  };
}

/** The axis across that the views of a stack share: the last one has its labels. @param end of the axis, in its unit. */
export function sharedAxis(end: number, title: string, tickCount: number): (last: boolean) => object {
  return last => ({
    field: 'x',
    type: 'quantitative',
    scale: { domain: [0, end], nice: false },
    axis: { title: last ? title : null, tickCount, labels: last, ticks: last },
  });
}

/** The words in the segments of a strip: from the fields `middle`, `word` and `ink`. */
export function stripWords(x: object, height: number): object {
  return {
    mark: { type: 'text', baseline: 'middle', align: 'center' },
    encoding: {
      x: { ...x, field: 'middle' },
      y: { value: height / 2 },
      text: { field: 'word', type: 'nominal' },
      color: { field: 'ink', type: 'nominal', scale: null },
    },
  };
}
