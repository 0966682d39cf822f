/** What there is to name: the outputs of a kind of run, the schedules and the parts that ship, as text for a terminal. */
import { scheduleNamed, scheduleNames } from '../../cycles/schedules.ts';
import { statistics } from '../../cycles/statistics.ts';
import { shippedParts } from '../../model/parts/shipped.ts';
import { RUN_KINDS } from '../../runs/kinds.ts';
import { formatQuantity, unitLabel } from '../../units.ts';
import { UnknownPath } from './reference.ts';
import { wrap } from './wrap.ts';

/** Every figure of a kind of run: the name that formulas and studies use, its unit, what it means. @throws UnknownPath */
export function outputsReference(kind: string, width: number): string {
  const found = RUN_KINDS.filter(run => run.kind === kind || run.within?.cell === kind);
  if (found.length === 0)
    throw new UnknownPath(
      kind,
      RUN_KINDS.map(run => run.kind),
    );
  return found
    .flatMap(run => [
      `What a ${run.kind} answers with:`,
      ...Object.entries(run.outputs).map(([key, { unit, display, label, doc }]) => {
        const units = unit === '' ? 'word' : unitLabel(display.metric) || 'number';
        return `  ${key.padEnd(32)} ${units}\n${wrap(`${label}: ${doc}`, width, 6)}`;
      }),
    ])
    .join('\n');
}

/** Every schedule that ships: length, duration, speeds, and where it is from. */
export function schedulesReference(width: number): string {
  return scheduleNames
    .map(name => {
      const schedule = scheduleNamed(name);
      const { distance, duration, meanSpeed, maxSpeed } = statistics(schedule);
      const [mean, most] = [meanSpeed, maxSpeed].map(speed => formatQuantity(speed, 'm/s', 'km/h'));
      const length = `${(distance / 1000).toFixed(2)} km in ${duration.toFixed(0)} s, ${mean} in the mean, ${most} at most`;
      return `${name.padEnd(20)} ${schedule.title}: ${length}\n${wrap(schedule.source, width, 6)}`;
    })
    .join('\n');
}

/** Every part that ships, by kind. */
export function partsReference(width: number): string {
  const kinds = [...new Set(shippedParts().map(({ kind }) => kind))];
  return [
    ...kinds.flatMap(kind => [
      `${kind}:`,
      ...shippedParts()
        .filter(part => part.kind === kind)
        .map(
          ({ name, title }) =>
            `  ${name.padEnd(24)} ${wrap(title, width - 27, 0).replaceAll('\n', `\n${' '.repeat(27)}`)}`,
        ),
    ]),
    'The numbers of one, with their sources: `axlewatt cells NAME`.',
  ].join('\n');
}
