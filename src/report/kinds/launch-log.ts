/** Logged launches in full: what can be told and what not, the figures, the overlay, the lines to copy. */
import { launchLogPicture } from '../../plots/launch-log.ts';
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

export const launchLogReport: ReportKind = {
  kind: 'launch-log',
  card,
  words: verdictWords,
  body,
  brackets: 'own',
  band: false,
  cautions: [
    {
      title: 'Acceleration is tested on a closed course',
      text: 'A launch at full pedal needs room to stop, a surface that is known, brakes and tyres in order, and nobody in the way.',
      defers: 'the traffic law of the place, and whoever runs the course',
    },
  ],
};

const TOLD = ['power', 'mass', 'grip', 'torque', 'torque_rise', 'copper_loss'] as const;

function card(result: Result, system: System): Card | null {
  const key = TOLD.find(each => summaryNumber(result, each) !== null);
  const [first] = result.verdicts ?? [];
  if (key === undefined) return first === undefined ? null : sentenceCard(`${first}.`);
  const others = TOLD.filter(each => each !== key && summaryNumber(result, each) !== null);
  const told = others.map(each => `${result.outputs[each]?.label ?? each} ${valueOf(result, each, system)}`);
  return figureCard(
    result,
    headlineOf(result, key, `${result.outputs[key]?.label ?? key}, by launches`, system),
    key,
    told.length === 0 ? '' : `Also ${told.join(', ')}.`,
  );
}

async function body(result: Result, system: System, id: string): Promise<Html> {
  const verdicts = verdictList(result.verdicts ?? []);
  if (result.series['read'] === undefined) return html`${verdicts}`;
  const keys = Object.keys(result.intervals?.of ?? {});
  const rows = keys.map(key => [result.outputs[key]?.label ?? key, valueOf(result, key, system)]);
  return html`${verdicts}${numbersTable({ columns: ['', 'measured'], rows }, 'What was measured')}${note('square brackets: 19 of 20 lie between, with what mass, drag, wind, slope and all else that is uncertain about the car do to it (JCGM 100:2008, 5.2).')}${await figureOf(launchLogPicture(result, system), `${id}-launch-log`)}${copyLines(result)}${everyOutput(result, system)}`;
}
