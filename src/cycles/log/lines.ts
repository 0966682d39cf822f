/** Cuts chunks of text into lines, however the chunks fall. */
import { LogError } from './error.ts';

/** Characters of a line above which the file is no table. */
const LONGEST = 100_000;

export interface LineCutter {
  push(chunk: string): void;
  /** The last line, where no line end follows it. */
  finish(): void;
}

/**
 * Lines end with LF, CR LF or CR; a byte order mark at the start is taken off.
 * @param take is given each line with its 1-based number.
 */
export function createLineCutter(take: (line: string, number: number) => void): LineCutter {
  let rest = '';
  let number = 0;
  let started = false;
  const cut = (text: string, last: boolean): string => {
    let start = 0;
    for (let end = lineEnd(text, start, last); end >= 0; end = lineEnd(text, start, last)) {
      take(text.slice(start, end), ++number);
      start = end + (text.startsWith('\r\n', end) ? 2 : 1);
    }
    return text.slice(start);
  };
  return {
    push(chunk) {
      if (chunk === '') return;
      rest = cut(started ? rest + chunk : chunk.replace(/^\uFEFF/u, ''), false);
      started = true;
      if (rest.length <= LONGEST) return;
      const place = { line: number + 1, column: 1, length: 1, source: rest.slice(0, 80) };
      throw new LogError(place, '', `a line of more than ${LONGEST} characters`, 'a table of one row a line');
    },
    finish() {
      rest = cut(rest, true);
      if (rest !== '') take(rest, ++number);
      rest = '';
    },
  };
}

/** Where the next line ends, -1 where that is not in the text yet: a CR at its end may be half of a CR LF. */
function lineEnd(text: string, start: number, last: boolean): number {
  const feed = text.indexOf('\n', start);
  const stop = feed < 0 ? text.length : feed;
  for (let k = start; k < stop; k++) {
    if (text.charCodeAt(k) === 13 && (last || k + 1 < text.length)) return k;
  }
  return feed;
}
