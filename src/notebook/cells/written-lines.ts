/** How calibrations write what they found into lines of a car cell. */
import { entryOf, type LocatedMap } from '../document/located.ts';

/** `from: NAME` where the car names a part there, which more lines would else take the place of. */
export function fromLine(map: LocatedMap, path: readonly string[], indent: number): readonly string[] {
  let here: LocatedMap = map;
  for (const [k, key] of path.entries()) {
    const value = entryOf(here, key)?.value;
    if (value?.kind === 'scalar' && k === path.length - 1) return [`${' '.repeat(indent)}from: ${value.text}`];
    if (value?.kind !== 'map') return [];
    here = value;
  }
  return [];
}

/** A number of a line, to more digits than anybody measures. */
export function said(value: number): string {
  return String(Number(value.toPrecision(8)));
}

/** A covariance row by row up to its diagonal, with all its digits. */
export function triangleOf(covariance: readonly (readonly number[])[]): string {
  return covariance.flatMap((row, i) => row.slice(0, i + 1).map(each => Number(each.toPrecision(12)))).join(', ');
}
