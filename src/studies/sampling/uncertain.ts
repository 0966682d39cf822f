/** Uncertain inputs of a subject: where they stand, and how they are drawn. */
import type { Spread } from '../../model/fields/input.ts';
import type { Change } from '../../runs/answer/change.ts';
import { drawOf } from './draw.ts';
import type { Draw } from './draw.ts';

/** One input with a spread; plain data. */
export interface Uncertain {
  /** With the name of the car or run in front. */
  readonly path: string;
  readonly value: number;
  readonly spread: Spread;
  /** Limits of its field. */
  readonly min?: number;
  readonly max?: number;
  /** Other values that go along with this one in proportion. */
  readonly carries?: readonly { readonly path: string; readonly value: number }[];
}

export function drawsOf(inputs: readonly Uncertain[]): Draw[] {
  return inputs.map(({ value, spread, min, max }) =>
    drawOf(value, spread, { ...(min !== undefined && { min }), ...(max !== undefined && { max }) }),
  );
}

/** The changes that a sample means. */
export function changesOf(inputs: readonly Uncertain[], x: Float64Array): Change[] {
  const values = new Map(inputs.map(({ path }, k) => [path, x[k] ?? Number.NaN]));
  for (const [k, { value, carries = [] }] of inputs.entries()) {
    const factor = (x[k] ?? Number.NaN) / value;
    for (const other of carries) values.set(other.path, factor * (values.get(other.path) ?? other.value));
  }
  return Array.from(values, ([path, value]) => ({ path, value, drawn: true }));
}

/** The changes that another value of one input means, all others as they are. */
export function changesOfOne({ path, value, carries = [] }: Uncertain, other: number): Change[] {
  return [{ path, value: other }, ...carries.map(each => ({ path: each.path, value: (each.value * other) / value }))];
}
