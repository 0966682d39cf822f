/** The options of a run, checked for names that it does not have: a misspelled one would be passed over in silence. */
import { SpecError } from '../model/fields/spec-error.ts';
import { unknownKey } from '../model/fields/unknown-key.ts';

/** @throws SpecError for a name that is none of `known`, with the nearest that is. */
export function refuseUnknown<T extends object>(
  options: T,
  known: { readonly [key in keyof Required<T>]: true },
): void {
  const found = unknownKey(options, known);
  if (found !== null) throw new SpecError(found.key, found.message, found.expected, found.nearest);
}
