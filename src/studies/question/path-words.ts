/** What people call an input. */

/** Of a path of which the words alone say too little. */
const SPOKEN: ReadonlyMap<string, string> = new Map([
  ['pack.parallel', 'cells in parallel'],
  ['pack.series', 'cells in series'],
]);

/** `drive ratio`, where it is plain what it is of. */
export function wordsOfPath(path: string): string {
  const rest = path
    .split('.')
    .slice(1)
    .map(part => part.replaceAll('_', ' '));
  return SPOKEN.get(rest.join('.')) ?? rest.join(' ');
}

/** `drive ratio of the medium car`. @param own whether the name in front is that of a car. */
export function spokenPath(path: string, own: boolean): string {
  const [head = '', ...rest] = path.split('.').map(part => part.replaceAll('_', ' '));
  if (rest.length === 0) return head;
  const words = (own ? SPOKEN.get(rest.join('.')) : undefined) ?? rest.join(' ');
  if (!own) return `${words} of ${head}`;
  return /\bcar\b/u.test(head) ? `${words} of ${head}` : `${words} of the ${head} car`;
}
