/** How many samples a page takes. */
import { RUN_KINDS } from '../runs/kinds.ts';

/**
 * Samples for each run: as many as are asked for; `enough`: doubled until the ends of all intervals of the page stand still in the first
 * digit of their uncertainty (JCGM 101:2008, 7.9), `MOST` of them at most; 0: none.
 */
export type Samples = number | 'enough';

/** Samples that a page begins with. */
export const FIRST = 64;

/** The greatest number of samples that nobody asked for, and that of a page with a run that drives for hours: a matter of waiting. */
const MOST = 1024;
const MOST_SLOW = 128;

/** @param kinds of the cells of the page. */
export function mostSamples(kinds: readonly string[]): number {
  const slow = RUN_KINDS.some(({ kind, within, slow }) => slow && kinds.includes(within?.cell ?? kind));
  return slow ? MOST_SLOW : MOST;
}
