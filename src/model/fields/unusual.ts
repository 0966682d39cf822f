/** A number that is possible but seldom meant. */
import type { NumberField } from './field.ts';

/** The size of a light commercial tyre, `195/75 R 16 C`. */
const LIGHT_COMMERCIAL = /R\s*\d+(?:\.5)?\s*C(?![A-Z])/iu;
/** Pa in them. Common practice, no source. */
const COMMERCIAL: readonly [number, number] = [200_000, 500_000];

/**
 * A sentence without a full stop; '' for a number that cars have. @param shown the number, and the ends of what is usual, with their unit.
 * @param size what stands as the size of a tyre beside it, if anything does.
 */
export function unusual(
  path: string,
  value: number,
  field: Pick<NumberField, 'usual'>,
  shown: (value: number) => string,
  size?: unknown,
): string {
  const commercial = path.endsWith('.pressure') && typeof size === 'string' && LIGHT_COMMERCIAL.test(size);
  const usual = commercial ? COMMERCIAL : field.usual;
  if (usual === undefined || (value >= usual[0] && value <= usual[1])) return '';
  const have = `${shown(usual[0])} to ${shown(usual[1])} is what ${commercial ? 'such tyres' : 'cars'} have`;
  return `${path}: ${shown(value)} is unusual, ${have}: is a digit or the unit wrong?`;
}
