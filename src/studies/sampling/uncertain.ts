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
}

export function drawsOf(inputs: readonly Uncertain[]): Draw[] {
  return inputs.map(({ value, spread, min, max }) =>
    drawOf(value, spread, { ...(min !== undefined && { min }), ...(max !== undefined && { max }) }),
  );
}

/** The changes that a sample means. */
export function changesOf(inputs: readonly Uncertain[], x: Float64Array): Change[] {
  return inputs.map(({ path }, k) => ({ path, value: x[k]!, drawn: true }));
}
