/** What people call an input. */

/** Of a path of which the words alone say too little. */
const SPOKEN: ReadonlyMap<string, string> = new Map([
  ['front share', 'share of the weight on the front axle'],
  ['cg height', 'height of the centre of gravity'],
  ['pack.parallel', 'cells in parallel'],
  ['pack.series', 'cells in series'],
  ['pack.cell.max current', 'greatest current of the cells'],
  ['pack.resistance activation', "growth of the cells' resistance in the cold"],
  ['cabin.loss', 'heat loss of the cabin'],
  ['tyres.dry peak', 'friction of the tyres'],
  ['tyres.wet peak', 'friction of the tyres in the wet'],
  ['tyres.snow peak', 'friction of the tyres on snow'],
  ['tyres.slip at peak', 'slip of the tyres at their best grip'],
  ['tyres.rolling resistance', 'rolling resistance of the tyres'],
  ['drive.unit.efficiency points.efficiency', 'efficiencies of the drive unit'],
  ['drive.unit.power at top', 'power of the drive unit at its greatest speed'],
  ['drive.unit.torque rise', 'time in which the torque of the drive unit builds up'],
]);

/** What people call a part of a part. */
const PARTS: ReadonlyMap<string, string> = new Map([
  ['cell', 'cells'],
  ['gearbox', 'gearbox'],
  ['regeneration', 'regeneration'],
  ['unit', 'drive unit'],
]);

/** `drive ratio`, `inertia of the drive unit`, where it is plain what it is of. @param path without the name of the car or run. */
export function wordsOfPath(path: string): string {
  const parts = path.split('.').map(part => part.replaceAll('_', ' '));
  const [last = '', owner = ''] = parts.toReversed();
  const part = parts.length > 2 ? PARTS.get(owner) : undefined;
  const second = parts[0] === 'second drive' ? 'second ' : '';
  return SPOKEN.get(parts.join('.')) ?? (part === undefined ? parts.join(' ') : `${last} of the ${second}${part}`);
}

/** `drive ratio of the medium car`. @param own whether the name in front is that of a car. */
export function spokenPath(path: string, own: boolean): string {
  const [head = '', ...rest] = path.split('.').map(part => part.replaceAll('_', ' '));
  if (rest.length === 0) return head;
  const words = own ? wordsOfPath(rest.join('.')) : rest.join(' ');
  if (!own) return `${words} of ${head}`;
  return /\bcar\b/u.test(head) ? `${words} of ${head}` : `${words} of the ${head} car`;
}
