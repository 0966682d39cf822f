/** Which car of a comparison is the best in a figure, and in how many samples it is. */
import { item } from '../../columns.ts';
import type { Figure } from '../search/gain.ts';
import type { StudyFigure } from '../question/figures.ts';

/** A figure with its value for each car in turn. */
export interface CompareColumn {
  readonly figure: StudyFigure;
  /** Whether it is one of the standing car. */
  readonly own: boolean;
  readonly values: readonly Figure[];
  /** Share of the samples in which its best car is the best, where that is not sure; null where it is, or nobody knows. */
  readonly unsure: number | null;
}

/** What each car in turn breaks of the masses that are permitted. */
export type Broken = readonly (readonly string[])[];

/** Differences below this share of the figure are none. */
const NOTHING = 1e-3;

/** The best car of a figure; null where neither high nor low is better, where several are as good, and where no car keeps the limits. */
export function bestName(column: CompareColumn, cars: readonly string[], broken: Broken): string | null {
  const best = bestOnes(column, cars, broken);
  return best.length === 1 ? (best[0] ?? null) : null;
}

/** The cars that none is better than, of those that keep the limits; none where there are not two answers that differ. */
export function bestOnes(
  { figure, values }: CompareColumn,
  cars: readonly string[],
  broken: Broken,
): readonly string[] {
  const known = cars.flatMap((car, k) => {
    const value = values[k] ?? null;
    return value === null ? [] : [{ value, car, kept: keeps(broken, k) }];
  });
  const all = known.map(({ value }) => value);
  if (figure.better === null || known.length < 2 || alike(Math.min(...all), Math.max(...all))) return [];
  const kept = known.filter(each => each.kept);
  const choose = figure.better === 'low' ? Math.min : Math.max;
  const first = choose(...kept.map(({ value }) => value));
  return kept.filter(({ value }) => alike(first, value)).map(({ car }) => car);
}

/**
 * Share of the samples, 0 to 1, in which no other car that keeps the limits is better than the best one; null where there is none, or no
 * sample of it has an answer. @param samples of each car in turn, by the same draws in all; NaN without an answer.
 */
export function bestShare(
  column: CompareColumn,
  cars: readonly string[],
  broken: Broken,
  samples: readonly Float64Array[],
): number | null {
  const best = bestName(column, cars, broken);
  if (best === null) return null;
  const sign = column.figure.better === 'low' ? -1 : 1;
  const own = item(samples, cars.indexOf(best));
  const others = samples.filter((_, k) => cars[k] !== best && keeps(broken, k));
  const known = Array.from(own.keys()).filter(row => !Number.isNaN(own[row]));
  const beaten = known.filter(row => others.some(other => sign * (other[row] ?? Number.NaN) > sign * (own[row] ?? 0)));
  return known.length === 0 ? null : 1 - beaten.length / known.length;
}

function keeps(broken: Broken, k: number): boolean {
  return (broken[k] ?? []).length === 0;
}

const alike = (a: number, b: number): boolean => Math.abs(a - b) <= NOTHING * Math.abs(a);
