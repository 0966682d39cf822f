/** What a car cell says of inputs that were measured together: their covariance, or how they are correlated. */
import { item, nth } from '../../columns.ts';
import type { Field } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { Joint } from '../../runs/answer/question.ts';
import { cholesky } from '../../studies/sampling/joint.ts';
import type { FieldValues } from '../fields/read-context.ts';
import { nearest } from '../../units/nearest.ts';

export const togetherField = {
  kind: 'groups',
  doc: 'inputs of this car that were measured together, each group with a covariance or a correlation (JCGM 101:2008, 6.4.8)',
  fields: {
    inputs: { kind: 'words', doc: 'paths below the car, such as road_load.f0', required: true },
    covariance: {
      kind: 'numbers',
      unit: '1',
      min: -1e30,
      max: 1e30,
      doc: 'in the products of their SI units, row by row: all of it, or each row up to its diagonal',
    },
    correlation: {
      kind: 'numbers',
      unit: '1',
      min: -1,
      max: 1,
      doc: 'in place of the covariance, likewise: each input then has its own ±',
    },
  },
} as const satisfies Field;

/** As the field table reads it. */
export interface Group {
  readonly inputs?: readonly string[];
  readonly covariance?: readonly number[];
  readonly correlation?: readonly number[];
  /** Of a part that was measured together with others: the whole of that, and what each of these inputs is called in it. */
  readonly origin?: { readonly whole: Group; readonly called: readonly string[] };
}

/** What the cell says, from the values that were read by its table. */
export function togetherOf({ together }: FieldValues): readonly Group[] {
  // The table of fields has held it to this shape.
  return (together ?? []) as readonly Group[];
}

/** The groups of a car, and its inputs with the spreads that they say. @throws SpecError at the field in question. */
export function readTogether(
  groups: readonly Group[],
  name: string,
  inputs: readonly Input[],
): { readonly joint: readonly Joint[]; readonly inputs: readonly Input[] } {
  const seen = new Set<string>();
  const joint = groups.map((group, k): Joint => {
    const at = `${name}.together[${k + 1}]`;
    const members = (group.inputs ?? []).map(path => memberOf(path, `${at}.inputs`, name, inputs));
    if (members.length < 2) throw new SpecError(`${at}.inputs`, 'are fewer than two', 'two paths or more');
    for (const { path } of members) {
      if (seen.has(path)) throw new SpecError(`${at}.inputs`, `"${path}" stands there twice`, 'each input once');
      seen.add(path);
    }
    return { paths: members.map(({ path }) => path), covariance: covarianceOf(group, at, members) };
  });
  return { joint, inputs: inputs.map(input => withStandard(input, joint)) };
}

/** The same groups, each by its covariance: a correlation leans on spreads that stand beside it. @throws SpecError */
export function withCovariance(groups: readonly Group[], name: string, inputs: readonly Input[]): readonly Group[] {
  const { joint } = readTogether(groups, name, inputs);
  return joint.map(({ paths, covariance }) => ({
    inputs: paths.map(path => path.slice(name.length + 1)),
    covariance: covariance.flat(),
  }));
}

function memberOf(path: string, at: string, name: string, inputs: readonly Input[]): Input {
  const found = inputs.find(input => input.path === `${name}.${path}` && typeof input.value === 'number');
  if (found !== undefined) return found;
  const known = inputs.filter(({ value }) => typeof value === 'number').map(each => each.path.slice(name.length + 1));
  throw new SpecError(
    at,
    `"${path}" is no number of this car or part`,
    `the path of one, such as ${nearest(path, known)}`,
  );
}

function covarianceOf({ covariance, correlation }: Group, at: string, members: readonly Input[]): number[][] {
  if ((covariance === undefined) === (correlation === undefined)) {
    throw new SpecError(at, 'has not one of covariance and correlation', 'one of the two');
  }
  const key = covariance === undefined ? 'correlation' : 'covariance';
  const given = square(covariance ?? correlation ?? [], members.length, `${at}.${key}`);
  if (covariance === undefined && given.some((row, i) => row[i] !== 1)) {
    throw new SpecError(
      `${at}.correlation`,
      'has another number than 1 on its diagonal',
      '1 for each input with itself',
    );
  }
  const standard = members.map(member => (covariance === undefined ? standardOf(member, at) : 1));
  const whole = given.map((row, i) => row.map((value, j) => value * nth(standard, i) * nth(standard, j)));
  if (cholesky(whole) === null || whole.some((row, i) => !(nth(row, i) > 0))) {
    throw new SpecError(
      `${at}.${key}`,
      'is not positive semidefinite: no measurement has it',
      'the matrix of the fit with all its digits, symmetric, with variances above 0 on its diagonal',
    );
  }
  return whole;
}

function standardOf({ path, spread }: Input, at: string): number {
  if (spread === undefined)
    throw new SpecError(`${at}.correlation`, `needs the ± of ${path}, which has none`, '± behind its value');
  return spread.kind === 'normal' ? spread.standard : (spread.high - spread.low) / Math.sqrt(12);
}

/** Row by row: all of a square, or its lower triangle. */
function square(values: readonly number[], size: number, at: string): number[][] {
  const rows = Array.from({ length: size }, (_, k) => k);
  if (values.length === size * size) return rows.map(i => values.slice(i * size, (i + 1) * size));
  if (values.length === (size * (size + 1)) / 2) {
    const place = (i: number, j: number): number => (Math.max(i, j) * (Math.max(i, j) + 1)) / 2 + Math.min(i, j);
    return rows.map(i => rows.map(j => item(values, place(i, j))));
  }
  const expected = `${size * size} numbers row by row, or the ${(size * (size + 1)) / 2} up to the diagonal`;
  throw new SpecError(at, `has ${values.length} numbers for ${size} inputs`, expected);
}

function withStandard(input: Input, joint: readonly Joint[]): Input {
  for (const { paths, covariance } of joint) {
    const k = paths.indexOf(input.path);
    if (k < 0) continue;
    const { spreadSource: _, ...rest } = input;
    return { ...rest, spread: { kind: 'normal', standard: Math.sqrt(nth(item(covariance, k), k)) } };
  }
  return input;
}
