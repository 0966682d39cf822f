/**
 * The candidate that `word` was most likely meant to be, or '' when none is near. A difference of case only always
 * counts as near; otherwise one edit is allowed from three letters on, two from six, three from ten. Of equally near
 * candidates the first wins.
 */
export function nearest(word: string, candidates: Iterable<string>): string {
  const lower = word.toLowerCase();
  const allowed = word.length < 3 ? 0 : word.length < 6 ? 1 : word.length < 10 ? 2 : 3;
  let best = '';
  let least = allowed + 1;
  for (const candidate of candidates) {
    const distance = editDistance(lower, candidate.toLowerCase(), least);
    if (distance < least) {
      best = candidate;
      least = distance;
    }
  }
  return best;
}

/** Edits that turn `a` into `b`: insert, delete, replace, or swap two neighbours; `limit` when there are as many or more. */
function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) >= limit) return limit;
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = (above[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      row[j] = Math.min(
        (above[j] ?? 0) + 1,
        (row[j - 1] ?? 0) + 1,
        replaced,
        swapped ? (before[j - 2] ?? 0) + 1 : Infinity,
      );
    }
    before = above;
    above = row;
  }
  return Math.min(limit, above[b.length] ?? limit);
}
