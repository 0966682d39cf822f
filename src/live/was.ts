/** What a card said for the notebook as it stands, beside what it says now. */
import type { Card } from '../report/card.ts';

/** `8.43 s in the notebook, now −0.31 s`; '' where nothing is different. */
export function wasText(own: Card | null, now: Card | null): string {
  const before = own?.headline ?? null;
  if (before === null)
    return own === null || now === null || own.text === now.text ? '' : `In the notebook: ${own.text}`;
  const figure = now?.headline?.figure ?? null;
  if (before.figure === figure) return '';
  if (before.figure === null) return `In the notebook: ${before.reason}`;
  const by = figure === null ? '' : difference(before.figure, figure);
  return `${by === '' ? '' : `${by} · `}notebook ${before.figure}`;
}

/** What a reader would find between two figures of one unit; '' where they have none in common. */
function difference(before: string, now: string): string {
  const [a, b] = [FIGURE.exec(before)?.groups, FIGURE.exec(now)?.groups];
  if (a === undefined || b === undefined || a['unit'] !== b['unit']) return '';
  const [x = '', y = ''] = [a['number'], b['number']];
  const decimals = Math.max(...[x, y].map(text => text.split('.')[1]?.length ?? 0));
  const by = Number(y.replace('−', '-')) - Number(x.replace('−', '-'));
  const text = Math.abs(by).toFixed(decimals);
  const unit = a['unit'] ?? '';
  return Number(text) === 0 ? '' : `${by < 0 ? '−' : '+'}${text}${unit}`;
}

const FIGURE = /^(?<number>[-−]?\d+(?:\.\d+)?)(?<unit>\s*[^\d\s][^\d]*)?$/u;
