/** The options of a run, checked: a misspelled name or a number that none can be would be passed over in silence, or answered with nonsense. */
import type { Car, Surroundings } from '../model/car.ts';
import type { NumberField } from '../model/fields/field.ts';
import { SpecError } from '../model/fields/spec-error.ts';
import { unknownError, unknownKey } from '../model/fields/unknown-key.ts';
import { surroundingsFields } from '../model/surroundings-fields.ts';
import { nearest } from '../units/nearest.ts';

/** Looks at one option that is there. @throws SpecError at `path`. */
export type Rule = (value: unknown, path: string) => void;

/** A rule for each option; `required` for what must be there. */
export type Rules<T> = { readonly [key in keyof Required<T>]: Rule };

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
  if (found !== null) throw unknownError(found.key, found);
  for (const key of required)
    if (options[key] === undefined) throw new SpecError(key, `${key} is missing`, '', '', 'missing');
  for (const key of Object.keys(rules) as (keyof T & string)[]) {
    const value = options[key];
    if (value !== undefined) rules[key](value, key);
  }
}

/** What describes a car, and what `completeCar` gives with its list of inputs, are both taken for the car itself. */
function checkCar(car: Partial<Car> | null | undefined): void {
  if (Array.isArray(car?.drives)) return;
  const expected = 'a complete car: completeCar(spec).car';
  throw new SpecError('car', `the car is not complete; expected ${expected}`, expected, '', 'outside');
}

/** What `completeSurroundings` gives beside the surroundings: all of it may be handed on. */
const BESIDE = { inputs: true };

/** @param known names of figures. @throws SpecError for a wanted figure that there is none of: it would be left out in silence. */
export function checkWanted(wanted: readonly string[] | undefined, known: readonly string[]): void {
  for (const [place, key] of wanted?.entries() ?? []) {
    if (known.includes(key)) continue;
    const meant = nearest(key, known);
    const hint = meant === '' ? '' : `; did you mean "${meant}"?`;
    const path = `wanted[${place}]`;
    throw new SpecError(path, `${path}: no figure is called "${key}"${hint}`, known.join(', '), meant, 'unknown');
  }
}

/** A number from `low` to `high`, in SI; `unit` is for the complaint. */
export function within(low: number, high: number, unit = ''): Rule {
  return (value, path) => {
    if (typeof value === 'number' && value >= low && value <= high) return;
    const limits = `${Number(low.toPrecision(6))} to ${Number(high.toPrecision(6))}${unit === '' ? '' : ` ${unit}`}`;
    throw new SpecError(path, `${path} is ${shown(value)}; expected ${limits}`, limits, '', 'outside');
  };
}

export const SHARE = within(0, 1);
/** m/s. */
export const SPEED = within(0, 150, 'm/s');
/** K, of the air or of what stands in it. */
export const TEMPERATURE = within(surroundingsFields.temperature.min, 400, 'K');

/** One word out of some. */
export function oneOf(words: readonly string[]): Rule {
  return (value, path) => {
    if (typeof value === 'string' && words.includes(value)) return;
    const known = words.join(', ');
    throw new SpecError(path, `${path} is ${shown(value)}; expected one of ${known}`, known, '', 'choice');
  };
}

/** A list, each of which keeps a rule. */
export function each(rule: Rule): Rule {
  return (value, path) => {
    if (!Array.isArray(value))
      throw new SpecError(path, `${path} is ${shown(value)}; expected a list`, 'a list', '', 'outside');
    for (const [place, one] of value.entries()) rule(one, `${path}[${place}]`);
  };
}

/** A function, or plain data that the run itself looks at. */
export const ANY: Rule = () => {};

/** Where and when: whole, each number within the limits of its field. */
export const SURROUNDINGS: Rule = (value, path) => {
  const given = value as Partial<Record<keyof Surroundings, unknown>>;
  if (typeof value !== 'object' || value === null)
    throw new SpecError(
      path,
      `${path} is ${shown(value)}; expected what completeSurroundings gives`,
      'what completeSurroundings gives',
      '',
      'outside',
    );
  for (const [key, field] of Object.entries(surroundingsFields) as [keyof Surroundings, NumberField][]) {
    const own = `${path}.${key}`;
    if (given[key] === undefined)
      throw new SpecError(own, `${own} is missing`, 'what completeSurroundings gives', '', 'missing');
    if (field.kind === 'number') within(field.min, field.max, field.unit === '1' ? '' : field.unit)(given[key], own);
    else oneOf(surroundingsFields.surface.choices)(given[key], own);
  }
};

function shown(value: unknown): string {
  if (value === null || value === undefined) return 'nothing';
  return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean'
    ? String(value)
    : typeof value;
}
