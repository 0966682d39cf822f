/** Coast-downs in full: what can be told and what not, the figures, the pictures, the lines to copy. */
import { coastDownPicture } from '../../plots/coast-down.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Card, figureCard, headlineOf, sentenceCard } from '../card.ts';
import type { ReportKind } from '../kind.ts';
import { figureOf, numbersTable } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { valueOf } from '../page/outputs.ts';
import { copyLines } from './copy-lines.ts';
import { everyOutput, note, verdictList, verdictWords } from './study.ts';

export const coastDownReport: ReportKind = {
  kind: 'coast-down',
  card,
  words: verdictWords,
  body,
  brackets: 'own',
  cautions: [
    {
      title: 'A coast-down is driven on a closed course',
      text: 'A car that coasts is slower than the traffic behind it, and lamps do not tell others that it slows down. In neutral nothing of the drive helps to stop it: brakes and steering must work without it.',
      defers: 'the traffic law of the place, and whoever runs the course',
    },
  ],
};

const TOLD = ['force_100_km_h', 'force_80_km_h', 'force_50_km_h'] as const;

function card(result: Result, system: System): Card | null {
  const key = TOLD.find(each => summaryNumber(result, each) !== null);
  const [first] = result.verdicts ?? [];
  if (key === undefined) return first === undefined ? null : sentenceCard(`${first}.`);
  const label = result.outputs[key]?.label ?? key;
  const text = `Measured by ${summaryNumber(result, 'pairs') ?? 0} pairs of coast-downs: drag area ${valueOf(result, 'drag_area', system)}, rolling resistance ${valueOf(result, 'rolling_coefficient', system)}.`;
  return figureCard(result, headlineOf(result, key, label, system), key, text);
}

async function body(result: Result, system: System, id: string): Promise<Html> {
  const verdicts = verdictList(result.verdicts ?? []);
  if (result.series['forces'] === undefined) return html`${verdicts}`;
  const keys = Object.keys(result.intervals?.of ?? {});
  const rows = keys.map(key => [result.outputs[key]?.label ?? key, valueOf(result, key, system)]);
  return html`${verdicts}${numbersTable({ columns: ['', 'measured'], rows }, 'What was measured')}${note('square brackets: 19 of 20 such days lie between, by the scatter from pair to pair (Student’s t) with mass, temperature and air (JCGM 100:2008, 5.2).')}${await figureOf(coastDownPicture(result, system), `${id}-coast-down`)}${copyLines(result)}${everyOutput(result, system)}`;
}
