/** Which inputs of a run are uncertain, with the limits of their fields. */
import type { Fields, NumberField } from '../model/fields/field.ts';
import { fieldKey } from '../model/fields/filler.ts';
import type { Input } from '../model/fields/input.ts';
import { carFields, surroundingsFields } from '../model/spec.ts';
import type { Question } from '../runs/answer/question.ts';
import type { Uncertain } from '../studies/sampling/uncertain.ts';

/** In the order of the inputs; text, what belongs to other cells, and the friction of another surface are left out. */
export function uncertainOf({ car, name, run }: Question, inputs: readonly Input[]): Uncertain[] {
  const wet = 'where' in run && run.where.surface === 'wet';
  const elsewhere = wet ? /\.dry_(peak|slide)$/ : /\.wet_(peak|slide)$/;
  return inputs.flatMap(({ path, value, spread }): Uncertain[] => {
    if (spread === undefined || typeof value !== 'number' || elsewhere.test(path)) return [];
    const [head = '', ...rest] = path.split('.');
    if (head !== car && head !== name) return [];
    const field = numberFieldAt(head === car ? carFields : surroundingsFields, rest);
    if (field === null) return [];
    return [{ path, value, spread, min: field.min, max: field.max }];
  });
}

/** The number field at a path in words of the notebook; null where there is none. */
export function numberFieldAt(fields: Fields, [head = '', ...rest]: readonly string[]): NumberField | null {
  const key = fieldKey(head);
  const field = Object.hasOwn(fields, key) ? fields[key] : undefined;
  if (field === undefined) return null;
  if (rest.length === 0) return field.kind === 'number' ? field : null;
  return field.kind === 'group' ? numberFieldAt(field.fields, rest) : null;
}
