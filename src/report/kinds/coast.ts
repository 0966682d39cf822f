/** A coast-down in full: the words, the traces, the time from any speed to any other. */
import { coastTraces } from '../../plots/coast.ts';
import { plainFigure, summaryNumber } from '../../plots/kit/series.ts';
import { numbers } from '../../runs/series.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Card, figureCard, headlineOf, sentenceCard } from '../card.ts';
import type { BodyParts, ReportKind } from '../kind.ts';
import { figureOf } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { allOutputs, valueOf } from '../page/outputs.ts';
import { holesSentence, reason } from '../unanswered.ts';

export const coastReport: ReportKind = {
  kind: 'coast',
  card: coastCard,
  words: coastWords,
  body: coastBody,
  cautions: [
    {
      title: 'A coast-down is driven on a closed course',
      text: 'A car that coasts is slower than the traffic behind it, and lamps do not tell others that it slows down. In neutral nothing of the drive helps to stop it: brakes and steering must work without it.',
      defers: 'the traffic law of the place, and whoever runs the course',
    },
  ],
};

/** The body of a coast cell below its warnings. Ids inside begin with `id`. */
async function coastBody(result: Result, system: System, id: string, { ledger }: BodyParts): Promise<Html> {
  const words = html`<p class="lead">${coastWords(result, system)}</p>
`;
  if (result.series['time'] === undefined) return words;
  const drawn = numbers(result.series['time'], 'time_s').length > 1;
  return html`${words}${drawn ? await figureOf(coastTraces(result, system), `${id}-coast`) : null}${ledger}
<details class="every"><summary>All outputs, and what each one is</summary>${allOutputs(result, system)}</details>
`;
}

function coastCard(result: Result, system: System): Card {
  const headline = headlineOf(result, 'time', `to coast ${fromTo(result, system)}`, system);
  if (headline.figure === null) return sentenceCard(coastWords(result, system));
  const text = `Over ${plainFigure(result, 'distance', system)}. ${forces(result, system)}`;
  return figureCard(result, headline, 'time', text);
}

function fromTo(result: Result, system: System): string {
  if (summaryNumber(result, 'from_speed') === null) return 'down';
  return `from ${plainFigure(result, 'from_speed', system)} to ${plainFigure(result, 'to_speed', system)}`;
}

/** `742 N slow it at the start, 168 N at the end.` and what comes back. */
function forces(result: Result, system: System): string {
  const value = (key: string): string => plainFigure(result, key, system);
  const back = summaryNumber(result, 'energy_back') ?? 0;
  const returned =
    back > 0 ? ` ${value('energy_back')} come back into the pack, ${value('recovered')} of the energy of motion.` : '';
  return `${value('force_start')} slow it at the start, ${value('force_end')} at the end.${returned}`;
}

/** What becomes of it, for page and terminal alike. */
export function coastWords(result: Result, system: System): string {
  const holes = holesSentence(result, 'time', system);
  if (summaryNumber(result, 'end_speed') === null) return `No coast-down: ${reason(result, 'end_speed')}.${holes}`;
  if (summaryNumber(result, 'time') === null)
    return `No time: ${reason(result, 'time')}. ${forces(result, system)}${holes}`;
  const value = (key: string): string => plainFigure(result, key, system);
  return `${valueOf(result, 'time', system)} ${fromTo(result, system)}, over ${value('distance')}, ${value('mean_deceleration')} on average. ${forces(result, system)}${holes}`;
}
