/** What may stand in a field, in words: the second half of every message about it. */
import type { Field, Fields, NumberField, NumbersField } from '../../model/fields/field.ts';
import { describeUnit, formatQuantity, type System } from '../../units.ts';
import { writtenKey } from './read-context.ts';

/** `a mass such as "1010 kg"`, `held or share`, `the name of a car cell`. */
export function describeField(field: Field): string {
  switch (field.kind) {
    case 'number': {
      const number = field.whole === true ? 'a whole number' : describeNumber(field);
      return field.words === undefined ? number : `${number}, or ${oneOf(Object.keys(field.words))}`;
    }
    case 'numbers':
      return `a list, each ${describeNumber(field)}`;
    case 'choice':
      return oneOf(field.choices);
    case 'text':
      return field.doc;
    case 'words':
      return field.to === undefined ? `a list: ${field.doc}` : `a list of names of ${oneOf(field.to)} cells`;
    case 'reference':
      return `the name of a ${oneOf(field.to)} cell`;
    case 'groups':
      return `a list of groups, a line each: - { ${firstKeys(field.fields).replaceAll(', ', ': ..., ')}: ... }`;
    case 'group': {
      const keys = firstKeys(field.fields);
      return field.part === '' ? `a group of ${keys} ...` : `the name of a part, or a group of ${keys} ...`;
    }
  }
  return field satisfies never;
}

/** `a mass such as "1010 kg"`; `a rise such as "50 K"` where degrees would say a temperature. */
export function describeNumber(field: NumberField | NumbersField): string {
  return isRise(field) ? 'a rise such as "50 K"' : describeUnit(field.unit);
}

/** K beyond which a field counts in kelvins what is no rise: an activation energy over the gas constant. */
const GREATEST_RISE = 1000;

/** Whether a field is by how much something is warmer, and no temperature. */
export function isRise({ unit, display, max }: NumberField | NumbersField): boolean {
  return unit === 'K' && display?.metric === 'K' && display.imperial === 'K' && max < GREATEST_RISE;
}

/** `300 kg to 5000 kg`, in the unit that people read. */
export function describeLimits(field: NumberField | NumbersField, system: System): string {
  const display = displayOf(field, system);
  const [low, high] = [field.min, field.max].map(limit =>
    Number.isFinite(limit) ? formatQuantity(limit, field.unit, display) : '',
  );
  if (low === '') return `at most ${high}`;
  return high === '' ? `at least ${low}` : `${low} to ${high}`;
}

export function displayOf(field: NumberField | NumbersField, system: System): string {
  return field.display?.[system] ?? field.unit;
}

function firstKeys(fields: Fields): string {
  return Object.keys(fields).slice(0, 3).map(writtenKey).join(', ');
}

function oneOf(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}
