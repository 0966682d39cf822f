/** Runs over a grid of parameters: every combination of their values, curves, ends, and the best compromises. */
import { item } from '../../columns.ts';
import type { Change } from '../../runs/answer/change.ts';
import { each, group, oneOf } from '../../runs/rules.ts';
import type { Column, Result } from '../../runs/result.ts';
import { formatQuantity, type System } from '../../units.ts';
import { axesOf, type Axis, type AxisSpec } from '../question/axis.ts';
import { checkAxes, checkStudy, wholeWithin } from '../question/checked.ts';
import { figureColumn, figureHead, figureKey, figureText, figureTitle, pathWords } from '../question/figures.ts';
import type { Study, StudyFigure } from '../question/figures.ts';
import { firstCode, rowsHere } from '../question/rows.ts';
import type { Rows } from '../question/rows.ts';
import { swept } from '../question/study-model.ts';
import { type Grid, gridOf, gridPlaces, MOST_AXES } from '../search/grid.ts';
import { paretoFront } from '../search/pareto.ts';

export interface Wish {
  /** Its place among the figures of the study, from 0. */
  readonly figure: number;
  readonly wish: 'lowest' | 'highest';
}

/**
 * Sweeps here and now.
 * @param along what is varied: `{ path: 'drive.ratio', values: [8, 9, 10] }`.
 * @param wishes two or more of them ask for the best compromises.
 * @throws SpecError for a path that leads to no number, a value outside the limits of its field, and for what is no study, axis or wish.
 */
export function sweep(
  study: Study,
  along: readonly (Axis | AxisSpec)[],
  wishes: readonly Wish[] = [],
  system: System = 'metric',
): Result {
  checkStudy(study);
  checkAxes(along, MOST_AXES);
  const wish = group<Wish>({ figure: wholeWithin(0, study.figures.length - 1), wish: oneOf(['lowest', 'highest']) });
  each(wish)(wishes, 'wishes');
  const axes = axesOf(along, study);
  const grid = gridOf(axes.map(({ values }) => ({ kind: 'list', values })));
  const rows = Array.from({ length: grid.rows }, (_, row): readonly Change[] =>
    gridPlaces(grid, row).flatMap((place, k) => {
      const axis = axes[k];
      return axis === undefined ? [] : axis.changes(axis.values[place] ?? Number.NaN);
    }),
  );
  return sweepResult(study, axes, wishes, rowsHere({ ...study, subject: swept(study.subject) }, rows), system);
}

/** What rows of a grid say. @param system of units of its sentences. */
export function sweepResult(
  study: Study,
  axes: readonly Axis[],
  wishes: readonly Wish[],
  table: Rows,
  system: System,
): Result {
  const grid = gridOf(axes.map(({ values }) => ({ kind: 'list', values })));
  // Places are worked out one by one: a sweep may have millions of rows.
  const placesOf = (row: number): readonly number[] => gridPlaces(grid, row);
  const series: { [key: string]: Column } = {};
  for (const [k, axis] of axes.entries()) series[`at_${k + 1}`] = axisColumn(axis, grid, k);
  const columns = study.figures.map(figure => table.column(figureKey(figure)));
  for (const [k, figure] of study.figures.entries()) {
    series[figureKey(figure)] = figureColumn(figure, columns[k]!);
  }
  const front = frontOf(columns, wishes);
  if (front !== null) {
    const values = Array.from({ length: grid.rows }, (_, row) => (front.has(row) ? 'yes' : 'no'));
    series['on_front'] = { label: 'best compromise', unit: '', display: { metric: '', imperial: '' }, values };
  }
  const missing = columns.reduce((sum, column) => sum + column.filter(Number.isNaN).length, 0);
  const why = missing === 0 ? undefined : firstCode(table);
  const count = { metric: '1', imperial: '1' };
  const ends = study.figures.flatMap((figure, k) => endsOf(figure, columns[k]!));
  const place = (row: number): string => placeText(study, axes, placesOf(row), system);
  return {
    kind: 'sweep',
    summary: {
      runs: grid.rows,
      missing,
      ...Object.fromEntries(ends.map(({ key, value }) => [key, value])),
    },
    reasons: {},
    outputs: {
      runs: { label: 'runs', unit: '1', display: count, doc: 'points of the grid' },
      missing: { label: 'without an answer', unit: '1', display: count, doc: 'figures that a run does not have' },
      ...Object.fromEntries(
        ends.map(({ key, figure, which, row }) => [
          key,
          { ...figure.output, label: `${figureTitle(figure)}, ${which}`, doc: `with ${place(row)}` },
        ]),
      ),
    },
    series: { rows: series },
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    warnings: why === undefined ? [] : [`Some of the runs make no sense, the first one because ${why}`],
    opinion: null,
    verdicts: [
      ...study.figures.flatMap((figure, k) => figureVerdict(study, figure, item(columns, k), axes, placesOf, system)),
      ...(front === null || front.size === 0
        ? []
        : [
            `Best compromises: ${front.size} of ${grid.rows}, than which no other is better in one of ${wishes.map(({ figure }) => study.figures[figure]!.name).join(', ')} without being worse in another one`,
          ]),
    ],
  };
}

