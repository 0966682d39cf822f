/** The line that a search looks along, and what it sees there. */
import { better } from './trial.ts';
import type { Asking, Trial } from './trial.ts';

/** A place on a line and what was found there. */
export interface Sight {
  readonly t: number;
  readonly trial: Trial;
}

/** One parameter to search along, from `low` to `high`. */
export interface Line {
  readonly low: number;
  readonly high: number;
  /** Whole numbers only. */
  readonly whole: boolean;
  /** Width to which an edge is found; 1 for whole numbers. */
  readonly resolution: number;
  /** Intervals of the first look. */
  readonly scan: number;
  /** Nearest place that the line has. */
  readonly snap: (t: number) => number;
  readonly sight: (t: number) => Asking<Sight>;
  readonly sights: (places: readonly number[]) => Asking<Sight[]>;
}

/** Best of some sights, each looked at through the lens; the first of equals. */
export function bestSight(sights: readonly Sight[], lens: (trial: Trial) => Trial = trial => trial): Sight {
  return sights.reduce((best, sight) => (better(lens(sight.trial), lens(best.trial)) ? sight : best));
}
