/**
 * The part of Vega-Lite that a plot cell may use. A list of what is allowed, because the full language can load files and
 * addresses, follow links, and ask for arrays (ticks, bins, sequences) too large for any memory.
 */
import {
  either,
  flag,
  forms,
  list,
  mapping,
  nothing,
  number,
  pattern,
  plain,
  type Shape,
  text,
  word,
} from './shape.ts';

const MARKS = ['line', 'area', 'bar', 'point', 'circle', 'square', 'tick', 'rule', 'text', 'rect', 'trail'];

const POSITIONS = ['x', 'y', 'x2', 'y2'];
const LOOKS = ['color', 'fill', 'stroke', 'opacity', 'size', 'shape', 'strokeDash', 'strokeWidth'];
const CHANNELS = [...POSITIONS, ...LOOKS, 'detail', 'order', 'text'];

const each = (keys: readonly string[], shape: Shape): { readonly [key: string]: Shape } =>
  Object.fromEntries(keys.map(key => [key, shape]));

const titleOrNone = either(nothing, text);
const values = list(plain);
const limit = number(-1e12, 1e12);
const format = pattern(
  /^(?:[^{}]?[<>=^])?[-+( ]?[$#]?0?\d{0,2},?(?:\.\d{1,2})?~?[%bcdefgnoprsXx]?$/,
  'a number format such as ".1f"',
);

const axis = mapping({
  title: titleOrNone,
  format,
  values,
  tickCount: number(0, 100),
  orient: word('left', 'right', 'top', 'bottom'),
  labelAngle: number(-360, 360),
  ...each(['grid', 'labels', 'ticks', 'domain'], flag),
});

const legend = mapping({
  title: titleOrNone,
  format,
  values,
  tickCount: number(0, 100),
  orient: word('left', 'right', 'top', 'bottom', 'top-left', 'top-right', 'bottom-left', 'bottom-right', 'none'),
  direction: word('horizontal', 'vertical'),
  columns: number(1, 20),
});

const scale = mapping({
  type: word('linear', 'log', 'pow', 'sqrt', 'symlog', 'ordinal', 'band', 'point'),
  domain: values,
  range: values,
  scheme: text,
  domainMin: limit,
  domainMax: limit,
  ...each(['nice', 'zero', 'reverse', 'clamp'], flag),
});

const markStyle = mapping({
  type: word(...MARKS),
  ...each(['color', 'fill', 'stroke', 'text', 'fontWeight', 'shape'], text),
  ...each(['size', 'strokeWidth', 'dx', 'dy', 'angle', 'fontSize', 'cornerRadius'], number(-1000, 1000)),
  ...each(['opacity', 'fillOpacity', 'strokeOpacity'], number(0, 1)),
  ...each(['point', 'line', 'filled', 'clip'], flag),
  strokeDash: list(number(0, 100), 10),
  interpolate: word('linear', 'monotone', 'step', 'step-after', 'step-before', 'basis', 'natural'),
  orient: word('horizontal', 'vertical'),
  align: word('left', 'center', 'right'),
  baseline: word('top', 'middle', 'bottom', 'alphabetic'),
});

const operation = word('count', 'sum', 'mean', 'median', 'min', 'max', 'stdev');

/** A mark: its name, or a mapping with its looks. */
export const mark: Shape = forms({ scalar: word(...MARKS), map: markStyle });

export const title: Shape = forms({ scalar: text, list: list(text, 5), map: mapping({ text, subtitle: text }) });

export const resolve: Shape = mapping(
  each(['scale', 'axis', 'legend'], mapping(each(CHANNELS, word('shared', 'independent')))),
);

/** Channels and what they show; a name alone is a column. */
export function encodingOf(column: Shape): Shape {
  const channel = mapping({
    field: column,
    type: word('quantitative', 'nominal', 'ordinal'),
    title: titleOrNone,
    aggregate: operation,
    bin: either(flag, mapping({ maxbins: number(1, 200) })),
    stack: either(nothing, flag, word('zero', 'center', 'normalize')),
    sort: either(nothing, word('ascending', 'descending'), values),
    axis: either(nothing, axis),
    legend: either(nothing, legend),
    scale: either(nothing, scale),
    format,
    value: plain,
    datum: plain,
  });
  const short: Shape = (node, path) => ({ field: column(node, path) });
  return mapping(each(CHANNELS, forms({ scalar: short, map: channel, list: list(channel, 10) })));
}

/** Steps that make new columns or leave rows out. */
export function transformOf(column: Shape, newColumn: Shape, expression: Shape): Shape {
  return list(
    mapping({
      calculate: expression,
      filter: expression,
      fold: list(column, 20),
      aggregate: list(mapping({ op: operation, field: column, as: newColumn }), 20),
      groupby: list(column, 20),
      as: forms({ scalar: newColumn, list: list(newColumn, 2) }),
    }),
    20,
  );
}
