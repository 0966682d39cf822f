/** What a study varies: a path of a car or of a run over values, or whole cars. */
import { fieldAt, nearestPath, numberFieldAt, pathsOf } from '../../model/fields/at.ts';
import { told } from '../../model/described.ts';
import type { NumberField } from '../../model/fields/field.ts';
import { notebookKey } from '../../model/fields/keys.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { carFields } from '../../model/spec.ts';
import type { Change } from '../../runs/answer/change.ts';
import { runKindOf } from '../../runs/kinds.ts';
import type { Study } from './figures.ts';

export interface Axis {
  /** With the name of the car or run in front; the word `car` for whole cars. */
  readonly path: string;
  readonly label: string;
  readonly unit: string;
  readonly display: { readonly metric: string; readonly imperial: string };
  /** SI, ascending as they are written; indices for cars. */
  readonly values: readonly number[];
  /** Names of the cars; empty for numbers. */
  readonly names: readonly string[];
  /** Whether the field takes whole numbers only. */
  readonly whole: boolean;
  /** The changes that a value means. */
  changes(value: number): readonly Change[];
}

/** A number of the car or of a run over values, in SI. */
export interface AxisSpec {
  /**
   * `drive.ratio` or `tyres.dryPeak` of the car, `car.drive.ratio` with its name in front, `dash.temperature` of a run; in words of the code
   * or of a notebook (`tyres.dry_peak`).
   */
  readonly path: string;
  readonly values: readonly number[];
}

/**
 * The axis of a number of a study.
 * @throws SpecError for a path that leads to no number, with the nearest that does, and for a value outside the limits of its field.
 */
export function axisAlong({ path, values }: AxisSpec, study: Study): Axis {
  return told(
    '',
    () => axisOf(path, values, study),
    asWritten => asWritten,
  );
}

function axisOf(path: string, values: readonly number[], study: Study): Axis {
  const { full, field } = numberOf(path, path, study);
  if (!Array.isArray(values) || values.length === 0)
    throw new SpecError(path, 'has no values', 'one number or more', '', 'missing');
  return numberAxis(path, full, field, values);
}

/** Axes as they are, or made of what is said of them. @throws SpecError as `axisAlong`. */
export function axesOf(axes: readonly (Axis | AxisSpec)[], study: Study): readonly Axis[] {
  return axes.map(axis => ('changes' in axis ? axis : axisAlong(axis, study)));
}

/** @param at where it is asked for, for complaints. @param path with the name of the car or run in front. @throws SpecError */
export function numberAxis(at: string, path: string, field: NumberField, values: readonly number[]): Axis {
  const { min, max, unit, display } = field;
  for (const value of values) {
    if (!(value >= min && value <= max))
      throw new SpecError(
        at,
        `${value} is outside ${min} to ${max}${unit === '1' ? '' : ` ${unit}`}`,
        '',
        '',
        'outside',
      );
  }
  const changes = (value: number): readonly Change[] => [{ path, value }];
  return { path, label: path, unit, display, values, names: [], whole: isCount(path), changes };
}

/** Whether a path leads to a count of things. */
export function isCount(path: string): boolean {
  return /(?:^|\.)(?:parallel|series|count|gear|phases|times)$/u.test(path);
}

/**
 * The number that a path means: of a run where its name stands in front, of the car otherwise.
 * @param at where it is asked for, for complaints.
 * @throws SpecError
 */
export function numberOf(
  at: string,
  written: string,
  study: Pick<Study, 'subject'>,
): { readonly full: string; readonly field: NumberField } {
  const [head = '', ...rest] = written.split('.');
  const { questions } = study.subject;
  const run = questions.find(({ name }) => name === head);
  const car = questions.find(question => question.car === head)?.car;
  const below = run !== undefined || car !== undefined ? rest : [head, ...rest];
  const fields = run === undefined ? carFields : runKindOf(run.run.kind).fields;
  const field = numberFieldAt(fields, below);
  if (field === null) {
    const keys = pathsOf(fields, 'numbers');
    const meant = nearestPath(below.join('.'), keys);
    const whole = run === undefined && fieldAt(fields, below) !== null ? ', or whole cars: - cars: [ONE, OTHER]' : '';
    throw new SpecError(
      at,
      `"${written}" is no number of ${run?.name ?? car ?? 'the car'}`,
      `a path such as ${meant === '' ? keys[0] : meant}${whole}`,
      '',
      'unknown',
    );
  }
  const whose = run?.name ?? car ?? questions[0]?.car ?? '';
  return { full: [whose, ...below.map(notebookKey)].join('.'), field };
}
