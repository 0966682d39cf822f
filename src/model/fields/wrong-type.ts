/** A value that is of no kind that its field can be: a text where a number belongs, a number where a text does. */
import type { Field, Fields, NumbersField } from './field.ts';

export interface WrongType {
  readonly key: string;
  /** `is a text, "1240 kg"; expected a number in kg`, without the full stop. */
  readonly message: string;
}

/** The first value of `given` of a wrong kind, or with a number in a list that is outside its limits; null where there is none. What is left out, or has no field, is passed over. */
export function wrongType(given: { readonly [key: string]: unknown }, fields: Fields): WrongType | null {
  for (const [key, value] of Object.entries(given)) {
    const field = Object.hasOwn(fields, key) ? fields[key] : undefined;
    if (value === undefined || field === undefined) continue;
    if (!fits(value, field)) return { key, message: `is ${kindOf(value)}; expected ${wanted(field)}` };
    const beyond = field.kind === 'numbers' ? outsideOf(value, field) : '';
    if (beyond !== '') return { key, message: beyond };
  }
  return null;
}

/** The first number of a list that is outside the limits of its field. */
function outsideOf(value: unknown, { min, max, unit }: NumbersField): string {
  const list = Array.from(value as ArrayLike<number>);
  const place = list.findIndex(each => !(each >= min && each <= max));
  if (place < 0) return '';
  const limits = `${Number(min.toPrecision(6))} to ${Number(max.toPrecision(6))}${unit === '1' ? '' : ` ${unit}`}`;
  return `has ${list[place]} at [${place}]; expected ${limits}`;
}

function fits(value: unknown, field: Field): boolean {
  switch (field.kind) {
    case 'number':
      return typeof value === 'number';
    case 'group':
      return typeof value === 'object' && value !== null && !isList(value);
    case 'numbers':
      return isList(value) && Array.from(value).every(each => typeof each === 'number');
    case 'words':
    case 'groups':
      return isList(value);
    default:
      return typeof value === 'string';
  }
}

function isList(value: unknown): value is ArrayLike<unknown> {
  return Array.isArray(value) || ArrayBuffer.isView(value);
}

/** What stands there, in words. */
export function kindOf(value: unknown): string {
  if (value === null || value === undefined) return 'nothing';
  if (typeof value === 'string') return `a text, "${value}"`;
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  if (isList(value)) return 'a list';
  return typeof value === 'object' ? 'a group' : `a ${typeof value}`;
}

function wanted(field: Field): string {
  switch (field.kind) {
    case 'number':
      return `${field.unit === '1' ? 'a pure number' : `a number in ${field.unit}`}, or a text through readCar`;
    case 'numbers':
      return field.unit === '1' ? 'a list of pure numbers' : `a list of numbers in ${field.unit}`;
    case 'group':
      return 'a group of fields';
    case 'groups':
      return 'a list of groups';
    case 'words':
      return 'a list of words';
    case 'choice':
      return `one of ${field.choices.join(', ')}`;
    default:
      return `a text: ${field.doc}`;
  }
}
