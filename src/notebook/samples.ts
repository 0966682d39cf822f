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

/**
 * Units of `effort` that a page takes for its samples where nobody says how many: some four seconds of one core. Common practice, no
 * source: what somebody in a workshop waits for.
 */
export const MOST_WORK = 20_000_000;

/** Samples below which an interval of 90 % says next to nothing: a page takes so many of a run, or none. */
export const FEWEST = 32;

/** @param kinds of the cells of the page. */
export function mostSamples(kinds: readonly string[]): number {
  const slow = RUN_KINDS.some(({ kind, within, slow }) => slow && kinds.includes(within?.cell ?? kind));
  return slow ? MOST_SLOW : MOST;
}
