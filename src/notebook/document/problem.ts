/** What is wrong with what the user wrote, as data first and text second. */

/** Plain data of a problem; positions are 1-based. */
export interface ProblemData {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  /** Length of the wrong text in characters, for the carets; at least 1. */
  readonly length: number;
  /** Path of the field in the user's words: `coupe.drive.ratio`; '' when it is about no field. */
  readonly path: string;
  /** What is wrong, one sentence without a full stop: `unknown unit "kgs"`. */
  readonly message: string;
  /** What would be right: `a mass such as "1010 kg"`; '' when the message says all. */
  readonly expected: string;
  /** Nearest right spelling, offered as a cure; '' when there is none. */
  readonly nearest: string;
  /** The source line the problem is in. */
  readonly source: string;
  /** Left out where the user can mend it in the notebook. */
  readonly cause?: Cause;
}

/**
 * Whose the problem is: a fault of axlewatt itself, a file that cannot be read or written, rows that are not done yet, a cell that this one
 * needs and that has failed.
 */
export type Cause = 'axlewatt' | 'files' | 'rows' | 'need';

/** Problems of their own, and in words which cells only wait for those; '' for none. */
export function folded(problems: readonly ProblemData[]): {
  readonly own: readonly ProblemData[];
  readonly waiting: string;
} {
  const own = problems.filter(({ cause }) => cause !== 'need');
  const names = problems
    .filter(({ cause }) => cause === 'need')
    .map(({ path, line }) => `${path || 'a quoted result'} (line ${line})`);
  const [one, few] = [names.length === 1, names.slice(0, MOST_WAITING)];
  const more = names.length > few.length ? ` and ${names.length - few.length} more` : '';
  const waiting = names.length === 0 ? '' : `${few.join(', ')}${more} ${one ? 'waits' : 'wait'} for what failed`;
  return { own, waiting };
}

/** Cells that are named. */
const MOST_WAITING = 8;

/** Thrown for anything that the user can mend in the notebook. */
export class NotebookProblem extends Error {
  readonly data: ProblemData;
  /** What else is wrong in the same file. */
  readonly others: readonly ProblemData[];
  constructor(data: ProblemData, others: readonly ProblemData[] = []) {
    super(problemText(data));
    this.name = 'NotebookProblem';
    this.data = data;
    this.others = others;
  }
}

/** Characters of a source line that are shown, and of those before the place where the line is cut. */
const WIDEST = 200;
const MARGIN = 40;

/** `file:line:column: path: message; expected ...; did you mean "..."?`, then the source line with carets under it. */
export function problemText(p: ProblemData): string {
  const where = `${p.file}:${p.line}:${p.column}: `;
  const path = p.path === '' ? '' : `${p.path}: `;
  const expected = p.expected === '' ? '' : `; expected ${p.expected}`;
  const nearest = p.nearest === '' ? '' : `; did you mean "${p.nearest}"?`;
  const head = where + path + p.message + expected + nearest;
  if (p.source === '') return head;
  // Of a long line, the part around the place.
  const start = p.column <= WIDEST - MARGIN ? 0 : p.column - MARGIN;
  const source = (start === 0 ? '' : '…') + p.source.slice(start, start + WIDEST).replaceAll('\t', ' ');
  const before = p.column - 1 - start + (start === 0 ? 0 : 1);
  const carets =
    before < source.length
      ? `\n  ${' '.repeat(before)}${'^'.repeat(Math.max(1, Math.min(p.length, source.length - before)))}`
      : '';
  return `${head}\n  ${source}${carets}`;
}
