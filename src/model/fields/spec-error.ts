/**
 * What is wrong, for programs: something required is `missing`, a name is `unknown`, a number lies `outside` its limits or is none, a word is
 * none of a `choice`, or what was said does not go together (`conflict`).
 */
export type SpecCode = 'missing' | 'unknown' | 'outside' | 'choice' | 'conflict';

/** A specification that cannot be a car: numbers that are each possible but do not fit together. */
export class SpecError extends Error {
  readonly code: SpecCode;
  /** Path of the field in the user's words: `drive.unit.taper_speed`. */
  readonly path: string;
  /** What would be right; '' when the message says all. */
  readonly expected: string;
  /** Nearest right spelling; '' where there is none. */
  readonly nearest: string;
  constructor(path: string, message: string, expected = '', nearest = '', code: SpecCode = 'conflict') {
    super(message);
    this.name = 'SpecError';
    this.path = path;
    this.expected = expected;
    this.nearest = nearest;
    this.code = code;
  }
}
