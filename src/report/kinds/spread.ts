/** A spread in full: each figure with its interval, the histograms, what was drawn. */
import { capital, figure } from '../../units/rounding.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { texts } from '../../runs/series.ts';
import { spreadHistograms } from '../../plots/spread.ts';
import { chanceText, endsText, samplesText, intervalText } from '../../plots/kit/interval.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Card, figureCard, headlineOf } from '../card.ts';
import type { ReportKind } from '../kind.ts';
import { allHolesText, holesText } from '../unanswered.ts';
import { figureOf, numbersTable } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { everyOutput, note, verdictList } from './study.ts';

export const spreadReport: ReportKind = {
  kind: 'spread',
  card: spreadCard,
  words: spreadWords,
  body: spreadBody,
  brackets: 'own',
};

/** The body of a spread cell below its warnings. Ids inside begin with `id`. */
async function spreadBody(result: Result, system: System, id: string): Promise<Html> {
  const { intervals } = result;
  const known = figuresOf(result).length > 0;
  const paths = texts(result.series['inputs'] ?? {}, 'path');
  return html`${verdictList(sentences(result, system))}${known ? figuresTable(result, system) : null}
${intervals === undefined ? null : note(`${samplesText(intervals)}, points of a scrambled Sobol sequence with seed ${intervals.seed}; the inputs are taken as independent of each other (JCGM 101:2008).`)}${known ? await figureOf(spreadHistograms(result, system), `${id}-spread`) : null}<details class="every"><summary>The ${String(paths.length)} uncertain inputs that were drawn</summary><p class="notes">${paths.join(', ')}</p></details>
${everyOutput(result, system)}`;
}

/** Keys of the figures that have an interval. */
function figuresOf(result: Result): readonly string[] {
  return Object.keys(result.intervals?.of ?? {});
}

function sentences(result: Result, system: System): readonly string[] {
  const { intervals } = result;
  if (intervals === undefined) return [];
  const told = (key: string): string => {
    const holes = holesText(result, key, system);
    return holes === '' ? '' : `, ${lowered(holes)}`;
  };
  const all = figuresOf(result).flatMap(key => {
    const [value, output, ends] = [summaryNumber(result, key), result.outputs[key], intervals.of[key]];
    return value === null || output === undefined || ends === undefined
      ? []
      : [`${output.label} ${intervalText(value, ends, output, system)}${told(key)}`];
  });
  return all.map((text, i) =>
    i === 0 ? `${text}: ${chanceText(intervals.probability)} lie between the brackets` : text,
  );
}

function lowered(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

function figuresTable(result: Result, system: System): Html {
  const { intervals } = result;
  const holes = Object.keys(intervals?.holes ?? {}).length > 0;
  const rows = figuresOf(result).map(key => {
    const [value, output, spread] = [summaryNumber(result, key), result.outputs[key], intervals?.of[key]];
    if (value === null || output === undefined || spread === undefined) return [key];
    // An uncertainty is a difference, which no zero of a scale may shift.
    const uncertainty = figure(spread.standard, output.unit === 'K' ? { unit: 'K', display: KELVIN } : output, system);
    return [
      output.label,
      figure(value, output, system),
      endsText(value, spread, output, system),
      uncertainty,
      ...(holes ? [holesText(result, key, system) || 'none'] : []),
    ];
  });
  const chance = intervals === undefined ? '' : chanceText(intervals.probability);
  return numbersTable(
    {
      columns: [
        '',
        'with every input as it is',
        `${chance} lie within`,
        'standard uncertainty',
        ...(holes ? ['samples without an answer'] : []),
      ],
      rows,
    },
    'The figures with their spread',
  );
}

const KELVIN = { metric: 'K', imperial: 'K' };

/** The first figure, and the others in a sentence. */
function spreadCard(result: Result, system: System): Card | null {
  const [first] = figuresOf(result);
  if (first === undefined) return null;
  const label = result.outputs[first]?.label ?? first;
  const others = sentences(result, system).slice(1, TOLD);
  const text = others.length === 0 ? '' : `${capital(others.join('; '))}.`;
  return figureCard(result, headlineOf(result, first, label, system), first, text);
}

/** Figures that the answer tells. */
const TOLD = 4;

/** All figures, for a terminal. */
function spreadWords(result: Result, system: System): string {
  const all = sentences(result, system);
  return all.length === 0 ? `Too few samples have an answer.${allHolesText(result)}` : `${all.join('; ')}.`;
}
