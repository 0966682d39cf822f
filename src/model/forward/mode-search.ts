/** The mode of two driven axles where changing one limit after the other goes round in circles. */
import type { AxleFigures } from './figures.ts';
import type { Moving } from './instant.ts';
import { AXLE_BITS, GRIP, L, REAR_SHIFT, SLIDE } from './state.ts';

/** So far below nothing no guard is passed. */
const CONSISTENT = -1e-9;

/**
 * Of all modes with the gear of this one that in which the least guard is the greatest, and the first in which none is passed.
 * @param least the least guard of a mode.
 */
export function searchedMode({ front, rear }: Moving, from: number, least: (mode: number) => number): number {
  const kept = from & ~(AXLE_BITS | (AXLE_BITS << REAR_SHIFT));
  let best = from;
  let most = least(from);
  for (const [f, r] of pairsOf(front, rear)) {
    const slides = from & (SLIDE | (SLIDE << REAR_SHIFT));
    const mode = kept | slides | f | (r << REAR_SHIFT);
    const found = least(mode);
    if (found > CONSISTENT) return mode;
    if (!(found > most)) continue;
    most = found;
    best = mode;
  }
  return best;
}

/** Bits of both axles: of two that keep a share one follows the other, and one at its grip has a limit of its own below that. */
function pairsOf(front: AxleFigures, rear: AxleFigures): readonly (readonly [number, number])[] {
  if (!front.driven || !rear.driven) return [];
  const pairs = withGrip(front, front.used).flatMap(f => withGrip(rear, rear.used).map(r => [f, r] as const));
  const shared = front.torqueShare !== 0;
  return shared ? pairs.filter(([f, r]) => isSplit(f) !== isSplit(r)) : pairs;
}

function isSplit(bits: number): boolean {
  return bits === L.split;
}

function withGrip({ spin }: AxleFigures, used: Int32Array): readonly number[] {
  return Array.from(used).flatMap(l => (spin || isSplit(l) ? [l] : [l, l | GRIP]));
}
