/** What was meant where one value stands in the place of a group: `regeneration: none`, `supply: 10 A`. */
import type { Field, GroupField } from '../../model/fields/field.ts';
import { readQuantity, UnitError } from '../../units.ts';
import { writtenKey } from './read-context.ts';

/** The group with the value in the one field that takes it, as it is to be written; '' where none or several do. */
export function meantGroup(text: string, { fields }: Pick<GroupField, 'fields'>): string {
  const all = Object.entries(fields).filter(([, field]) => takes(field, text));
  // `10 A` is a current, and no `dc_current`.
  const isOther = (key: string): boolean => all.some(([own]) => writtenKey(key).endsWith(`_${writtenKey(own)}`));
  const needed = all.filter(([, { required }]) => required === true);
  // `trailer: 750 kg` is what it needs, its mass, and no load of the hitch.
  const takers = needed.length === 1 ? needed : all.filter(([key]) => !isOther(key));
  const [first] = takers;
  const needsMore = Object.entries(fields).some(([key, { required }]) => required === true && key !== first?.[0]);
  return first === undefined || takers.length > 1 || needsMore ? '' : `{ ${writtenKey(first[0])}: ${text.trim()} }`;
}

function takes(field: Field, text: string): boolean {
  if (field.kind === 'choice') return field.choices.includes(text);
  if (field.kind === 'text') return field.looks !== undefined && new RegExp(field.looks, 'iu').test(text);
  if (field.kind !== 'number') return false;
  try {
    const { value } = readQuantity(text, field.unit);
    // A bare number could be any of the pure numbers of a group.
    return value >= field.min && value <= field.max && field.unit !== '1';
  } catch (error) {
    if (error instanceof UnitError) return false;
    throw error;
  }
}
