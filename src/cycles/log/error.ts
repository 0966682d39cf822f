/** What is wrong in a log that somebody recorded, as data first and text second. */

/** A place in a log; line and column are 1-based. */
export interface LogPlace {
  readonly line: number;
  readonly column: number;
  /** Characters, at least 1. */
  readonly length: number;
  /** The whole line. */
  readonly source: string;
}

/** Thrown for a log that cannot be read. */
export class LogError extends Error {
  readonly code = 'log';
  readonly place: LogPlace;
  /** Kind of column it is about: `speed`; '' for none. */
  readonly field: string;
  /** What would be right; '' when the message says all. */
  readonly expected: string;
  /** What else is wrong in the same log, in the order of its lines. */
  readonly others: readonly LogError[];
  constructor(place: LogPlace, field: string, message: string, expected = '', others: readonly LogError[] = []) {
    super(message);
    this.name = 'LogError';
    this.place = place;
    this.field = field;
    this.expected = expected;
    this.others = others;
  }
}

/** Problems that are told at once: the first of them with the others behind it; none is told of an empty list. */
export function throwAll(problems: readonly LogError[]): void {
  const [first, ...others] = problems;
  if (first === undefined) return;
  throw others.length === 0 ? first : new LogError(first.place, first.field, first.message, first.expected, others);
}

/** The place of a cell by its number from 0, found by splitting the line once more. */
export function placeOfCell(line: number, source: string, separator: string, field: number): LogPlace {
  let [start, end, left, quoted] = [0, 0, field, false];
  for (; end < source.length; end++) {
    const sign = source.charAt(end);
    if (sign === '"') quoted = !quoted;
    else if (sign === separator && !quoted) {
      if (left === 0) break;
      left--;
      start = end + 1;
    }
  }
  const cell = source.slice(start, end);
  const lead = cell.trim() === '' ? 0 : cell.length - cell.trimStart().length;
  return { line, column: 1 + start + lead, length: Math.max(1, cell.trim().length), source };
}
