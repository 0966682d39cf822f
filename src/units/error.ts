/** A text that is no quantity, or no quantity of the kind asked for. */
export class UnitError extends Error {
  /** 0-based start of the wrong part in the text that was read. */
  readonly offset: number;
  /** Length of the wrong part; at least 1. */
  readonly length: number;
  /** What would be right: `a mass such as "1010 kg"`; '' when the message says all. */
  readonly expected: string;
  /** What to put in the place of the wrong part; '' when nothing is near. */
  readonly nearest: string;

  constructor(message: string, offset: number, length: number, expected = '', nearest = '') {
    super(message);
    this.name = 'UnitError';
    this.offset = offset;
    this.length = Math.max(1, length);
    this.expected = expected;
    this.nearest = nearest;
  }
}
