/** Which inputs of a run are uncertain, with the limits of their fields. */
import type { Fields, NumberField } from '../model/fields/field.ts';
import { fieldKey } from '../model/fields/filler.ts';
import type { Input } from '../model/fields/input.ts';
import { carFields, surroundingsFields } from '../model/spec.ts';
import { valueAt } from '../runs/answer/change.ts';
import { runKindOf } from '../runs/kinds.ts';
import type { Question } from '../runs/answer/question.ts';
import { joined } from '../studies/sampling/joint.ts';
import type { Uncertain } from '../studies/sampling/uncertain.ts';
import { fitting, type Known } from './drawn-pairs.ts';
import { limitsOfFiles } from './limits-of-files.ts';

const SURFACES: readonly string[] = surroundingsFields.surface.choices;

/** In the order of the inputs; text, what belongs to other cells, and the friction of another surface are left out. */
export function uncertainOf(question: Question, inputs: readonly Input[]): Uncertain[] {
  const { car, name, run, spec, measured } = question;
  const here = typeof run.values['surface'] === 'string' ? run.values['surface'] : 'dry';
  const others = SURFACES.filter(surface => surface !== here).join('|');
  const elsewhere = new RegExp(`\\.(?:${others})_(?:peak|slide|slide_share)$`, 'u');
  const drawn: Uncertain[] = [];
  const known = new Map<string, Known>();
  for (const { path, value, spread } of inputs) {
    if (typeof value !== 'number') continue;
    const [head = '', ...rest] = path.split('.');
    if (head !== car && head !== name) continue;
    const field = numberFieldAt(head === car ? carFields : runKindOf(run.kind).fields, rest);
    if (field === null) continue;
    const written = head === car && valueAt(spec, rest.join('.')) !== undefined;
    known.set(path, { value, written, field });
    if (spread === undefined || elsewhere.test(path)) continue;
    drawn.push({ path, value, spread, min: field.min, max: field.max });
  }
  return joined(fitting(limitsOfFiles(drawn, measured, known), known), question.joint ?? []);
}

/** The number field at a path in words of the notebook; null where there is none. */
export function numberFieldAt(fields: Fields, [head = '', ...rest]: readonly string[]): NumberField | null {
  const key = fieldKey(head);
  const field = Object.hasOwn(fields, key) ? fields[key] : undefined;
  if (field === undefined) return null;
  if (rest.length === 0) return field.kind === 'number' ? field : null;
  return field.kind === 'group' ? numberFieldAt(field.fields, rest) : null;
}
