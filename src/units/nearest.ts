/**
 * The candidate that `word` was most likely meant to be, or '' when none is near. A difference of case only always
 * counts as near; otherwise one edit is allowed from three letters on, two from six, three from ten. Of equally near
 * candidates the first wins. Of candidates that differ from it in a number alone the one with the nearest number is, unless one begins with the word. Where none is near, one that goes on behind the word is: `time_to_100` is `time_to_100_km_h`. The work grows with the length of the word and with the number of candidates, no faster.
 */
export function nearest(word: string, candidates: Iterable<string>): string {
  const lower = word.toLowerCase();
  const all = [...candidates];
  const numbered = all.some(candidate => candidate.toLowerCase().startsWith(lower)) ? '' : byNumber(lower, all);
  if (numbered !== '') return numbered;
  const allowed = word.length < SHORTEST ? 0 : word.length < 6 ? 1 : word.length < 10 ? 2 : 3;
  let best = '';
  let least = allowed + 1;
  for (const candidate of all) {
    if (Math.abs(candidate.length - word.length) >= least) continue;
    const distance = editDistance(lower, candidate.toLowerCase(), least);
    if (distance < least) {
      best = candidate;
      least = distance;
    }
  }
  return best === '' && word.length >= SHORTEST ? begun(lower, all) : best;
}

const NUMBER = /\d+/u;
/** Letters from which on an edit is allowed. */
const SHORTEST = 3;

/** The candidate that is the word but for its one number, and has the nearest: `unit_150kw` for `unit_160kw`; '' for none. */
function byNumber(lower: string, candidates: Iterable<string>): string {
  const number = NUMBER.exec(lower)?.[0];
  if (lower.length < SHORTEST || number === undefined || !/\p{L}/u.test(lower)) return '';
  let best = '';
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const own = NUMBER.exec(candidate)?.[0];
    if (own === undefined || candidate.toLowerCase().replace(own, number) !== lower) continue;
    const distance = Math.abs(Number(own) - Number(number));
    if (distance >= least) continue;
    best = candidate;
    least = distance;
  }
  return best;
}

/** The shortest candidate that the word is the beginning of, up to the end of a part of its name. */
function begun(lower: string, candidates: readonly string[]): string {
  let best = '';
  for (const candidate of candidates) {
    if (best !== '' && candidate.length >= best.length) continue;
    if (candidate.toLowerCase().startsWith(`${lower}_`)) best = candidate;
  }
  return best;
}

/**
 * Edits that turn `a` into `b`: insert, delete, replace, or swap two neighbours; `limit` when there are as many or more.
 * Each row of the table is kept only where it can be below the limit: within `limit` of the diagonal.
 */
function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) >= limit) return limit;
  let before: number[] = [];
  // Place j - i + limit of row i holds the edits from the first i letters of `a` to the first j of `b`.
  let above = Array.from({ length: 2 * limit + 1 }, (_, k) => (k < limit ? limit : k - limit));
  for (let i = 1; i <= a.length; i++) {
    const row: number[] = [];
    let least = limit;
    for (let k = 0; k <= 2 * limit; k++) {
      const j = i + k - limit;
      const edits = j < 0 || j > b.length ? limit : editsAt(a, b, i, j, { k, row, above, before, limit });
      row.push(edits);
      least = Math.min(least, edits);
    }
    if (least >= limit) return limit;
    before = above;
    above = row;
  }
  return Math.min(limit, above[b.length - a.length + limit] ?? limit);
}

interface Band {
  readonly k: number;
  readonly row: readonly number[];
  readonly above: readonly number[];
  readonly before: readonly number[];
  readonly limit: number;
}

function editsAt(a: string, b: string, i: number, j: number, { k, row, above, before, limit }: Band): number {
  if (j === 0) return Math.min(i, limit);
  const replaced = (above[k] ?? limit) + (a[i - 1] === b[j - 1] ? 0 : 1);
  const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
  return Math.min(
    (above[k + 1] ?? limit) + 1,
    (row[k - 1] ?? limit) + 1,
    replaced,
    swapped ? (before[k] ?? limit) + 1 : limit,
  );
}
