/** What is possible but seldom meant: values that hardly any car has, and spreads as wide as their value. */
import type { Fields } from '../../model/fields/field.ts';
import { unusual } from '../../model/fields/unusual.ts';
import type { Input } from '../../model/fields/input.ts';
import { shippedParts } from '../../model/parts/shipped.ts';
import { formatQuantity, type System } from '../../units.ts';
import { numberFieldAt } from '../../model/fields/at.ts';
import { displayOf } from './describe.ts';

/** Share of a value above which its standard uncertainty is questioned: draws would come near nothing. Common practice, no source. */
const WIDE = 1 / 3;

/** The value that stands beside a path under another key. */
function beside(inputs: readonly Input[], path: string, key: string): Input['value'] | undefined {
  const own = path.replace(/[^.]*$/u, key);
  return inputs.find(input => input.path === own)?.value;
}

/** Share by which a capacity may differ from that of the cell it is written on, as an aged one does. Common practice, no source. */
const AGED = 0.2;

/** A cell of another size that keeps the current and the resistance of the one that ships: its capacity alone was written. */
function resized(inputs: readonly Input[], path: string, value: number): string {
  if (!path.endsWith('.cell.capacity')) return '';
  const most = inputs.find(input => input.path === path.replace(/capacity$/u, 'max_current'));
  if (most?.origin.kind !== 'assumed') return '';
  const { source } = most.origin;
  const base = shippedParts('cell').find(
    ({ source: own, values }) => own === source && values.maxCurrent === most.value,
  );
  if (base === undefined || Math.abs(value / base.values.capacity - 1) <= AGED) return '';
  const ah = (coulombs: number): string => formatQuantity(coulombs, 'C', 'Ah');
  return `${path}: ${ah(value)} on ${base.name}, which has ${ah(base.values.capacity)}: max_current, and resistance and mass where none is written, are still those of that cell; write what the sheet of this one says`;
}

/** A sentence for each, without a full stop. @param inputs of one cell. @param fields of that cell. */
export function oddities(inputs: readonly Input[], fields: Fields, system: System): readonly string[] {
  return inputs.flatMap(({ path, value, origin, spread }): string[] => {
    if (typeof value !== 'number' || origin.kind === 'assumed') return [];
    const field = numberFieldAt(fields, path.split('.').slice(1));
    if (field === null) return [];
    const shown = (amount: number): string => formatQuantity(amount, field.unit, displayOf(field, system));
    const found: string[] = [];
    const odd = unusual(path, value, field, shown, beside(inputs, path, 'size'));
    if (odd !== '') found.push(odd);
    const other = resized(inputs, path, value);
    if (other !== '') found.push(other);
    // Where nothing lies below 0, a value has a size that a spread can be held against; a temperature has not.
    if (spread?.kind === 'normal' && field.min >= 0 && field.unit !== 'K' && spread.standard > WIDE * Math.abs(value)) {
      const share = Math.round((100 * spread.standard) / Math.abs(value));
      if (value !== 0)
        found.push(`${path}: a standard uncertainty of ${share} % of ${shown(value)}: is the spread right?`);
    }
    return found;
  });
}
