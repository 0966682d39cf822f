/** What people call an input. */

/** Of a path of which the words alone say too little. */
const SPOKEN: ReadonlyMap<string, string> = new Map([
  ['pack.parallel', 'cells in parallel'],
  ['pack.series', 'cells in series'],
  ['tyres.dry peak', 'friction of the tyres'],
  ['tyres.wet peak', 'friction of the tyres in the wet'],
  ['tyres.snow peak', 'friction of the tyres on snow'],
  ['tyres.rolling resistance', 'rolling resistance of the tyres'],
  ['drive.unit.peak power', 'peak power of the drive unit'],
  ['drive.unit.peak torque', 'peak torque of the drive unit'],
  ['drive.unit.power at top', 'power of the drive unit at its greatest speed'],
]);

/** `drive ratio`, where it is plain what it is of. @param path without the name of the car or run. */
export function wordsOfPath(path: string): string {
  const parts = path.split('.').map(part => part.replaceAll('_', ' '));
  return SPOKEN.get(parts.join('.')) ?? parts.join(' ');
}

/** `drive ratio of the medium car`. @param own whether the name in front is that of a car. */
export function spokenPath(path: string, own: boolean): string {
  const [head = '', ...rest] = path.split('.').map(part => part.replaceAll('_', ' '));
  if (rest.length === 0) return head;
  const words = own ? wordsOfPath(rest.join('.')) : rest.join(' ');
  if (!own) return `${words} of ${head}`;
  return /\bcar\b/u.test(head) ? `${words} of ${head}` : `${words} of the ${head} car`;
}
