/** Steady speeds in full: the words, the curve. */
import { duration } from '../../plots/kit/duration.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { rangeBySpeed } from '../../plots/range-by-speed.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Card, figureCard, headlineOf, sentenceCard } from '../card.ts';
import { capital } from '../../units/rounding.ts';
import type { BodyParts, Pictures, ReportKind } from '../kind.ts';
import { figuresOf } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { allOutputs, valueOf } from '../page/outputs.ts';
import { consumption, rounded } from './trip.ts';
import { holesSentence, reason } from '../unanswered.ts';
import { NO_PROMISE } from './no-promise.ts';

export const steadyReport: ReportKind = {
  kind: 'steady',
  card: steadyCard,
  words: steadyWords,
  pictures,
  body: steadyBody,
  cautions: [NO_PROMISE],
};

/** The body of a steady cell below its warnings. Ids inside begin with `id`. */
async function steadyBody(result: Result, system: System, id: string, { ledger }: BodyParts): Promise<Html> {
  const words = html`<p class="lead">${steadyWords(result, system)}</p>
`;
  if (result.series['speed'] === undefined) return words;
  return html`${words}${await figuresOf(pictures(result, system), id)}${ledger}
<details class="every"><summary>All outputs, and what each one is</summary>${allOutputs(result, system)}</details>
`;
}

function pictures(result: Result, system: System): Pictures {
  const none = result.series['speed'] === undefined || summaryNumber(result, 'farthest') === null;
  return none ? [] : [['speeds', rangeBySpeed(result, system)]];
}

function steadyCard(result: Result, system: System): Card {
  const of = `at a steady ${valueOf(result, 'speed', system)}, ${rounded(result, 'air_temperature', system)}`;
  const headline = headlineOf(result, 'range', of, system);
  return headline.figure === null
    ? sentenceCard(steadyAnswer(result, system))
    : figureCard(result, headline, 'range', `${capital(consumption(result, system))}.`);
}

/** The answer in one sentence. */
export function steadyAnswer(result: Result, system: System): string {
  const holes = holesSentence(result, 'range', system);
  if (summaryNumber(result, 'range') === null) return `No range: ${reason(result, 'range')}.${holes}`;
  const value = (key: string): string => valueOf(result, key, system);
  return `${value('range')} at a steady ${value('speed')} and ${rounded(result, 'air_temperature', system)}: ${consumption(result, system)}.${holes}`;
}

/** What becomes of it, for page and terminal alike. */
function steadyWords(result: Result, system: System): string {
  const [time, farthest] = [summaryNumber(result, 'time'), summaryNumber(result, 'farthest')];
  if (time === null) return steadyAnswer(result, system);
  const value = (key: string): string => valueOf(result, key, system);
  const best = farthest === null ? '' : ` Farthest of the curve: ${value('farthest')} at ${value('farthest_speed')}.`;
  return `${steadyAnswer(result, system)} That lasts ${duration(time)} and takes ${value('power')} out of the pack.${best}`;
}
