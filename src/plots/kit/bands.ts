/** The stretches during which one thing held the car back: cut to a span, added up, laid out. */
import { LIMITERS, type Limiter } from '../../model/forward/limiter.ts';
import type { Band } from '../../runs/result.ts';

/** Time that one limiter held within a span. */
export interface Share {
  readonly limiter: Limiter;
  /** s. */
  readonly time: number;
  /** Part of the span, 0 to 1. */
  readonly share: number;
  /** s, when it first held. */
  readonly first: number;
}

/** The parts of the bands before `end` (s); neighbours with the same limiter become one, empty ones go. */
export function cutBands(bands: readonly Band[], end: number): readonly Band[] {
  const kept: Band[] = [];
  for (const band of bands) {
    const to = Math.min(band.to, end);
    if (!(to > band.from)) continue;
    const last = kept.at(-1);
    if (last !== undefined && last.limiter === band.limiter) kept[kept.length - 1] = { ...last, to };
    else kept.push({ ...band, to });
  }
  return kept;
}

/** How long each limiter held before `end` (s), in the order in which they came into force. */
export function shares(bands: readonly Band[], end: number): readonly Share[] {
  const kept = cutBands(bands, end);
  const total = kept.reduce((sum, band) => sum + band.to - band.from, 0);
  const found: Share[] = [];
  for (const limiter of LIMITERS) {
    const own = kept.filter(band => band.limiter === limiter);
    const first = own[0];
    if (first === undefined) continue;
    const time = own.reduce((sum, band) => sum + band.to - band.from, 0);
    found.push({ limiter, time, share: time / total, first: first.from });
  }
  return found.toSorted((a, b) => a.first - b.first);
}

/** The one that held longest before `end` (s), or null when there are no bands. */
export function longest(bands: readonly Band[], end: number): Share | null {
  return shares(bands, end).reduce<Share | null>(
    (best, share) => (best === null || share.time > best.time ? share : best),
    null,
  );
}
