/** What samples say of the rows of a study: the intervals of a comparison and of a sweep. */
import { item } from '../../columns.ts';
import type { Column, Coverage, Holes, Intervals, Result } from '../../runs/result.ts';
import { figureColumn, figureKey } from '../question/figures.ts';
import type { Study } from '../question/figures.ts';
import { figureCoverages } from '../statistics/figure-coverage.ts';

/** Samples of each row, by the same draws in all of them. */
export interface RowSamples {
  readonly samples: number;
  readonly seed: number;
  /** Of each row in turn, of each key in turn; NaN without an answer. */
  readonly columns: readonly (readonly Float64Array[])[];
  /** Why a sample of a row lacks figures, in the form of `why-not.ts`. */
  readonly codes: readonly (readonly string[])[];
}

/** Of what the intervals are. */
export interface SampledStudy {
  readonly study: Study;
  readonly probability: number;
  /** Uncertain inputs that were drawn. */
  readonly inputs: number;
}

/**
 * A comparison with the intervals of its figures and of their differences to the first car, under the keys of its summary and of its table with
 * the car in front. A car that is that of the runs has their own.
 * @param keyOf the key of a figure of a car. @param own the interval that a run of the page has of a figure already.
 */
export function comparedWithin(
  result: Result,
  { study, probability, inputs }: SampledStudy,
  cars: readonly { readonly name: string; readonly own: (figure: number) => Coverage | undefined }[],
  keyOf: (car: string, figure: number) => string,
  { samples, seed, columns, codes }: RowSamples,
): Result {
  const of: { [key: string]: Coverage } = {};
  const holes: { [key: string]: Holes } = {};
  const first = item(columns, 0);
  for (const [k, { name, own }] of cars.entries()) {
    const keys = study.figures.map((_, figure) => keyOf(name, figure));
    const values = keys.map(key => numberOrNull(result.summary[key]));
    const code = (sample: number): string => item(item(codes, k), sample);
    const found = figureCoverages({ keys, values, columns: item(columns, k), code }, probability);
    Object.assign(of, found.of);
    Object.assign(holes, found.holes);
    for (const [figure, key] of keys.entries()) {
      const ran = own(figure);
      if (ran !== undefined) of[key] = ran;
    }
    if (k === 0) continue;
    const changes = item(columns, k).map((column, figure) =>
      column.map((value, row) => value - at(first, figure, row)),
    );
    const differences = figureCoverages(
      { keys: keys.map(changeKey), values: values.map(() => null), columns: changes, code: () => '' },
      probability,
    );
    Object.assign(of, differences.of);
  }
  const intervals: Intervals = { probability, samples, seed, inputs, of, holes };
  return { ...result, intervals };
}

/** Of the interval of a difference to the first car. */
function changeKey(key: string): string {
  return `${key}_change`;
}

/** A sweep with the intervals of its figures at each point, as a series of their ends beside that of the points. */
export function sweptWithin(
  result: Result,
  { study, probability, inputs }: SampledStudy,
  { samples, seed, columns }: RowSamples,
): Result {
  const ends: { [key: string]: Column } = {};
  for (const [figure, each] of study.figures.entries()) {
    const key = figureKey(each);
    const rows = columns.map(
      row =>
        figureCoverages({ keys: [key], values: [null], columns: [item(row, figure)], code: () => '' }, probability).of[
          key
        ],
    );
    for (const end of ['low', 'high'] as const) {
      const column = figureColumn(
        each,
        Float64Array.from(rows, row => row?.[end] ?? Number.NaN),
      );
      ends[`${key}_${end}`] = { ...column, label: `${column.label}, ${end} end` };
    }
  }
  return {
    ...result,
    series: { ...result.series, within: ends },
    intervals: { probability, samples, seed, inputs, of: {}, holes: {} },
  };
}

function at(columns: readonly Float64Array[], figure: number, row: number): number {
  return item(columns, figure)[row] ?? Number.NaN;
}

function numberOrNull(value: number | string | null | undefined): number | null {
  return typeof value === 'number' ? value : null;
}
