/** A season of drives and charges in full: what can be told and what not, the figures, each drive, the lines to copy. */
import { summaryNumber } from '../../plots/kit/series.ts';
import { figure } from '../../units/rounding.ts';
import { numbers, texts } from '../../runs/series.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Card, figureCard, headlineOf, sentenceCard } from '../card.ts';
import type { ReportKind } from '../kind.ts';
import { numbersTable } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { valueOf } from '../page/outputs.ts';
import { copyLines } from './copy-lines.ts';
import { everyOutput, note, verdictList, verdictWords } from './study.ts';

export const seasonReport: ReportKind = { kind: 'season', card, words: verdictWords, body, brackets: 'own' };

const TOLD = ['health', 'drag_area', 'auxiliaries', 'rolling_resistance', 'charger_efficiency'] as const;

function card(result: Result, system: System): Card | null {
  const [key, ...others] = TOLD.filter(each => summaryNumber(result, each) !== null);
  const [first] = result.verdicts ?? [];
  if (key === undefined) return first === undefined ? null : sentenceCard(`${first}.`);
  const told = others.map(each => `${result.outputs[each]?.label ?? each} ${valueOf(result, each, system)}`);
  const headline = headlineOf(result, key, `${result.outputs[key]?.label ?? key}, by the season`, system);
  return figureCard(result, headline, key, told.length === 0 ? '' : `Also ${told.join(', ')}.`);
}

function body(result: Result, system: System): Promise<Html> {
  const verdicts = verdictList(result.verdicts ?? []);
  const keys = Object.keys(result.intervals?.of ?? {});
  const rows = keys.map(key => [result.outputs[key]?.label ?? key, valueOf(result, key, system)]);
  const table = keys.length === 0 ? null : numbersTable({ columns: ['', 'measured'], rows }, 'What was measured');
  const brackets =
    keys.length === 0
      ? null
      : note(
          'square brackets: 19 of 20 lie between, by the meters, by how the drives scatter and by what else is uncertain about the car (JCGM 100:2008, 5.2).',
        );
  return Promise.resolve(
    html`${verdicts}${table}${brackets}${drivesTable(result, system)}${copyLines(result)}${everyOutput(result, system)}`,
  );
}

function drivesTable({ series, outputs }: Result, system: System): Html | null {
  const drives = series['drives'];
  const what = outputs['energy'];
  if (drives === undefined || what === undefined) return null;
  const [metered, modelled] = [numbers(drives, 'metered_J'), numbers(drives, 'modelled_J')];
  const rows = texts(drives, 'drive').map((title, i) => {
    const [read, found] = [metered[i] ?? 0, modelled[i] ?? 0];
    return [
      title,
      figure(read, what, system),
      figure(found, what, system),
      `${((100 * (read - found)) / read).toFixed(1)} %`,
    ];
  });
  return numbersTable({ columns: ['drive', 'metered', 'modelled', 'left'], rows }, 'Each drive');
}
