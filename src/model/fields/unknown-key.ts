/** A name in a specification that nothing there is called. */
import { nearest } from '../../units/nearest.ts';
import type { keyMeant } from './synonyms.ts';
import { SpecError } from './spec-error.ts';

export interface UnknownKey {
  readonly key: string;
  /** `unknown key "masss"; did you mean "mass"?` */
  readonly message: string;
  readonly expected: string;
  /** '' where none is near. */
  readonly nearest: string;
}

/**
 * The first key of `given` that `known` does not have; null where there is none.
 * @param meantBy words of the trade for keys; without it only those that are misspelled are known.
 */
export function unknownKey(given: object, known: object, meantBy: typeof keyMeant = () => ''): UnknownKey | null {
  for (const key of Object.keys(given)) {
    if (Object.hasOwn(known, key)) continue;
    const names = Object.keys(known);
    const meant = meantBy(key, names) || nearest(key, names);
    const hint = meant === '' ? '' : `; did you mean "${meant}"?`;
    return { key, message: `unknown key "${key}"${hint}`, expected: `one of ${names.join(', ')}`, nearest: meant };
  }
  return null;
}

/** The complaint about it. @param path of the key. */
export function unknownError(path: string, { message, expected, nearest: meant }: UnknownKey): SpecError {
  return new SpecError(path, message, expected, meant, 'unknown');
}

/** The same for who reads the message alone: with the path in front, and with all names where none is near. */
export function unknownOption(path: string, unknown: UnknownKey): SpecError {
  const { message, expected, nearest: meant } = unknown;
  return unknownError(path, {
    ...unknown,
    message: `${path}: ${message}${meant === '' ? `; expected ${expected}` : ''}`,
  });
}
