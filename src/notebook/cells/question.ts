/** A run cell as a question in plain data, for the studies that run it again. */
import type { SurroundingsSpec } from '../../model/spec.ts';
import type { Question, Run } from '../../runs/answer/question.ts';
import type { World } from '../context.ts';
import type { FieldValues } from '../fields/read-context.ts';

/** Undefined where the cell names no car. @param name of the run cell. */
export function questionOf(car: unknown, name: string, run: Run, world: World): Question | undefined {
  const product = typeof car === 'string' ? world.given(car)?.product : undefined;
  if (typeof car !== 'string' || product?.kind !== 'car') return undefined;
  return { car, name, spec: product.spec, measured: [...product.measured], run };
}

const WHERE = ['temperature', 'altitude', 'humidity', 'wind', 'slope', 'surface'] as const;

/** What a cell says of where and when. */
export function whereOf(values: FieldValues): SurroundingsSpec {
  return Object.fromEntries(WHERE.flatMap(key => (values[key] === undefined ? [] : [[key, values[key]]])));
}

/** The numbers among some fields of a cell that are written. */
export function writtenNumbers<K extends string>(
  values: FieldValues,
  keys: readonly K[],
): { readonly [key in K]?: number } {
  const found: { [key in K]?: number } = {};
  for (const key of keys) {
    const value = values[key];
    if (typeof value === 'number') found[key] = value;
  }
  return found;
}
