/** Why figures of a row have no answer, each figure by itself, as one short text that goes with the row. */

/** Characters of a reason that are kept, and bytes of all of them: a row carries 1024. */
const LONGEST = 240;
const MOST_BYTES = 1000;

/** @param reasons of each figure in turn; '' for one that has an answer. */
export function writeWhyNot(reasons: readonly string[]): string {
  const places = new Map<string, number[]>();
  for (const [k, reason] of reasons.entries()) {
    if (reason === '') continue;
    const text = Array.from(reason.replaceAll('\n', ' ')).slice(0, LONGEST).join('');
    places.set(text, [...(places.get(text) ?? []), k]);
  }
  let code = '';
  for (const [reason, figures] of places) {
    const longer = `${code === '' ? '' : `${code}\n`}${figures.join(',')} ${reason}`;
    if (new TextEncoder().encode(longer).length <= MOST_BYTES) code = longer;
  }
  return code;
}

/** Why the figure at this place has no answer; '' where it has one or nothing is said. */
export function readWhyNot(code: string, place: number): string {
  const own = String(place);
  for (const line of code.split('\n')) {
    const gap = line.indexOf(' ');
    if (gap > 0 && line.slice(0, gap).split(',').includes(own)) return line.slice(gap + 1);
  }
  return '';
}
