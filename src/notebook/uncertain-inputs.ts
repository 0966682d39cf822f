/** Which inputs of a run are uncertain, with the limits of their fields. */
import { numberFieldAt } from '../model/fields/at.ts';
import type { NumberField } from '../model/fields/field.ts';
import type { Input, Spread } from '../model/fields/input.ts';
import { SpecError } from '../model/fields/spec-error.ts';
import { carFields } from '../model/spec.ts';
import { surroundingsFields } from '../model/surroundings-fields.ts';
import { valueAt } from '../runs/answer/change.ts';
import { runKindOf } from '../runs/kinds.ts';
import type { Question } from '../runs/answer/question.ts';
import { leavesNothing } from '../studies/sampling/draw.ts';
import { joined } from '../studies/sampling/joint.ts';
import type { Uncertain } from '../studies/sampling/uncertain.ts';
import { formatQuantity } from '../units/format.ts';
import { formatNumber } from '../units/number-text.ts';
import { leisureOf } from './cells/the-car.ts';
import { fitting, type Known } from './drawn-pairs.ts';
import { limitsOfFiles } from './limits-of-files.ts';

const SURFACES: readonly string[] = surroundingsFields.surface.choices;

/**
 * In the order of the inputs; text, what belongs to other cells, and the friction of another surface are left out.
 * @param inputs of its car and its run, their names in front: `studyOf([question]).inputs`, or those of `completeCar(spec, question.car)`.
 * @throws SpecError for a spread of which nothing lies within what its field may be, and for inputs none of which is of that car or run.
 */
export function uncertainOf(question: Question, inputs: readonly Input[]): Uncertain[] {
  const { car, name, run, spec, measured } = question;
  const runs = new Map([[name, run], ...(question.within ?? []).map(each => [each.name, each.run] as const)]);
  const here = [...runs.values()].map(({ values }) => values['surface'] ?? 'dry');
  const others = SURFACES.filter(surface => !here.includes(surface)).join('|');
  const elsewhere = new RegExp(`\\.(?:${others})_(?:peak|slide|slide_share)$`, 'u');
  const isOwn = ({ path }: Input): boolean => [car, ...runs.keys()].some(own => path.startsWith(`${own}.`));
  if (inputs.length > 0 && !inputs.some(isOwn)) {
    const cure = `studyOf([question]).inputs, or those of completeCar(spec, '${car}')`;
    throw new SpecError('inputs', `inputs: none is of ${car} or ${name}; expected ${cure}`, cure);
  }
  const drawn: Uncertain[] = [];
  const known = new Map<string, Known>();
  const dimensions = dimensionsOf(inputs);
  for (const { path, value, spread } of inputs) {
    if (typeof value !== 'number') continue;
    const [head = '', ...rest] = path.split('.');
    const own = runs.get(head);
    if (head !== car && own === undefined) continue;
    const field = numberFieldAt(own === undefined ? carFields : runKindOf(own.kind).fields, rest);
    if (field === null) continue;
    const written = head === car && valueAt(spec, rest.join('.')) !== undefined;
    known.set(path, { value, written, field });
    if (spread === undefined || elsewhere.test(path)) continue;
    const dimension = dimensions.get(path) ?? 0;
    drawn.push({ path, value, spread, min: field.min, max: field.max, dimension });
  }
  const limited = fitting(limitsOfFiles(drawn, measured, known), known);
  for (const input of limited)
    if (leavesNothing(input.spread, input)) throw beyond(input, known.get(input.path)?.field);
  return joined(limited, question.joint ?? []);
}

/**
 * The uncertain inputs of each car and run, numbered from 0 alike in every question to it: what a run at full pedal leaves out comes last.
 */
function dimensionsOf(inputs: readonly Input[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  const dimensions = new Map<string, number>();
  for (const { path } of inputs.filter(({ spread }) => spread !== undefined).toSorted(byLeisure)) {
    const [head = ''] = path.split('.');
    const count = counts.get(head) ?? 0;
    dimensions.set(path, count);
    counts.set(head, count + 1);
  }
  return dimensions;
}

function byLeisure(a: Input, b: Input): number {
  return leisureOf(a) - leisureOf(b);
}

function beyond({ path, spread, min, max, value }: Uncertain, field: NumberField | undefined): SpecError {
  const shown = (x: number | undefined, of?: Spread): string => {
    if (x === undefined || !Number.isFinite(x)) return 'any value';
    return field === undefined ? formatNumber(x) : formatQuantity(x, field.unit, field.display.metric, { spread: of });
  };
  return new SpecError(
    path,
    `can be off by ${shown(value, spread)}, of which nothing lies in ${shown(min)} to ${shown(max)}`,
    'another value, or a spread that reaches into it',
  );
}
