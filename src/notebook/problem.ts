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
}

/** Thrown for anything that the user can mend in the notebook. */
export class NotebookProblem extends Error {
  readonly data: ProblemData;
  constructor(data: ProblemData) {
    super(problemText(data));
    this.name = 'NotebookProblem';
    this.data = data;
  }
}

/** `file:line:column: path: message; expected ...; did you mean "..."?`, then the source line with carets under it. */
export function problemText(p: ProblemData): string {
  const where = `${p.file}:${p.line}:${p.column}: `;
  const path = p.path === '' ? '' : `${p.path}: `;
  const expected = p.expected === '' ? '' : `; expected ${p.expected}`;
  const nearest = p.nearest === '' ? '' : `; did you mean "${p.nearest}"?`;
  const head = where + path + p.message + expected + nearest;
  if (p.source === '') return head;
  const source = p.source.slice(0, 200).replaceAll('\t', ' ');
  const carets =
    p.column - 1 < source.length
      ? `\n  ${' '.repeat(p.column - 1)}${'^'.repeat(Math.max(1, Math.min(p.length, source.length - p.column + 1)))}`
      : '';
  return `${head}\n  ${source}${carets}`;
}
