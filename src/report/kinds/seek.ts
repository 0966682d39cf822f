/** A search in full: what was found or what comes closest, the conditions, what was tried. */
import { scaleOf, written } from '../../units/rounding.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { numbers, texts } from '../../runs/series.ts';
import { seekTried } from '../../plots/seek.ts';
import type { Output, Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Card, sentenceCard } from '../card.ts';
import type { ReportKind } from '../kind.ts';
import { figureOf, numbersTable } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { valueOf } from '../page/outputs.ts';
import { everyOutput, note, verdictList, verdictWords } from './study.ts';

export const seekReport: ReportKind = { kind: 'seek', card: seekCard, words: verdictWords, body: seekBody };

/** What was found, and what was asked of it: a limit is not a wish. */
function seekCard(result: Result, system: System): Card | null {
  const [first] = result.verdicts ?? [];
  if (first === undefined) return null;
  const conditions = result.series['conditions'] ?? {};
  const [sense, bound] = [texts(conditions, 'sense'), numbers(conditions, 'bound_si')];
  const asked = texts(conditions, 'figure').flatMap((key, k) => {
    const output = result.outputs[key];
    if (output === undefined) return [];
    return [`${output.label} ${sense[k]} ${boundText(output, bound[k] ?? Number.NaN, system)}`];
  });
  return sentenceCard(asked.length === 0 ? `${first}.` : `${first}. Asked was: ${asked.join('; ')}.`);
}

function boundText(output: Output, bound: number, system: System): string {
  const { unit, factor, offset } = scaleOf(output, system);
  return written(bound * factor + offset, unit);
}

/** The body of a seek cell below its warnings. Ids inside begin with `id`. */
async function seekBody(result: Result, system: System, id: string): Promise<Html> {
  const what = texts(result.series['tried'] ?? {}, 'what');
  const picture = what.length === 0 ? null : await figureOf(seekTried(result, system), `${id}-tried`);
  return html`${verdictList(result.verdicts ?? [])}${conditionsTable(result, system)}${picture}${note(`${summaryNumber(result, 'evaluations') ?? 0} points were tried.`)}${everyOutput(result, system)}`;
}

/** Each condition, what the figure is there, and how much is left. */
function conditionsTable(result: Result, system: System): Html | null {
  const conditions = result.series['conditions'] ?? {};
  const keys = texts(conditions, 'figure');
  if (keys.length === 0) return null;
  const [sense, bound] = [texts(conditions, 'sense'), numbers(conditions, 'bound_si')];
  const found = texts(result.series['tried'] ?? {}, 'what').includes('found');
  const rows = keys.map((key, k) => {
    const output = result.outputs[key];
    const value = summaryNumber(result, key);
    if (output === undefined) return [key];
    const { unit, factor } = scaleOf(output, system);
    const limit = bound[k] ?? Number.NaN;
    const left = value === null ? null : (value - limit) * (sense[k] === 'at least' ? 1 : -1);
    return [
      output.label,
      `${sense[k]} ${boundText(output, limit, system)}`,
      valueOf(result, key, system),
      left === null ? '–' : written(left * factor, unit),
    ];
  });
  return numbersTable(
    { columns: ['', 'condition', found ? 'found' : 'at the closest', 'left'], rows },
    found ? 'The conditions, and what is left' : 'The conditions, and what is missing',
  );
}
