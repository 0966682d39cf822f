/** Cells that their author began, and that Markdown does not take for any: too few backticks, quotation marks, four blanks in front. */
import { problemAt } from './located.ts';
import { placeOf, type SourceText } from './place.ts';
import type { ProblemData } from './problem.ts';

/** Quotation marks and backticks in front of `yaml launch dash` or `calc sums`. */
const BEGINNING = /^(\s*)([`'"´‘’“”„]{1,6})\s*(yaml\s+([a-z]+)|calc)(?:\s+\S+)?\s*$/u;

/** @param isRead whether a line, from 0, stands in a fence. */
export function meantFences(
  text: SourceText,
  kinds: ReadonlySet<string>,
  isRead: (line: number) => boolean,
): readonly ProblemData[] {
  return text.lines.flatMap((line, i): ProblemData[] => {
    const [, blanks = '', marks = '', head = '', kind = head] = BEGINNING.exec(line) ?? [];
    if (head === '' || isRead(i) || !kinds.has(kind)) return [];
    const indented = /^`{3}/u.test(marks) && blanks.length > 0;
    const message = indented
      ? `blanks in front of this fence make it a piece of text, no ${kind} cell`
      : `${marks} begins no ${kind} cell`;
    const expected = indented
      ? 'fences at the left margin'
      : 'three backticks (```), before the first line and after the last';
    return [problemAt(placeOf(text, i + 1, line.trim()), '', message, expected)];
  });
}
