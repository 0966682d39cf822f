/** Repeated launches in full: the words, the times and temperatures, every launch, the last one's trace. */
import { columnHeading, figure, scaleOf, written } from '../../units/rounding.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { numbers } from '../../runs/series.ts';
import { repeatedLaunches } from '../../plots/repeat.ts';
import { speedTrace } from '../../plots/speed-trace.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { sentenceCard } from '../card.ts';
import type { BodyParts, Pictures, ReportKind } from '../kind.ts';
import { figuresOf, numbersTable } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { allOutputs, valueOf } from '../page/outputs.ts';
import { holesSentence, reason } from '../unanswered.ts';

export const repeatReport: ReportKind = {
  kind: 'repeat',
  card: (result, system) => sentenceCard(repeatWords(result, system)),
  words: repeatWords,
  pictures,
  body: repeatBody,
};

/** The body of a repeat cell below its warnings. Ids inside begin with `id`. */
async function repeatBody(result: Result, system: System, id: string, { ledger }: BodyParts): Promise<Html> {
  const words = html`<p class="lead">${repeatWords(result, system)}</p>
`;
  if (result.series['runs'] === undefined) return words;
  return html`${words}${await figuresOf(pictures(result, system), id)}${runsTable(result, system)}
<p class="note">Between two launches the brakes stop the car at once, nothing comes back into the pack, and the car stands with the drive switched
off. Tyres and brakes are taken as cold each time.</p>
${ledger}
<details class="every"><summary>All outputs, and what each one is</summary>${allOutputs(result, system)}</details>
`;
}

function pictures(result: Result, system: System): Pictures {
  if (result.series['runs'] === undefined) return [];
  const trace = speedTrace(result, system);
  const last = { ...trace, title: `The last launch: ${trace.title.charAt(0).toLowerCase()}${trace.title.slice(1)}` };
  return [
    ['runs', repeatedLaunches(result, system)],
    ['trace', last],
  ];
}

function runsTable(result: Result, system: System): Html {
  const runs = result.series['runs'] ?? {};
  const keys = Object.keys(runs).filter(key => numbers(runs, key).some(value => !Number.isNaN(value)));
  const columns = keys.map(key => {
    const column = runs[key];
    return column === undefined ? '' : columnHeading(column.label, scaleOf(column, system).unit);
  });
  const decimals = (key: string): number => (key === 'time_to_target_s' ? 2 : key === 'run_1' ? 0 : 1);
  const rows = Array.from(numbers(runs, 'run_1'), (_, row) =>
    keys.map(key => {
      const column = runs[key];
      const value = numbers(runs, key)[row] ?? Number.NaN;
      if (column === undefined || Number.isNaN(value)) return 'not reached';
      const scale = scaleOf(column, system);
      return written(value * scale.factor + scale.offset, '1', decimals(key));
    }),
  );
  return numbersTable({ columns, rows }, 'Every launch');
}

/** What became of it, for page and terminal alike. */
export function repeatWords(result: Result, system: System): string {
  const runs = summaryNumber(result, 'runs');
  const first = summaryNumber(result, 'time_first');
  if (runs === null || first === null)
    return `No launch: ${reason(result, 'time_first')}.${holesSentence(result, 'time_first', system)}`;
  const last = summaryNumber(result, 'time_last');
  const goal = valueOf(result, 'target', system);
  const count = `${runs} ${runs === 1 ? 'launch' : 'launches'} to ${goal}`;
  const slowing = summaryNumber(result, 'slowing');
  const course =
    last === null || slowing === null
      ? `the first takes ${valueOf(result, 'time_first', system)}, the last does not get there`
      : `the first takes ${valueOf(result, 'time_first', system)}, the last ${written(last, 's')}${changed(slowing)}`;
  const slower = summaryNumber(result, 'slower_run');
  const by = result.summary['slowed_by'];
  const told =
    slower === null
      ? 'None is more than 5\u00a0% slower than the first.'
      : `From launch ${slower}${launchEnds(result)} on it is more than 5\u00a0% slower${typeof by === 'string' ? `: ${by} holds it back longer` : ''}.`;
  const warm = (['unit_temperature', 'pack_temperature'] as const).flatMap(key => {
    const value = summaryNumber(result, key);
    const output = result.outputs[key];
    const name = key === 'unit_temperature' ? 'drive unit' : 'pack';
    return value === null || output === undefined ? [] : [`the ${name} gets to ${figure(value, output, system, 0)}`];
  });
  const heat = warm.length === 0 ? '' : ` ${warm.join(', ')}.`.replace(/^ t/, ' T');
  return `${count}: ${course}.${holesSentence(result, 'time_first', system)} ${told}${holesSentence(result, 'slower_run', system)}${heat}`;
}

/** ` [5, 8]`: whole launches. */
function launchEnds({ intervals }: Result): string {
  const ends = intervals?.of['slower_run'];
  return ends === undefined ? '' : ` [${ends.low},\u00a0${ends.high}]`;
}

/** ` (+12.3 %)`; nothing for what does not show. */
function changed(share: number): string {
  if (Math.abs(share) < 0.0005) return '';
  return ` (${share < 0 ? '−' : '+'}${(100 * Math.abs(share)).toFixed(1)}\u00a0%)`;
}
