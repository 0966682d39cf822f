/** A number that is possible but seldom meant. */
import type { NumberField } from './field.ts';

/** A sentence without a full stop; '' for a number that cars have. @param shown the number, and the ends of what is usual, with their unit. */
export function unusual(
  path: string,
  value: number,
  { usual }: Pick<NumberField, 'usual'>,
  shown: (value: number) => string,
): string {
  if (usual === undefined || (value >= usual[0] && value <= usual[1])) return '';
  const cars = `${shown(usual[0])} to ${shown(usual[1])}`;
  return `${path}: ${shown(value)} is unusual, ${cars} is what cars have: is a digit or the unit wrong?`;
}