function axisColumn({ label, unit, display, names, values }: Axis, { axes, rows }: Grid, k: number): Column {
  const below = axes.slice(k + 1).reduce((product, { length }) => product * length, 1);
  const place = (row: number): number => Math.floor(row / below) % axes[k]!.length;
  if (names.length > 0) {
    const words = Array.from({ length: rows }, (_, row) => names[place(row)]!);
    return { label, unit: '', display: { metric: '', imperial: '' }, values: words };
  }
  return { label, unit, display, values: new Float64Array(rows).map((_, row) => values[place(row)]!) };
}

/** Rows of the front; null where fewer than two wishes make none. */
function frontOf(columns: readonly Float64Array[], wishes: readonly Wish[]): ReadonlySet<number> | null {
  if (wishes.length < 2) return null;
  return new Set(
    paretoFront(
      wishes.map(({ figure }) => columns[figure]!),
      wishes.map(({ wish }) => (wish === 'lowest' ? 'low' : 'high')),
    ),
  );
}

/** Rows of the lowest and of the highest value; -1 for a column without any. */
function extremes(column: Float64Array): { readonly low: number; readonly high: number } {
  let [low, high] = [-1, -1];
  for (const [row, value] of column.entries()) {
    if (Number.isNaN(value)) continue;
    if (low < 0 || value < column[low]!) low = row;
    if (high < 0 || value > column[high]!) high = row;
  }
  return { low, high };
}

function endsOf(
  figure: StudyFigure,
  column: Float64Array,
): {
  readonly key: string;
  readonly figure: StudyFigure;
  readonly which: string;
  readonly row: number;
  readonly value: number;
}[] {
  const { low, high } = extremes(column);
  if (low < 0) return [];
  const key = figureKey(figure);
  return [
    { key: `${key}_lowest`, figure, which: 'lowest', row: low, value: column[low]! },
    { key: `${key}_highest`, figure, which: 'highest', row: high, value: column[high]! },
  ];
}

/** `9.2 for the drive ratio of the van car, sport`. */
function placeText(study: Study, axes: readonly Axis[], place: readonly number[], system: System): string {
  return axes
    .map((axis, k) =>
      axis.names.length > 0
        ? axis.names[place[k]!]!
        : `${formatQuantity(axis.values[place[k]!]!, axis.unit, axis.display[system])} for the ${pathWords(axis.path, study)}`,
    )
    .join(', ');
}

/** Where a figure is best, or lowest and highest where neither is better; and whether the best lies at the end of what was swept. */
function figureVerdict(
  study: Study,
  figure: StudyFigure,
  column: Float64Array,
  axes: readonly Axis[],
  placesOf: (row: number) => readonly number[],
  system: System,
): string[] {
  const { low, high } = extremes(column);
  if (low < 0) return [`${figureHead(figure)}: no run has an answer`];
  const told = (row: number): string =>
    `${figureText(figure, column[row]!, system)} with ${placeText(study, axes, placesOf(row), system)}`;
  if (figure.better === null) return [`${figureHead(figure)}: from ${told(low)} to ${told(high)}`];
  const [best, worst] = figure.better === 'low' ? [low, high] : [high, low];
  const place = placesOf(best);
  const atEnd = axes.filter(
    ({ names, values }, k) => names.length === 0 && values.length > 2 && [0, values.length - 1].includes(place[k]!),
  );
  const end =
    atEnd.length === 0
      ? ''
      : `; that is the end of what was swept of the ${atEnd.map(({ path }) => pathWords(path, study)).join(' and the ')}`;
  return [`${figureHead(figure)}: best ${told(best)}${end}; worst ${told(worst)}`];
}
