/** Finds where something stands in the text of a notebook. */
import type { Place } from './located.ts';

/** The whole file, split into lines. */
export interface SourceText {
  /** Path as the user gave it. */
  readonly file: string;
  readonly lines: readonly string[];
}

/** The place of `wanted` in a line, from column `start` (0-based) on; where it is not found, the line without margins. */
export function placeOf(text: SourceText, line: number, wanted = '', start = 0): Place {
  const source = text.lines[line - 1] ?? '';
  const at = wanted === '' ? -1 : source.indexOf(wanted, start);
  if (at >= 0) return { file: text.file, line, column: at + 1, length: wanted.length, source };
  const margin = source.length - source.trimStart().length;
  return { file: text.file, line, column: margin + 1, length: Math.max(1, source.trim().length), source };
}

/** The first place of a path as a whole word in the lines from `first` to `last` (1-based); null where there is none. */
export function placeOfWord(text: SourceText, path: string, first: number, last: number): Place | null {
  const escaped = path.replace(/[^A-Za-z0-9_]/g, '\\$&');
  const pattern = new RegExp(`(?<![A-Za-z0-9_.])${escaped}(?![A-Za-z0-9_])`);
  for (let line = first; line <= last; line += 1) {
    const at = text.lines[line - 1]?.search(pattern) ?? -1;
    if (at >= 0) return placeOf(text, line, path, at);
  }
  return null;
}
