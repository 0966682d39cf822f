/** Cuts chunks of text into lines, however the chunks fall. */
import { LogError } from './error.ts';

/** Characters of a line above which the file is no table. */
const LONGEST = 100_000;

export interface LineCutter {
  push(chunk: string): void;
  /** The last line, where no line end follows it. */
  finish(): void;
}

function noText(): LogError {
  const place = { line: 1, column: 1, length: 1, source: '' };
  return new LogError(place, '', 'the log is no text', "the text of a file, as readFileSync(file, 'utf8') gives it");
}

/**
 * Lines end with LF, CR LF or CR; a byte order mark at the start is taken off.
 * @param take is given each line with its 1-based number.
 */
export function createLineCutter(take: (line: string, number: number) => void): LineCutter {
  let rest = '';
  /** Signs at the start of the rest that are known to hold no line end. */
  let walked = 0;
  let number = 0;
  let started = false;
  const cut = (text: string, last: boolean): void => {
    let start = 0;
    for (let end = walked; end < text.length; end++) {
      const sign = text.charCodeAt(end);
      // A CR at the end may be half of a CR LF.
      if (sign !== FEED && (sign !== RETURN || (!last && end + 1 === text.length))) continue;
      if (end - start > LONGEST) throw tooLong(text.slice(start, start + 80), number + 1);
      take(text.slice(start, end), ++number);
      if (sign === RETURN && text.charCodeAt(end + 1) === FEED) end++;
      start = end + 1;
    }
    rest = text.slice(start);
    walked = Math.max(0, rest.length - 1);
  };
  return {
    push(chunk) {
      if (typeof chunk !== 'string') throw noText();
      if (chunk === '') return;
      cut(started ? rest + chunk : chunk.replace(/^\uFEFF/u, ''), false);
      started = true;
      if (rest.length > LONGEST) throw tooLong(rest.slice(0, 80), number + 1);
    },
    finish() {
      cut(rest, true);
      if (rest !== '') take(rest, ++number);
      rest = '';
      walked = 0;
    },
  };
}

function tooLong(source: string, line: number): LogError {
  const place = { line, column: 1, length: 1, source };
  return new LogError(place, '', `a line of more than ${LONGEST} characters`, 'a table of one row a line');
}

const FEED = 10;
const RETURN = 13;
