/** Values of number fields as a user would write them. */
import { toDisplay } from '../../src/units.ts';
import type { NumberField } from '../../src/model/fields/field.ts';
import type { Random } from './random.ts';

/** Digits that people write; all of them where the last one matters. */
export type Digits = number | 'all';

/** A value in SI units, in the unit for people of the field. */
export function quantity(field: Pick<NumberField, 'unit' | 'display'>, value: number, digits: Digits = 5): string {
  const unit = field.display.metric;
  const shown = toDisplay(value, field.unit, unit);
  const text = digits === 'all' ? String(shown) : String(Number(shown.toPrecision(digits)));
  return unit === '1' ? text : `${text} ${unit}`;
}

/** Anything that the limits of the field allow: its ends, nothing, the usual, or in between in one way or another. */
export function anyValue(random: Random, { min, max, default: usual }: NumberField): number {
  const kind = random.next();
  if (kind < 0.08) return min;
  if (kind < 0.16) return max;
  if (kind < 0.2 && min <= 0 && max >= 0) return 0;
  if (kind < 0.45 && usual !== undefined) return inside(usual.value * random.between(0.5, 1.5), min, max);
  if (kind < 0.75 && max > 0) return random.spread(Math.max(min, max * 1e-6), max);
  return random.between(min, max);
}

function inside(value: number, min: number, max: number): number {
  return value < min ? min : value > max ? max : value;
}
