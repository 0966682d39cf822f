/** A specification that cannot be a car: numbers that are each possible but do not fit together. */
export class SpecError extends Error {
  /** Path of the field in the user's words: `drive.unit.taper_speed`. */
  readonly path: string;
  /** What would be right; '' when the message says all. */
  readonly expected: string;
  /** Nearest right spelling; '' where there is none. */
  readonly nearest: string;
  constructor(path: string, message: string, expected = '', nearest = '') {
    super(message);
    this.name = 'SpecError';
    this.path = path;
    this.expected = expected;
    this.nearest = nearest;
  }
}
