/** The options of a run, checked: a misspelled name or a number that none can be would be passed over in silence, or answered with nonsense. */
import { checkCar } from './checked-car.ts';
import { oneOf, refused, type Rule, type Rules, within } from './rules.ts';
import type { Car, Surroundings } from '../model/car.ts';
import type { NumberField } from '../model/fields/field.ts';
import { SpecError } from '../model/fields/spec-error.ts';
import { unknownKey, unknownOption } from '../model/fields/unknown-key.ts';
import { surroundingsFields } from '../model/surroundings-fields.ts';
import { nearest } from '../units/nearest.ts';

/**
 * @param required names without which there is no question.
 * @throws SpecError for a car that is not complete; for a name that has no rule, with the nearest that has one; for one that is missing; and as the rules do.
 */
export function checkOptions<T extends object>(
  car: Car,
  options: T,
  rules: Rules<T>,
  required: readonly (keyof T & string)[],
): void {
  checkCar(car);
  if (typeof options !== 'object' || options === null)
    throw new SpecError('', `the options are missing; expected ${required.join(', ')}`, '', '', 'missing');
  const found = unknownKey(options, { ...rules, ...BESIDE });
  if (found !== null) throw unknownOption(found.key, found);
  for (const key of Object.keys(rules) as (keyof T & string)[]) {
    const value = options[key];
    if (value !== undefined || required.includes(key)) rules[key](value, key);
  }
}

/** What `completeSurroundings` gives beside the surroundings: all of it may be handed on. */
const BESIDE = { inputs: true };

/** @param known names of figures. @throws SpecError for a wanted figure that there is none of: it would be left out in silence. */
export function checkWanted(wanted: readonly string[] | undefined, known: readonly string[]): void {
  const given: unknown = wanted;
  if (given !== undefined && !Array.isArray(given)) throw refused('wanted', given, 'a list of figures');
  for (const [place, key] of wanted?.entries() ?? []) {
    if (known.includes(key)) continue;
    const meant = nearest(key, known);
    const hint = meant === '' ? '' : `; did you mean "${meant}"?`;
    const path = `wanted[${place}]`;
    throw new SpecError(path, `${path}: no figure is called "${key}"${hint}`, known.join(', '), meant, 'unknown');
  }
}

/** m/s. */
export const SPEED = within(0, 150, 'm/s');
/** K, of the air or of what stands in it. */
export const TEMPERATURE = within(surroundingsFields.temperature.min, 400, 'K');

export const FUNCTION: Rule = (value, path) => {
  if (typeof value !== 'function') throw refused(path, value, 'a function');
};

/** @throws SpecError for a car, a place or a day that can not be. */
export function checkWhere(car: Car, surroundings: Surroundings): void {
  checkCar(car);
  SURROUNDINGS(surroundings, 'surroundings');
}

const WHOLE = 'what completeSurroundings gives: completeSurroundings({}).surroundings';

/** Where and when: whole, each number within the limits of its field. */
export const SURROUNDINGS: Rule = (value, path) => {
  const given = value as Partial<Record<keyof Surroundings, unknown>>;
  if (typeof value !== 'object' || value === null) throw refused(path, value, WHOLE);
  for (const [key, field] of Object.entries(surroundingsFields) as [keyof Surroundings, NumberField][]) {
    const own = `${path}.${key}`;
    if (given[key] === undefined) throw refused(own, undefined, WHOLE);
    if (field.kind === 'number') within(field.min, field.max, field.unit === '1' ? '' : field.unit)(given[key], own);
    else oneOf(surroundingsFields.surface.choices)(given[key], own);
  }
};
