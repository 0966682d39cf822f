/** What to know better first: the inputs with which the spread of a figure goes. */
import type { Mover, Result } from '../runs/result.ts';
import { wordsOfPath } from '../studies/question/path-words.ts';
import type { Asked, Card } from './card.ts';

/** As a question of the card; null where its figure has no interval, or no input stands out. */
export function knowBetter(result: Result, { headline }: Card): Asked | null {
  const movers = moversOf(result, headline?.key);
  if (movers.length === 0) return null;
  const told = movers.map(
    ({ path, share }, k) =>
      `${wordsOfPath(path.slice(path.indexOf('.') + 1))} (${percent(share)}${k === 0 ? ' of the spread' : ''})`,
  );
  return { question: 'What to know better?', word: '', answer: `${told.join(', ')}.`, aside: true };
}

/** Of the figure itself, or of one that is the same: the time of a launch and that to its speed. */
function moversOf({ intervals, summary }: Result, key: string | undefined): readonly Mover[] {
  const { movers = {} } = intervals ?? {};
  if (key === undefined) return [];
  const same =
    Object.keys(movers).find(other => other === key) ??
    Object.keys(movers).find(other => summary[other] === summary[key]);
  return same === undefined ? [] : (movers[same] ?? []);
}

/** In steps of 5 %: the samples of a page know no more. */
function percent(share: number): string {
  return `${Math.max(5, 5 * Math.round(20 * share))}\u00A0%`;
}
