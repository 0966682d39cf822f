/** What a page with knobs carries beside what is read of it: all that the notebook is run again from. Plain JSON. */
import type { Result } from '../../runs/result.ts';
import type { Samples } from '../../notebook/samples.ts';

export interface LiveData {
  /** Of the notebook. */
  readonly text: string;
  readonly file: string;
  /** As for `RunOptions`. */
  readonly samples: Samples;
  /** Files that it reads, by the path that it says. */
  readonly files: readonly (readonly [path: string, text: string])[];
  /** What its studies found, without their tables: they are run again only where a knob reaches them. */
  readonly kept: readonly (readonly [cell: string, result: Result])[];
  /** Where its cells stand in the page. */
  readonly cells: readonly { readonly name: string; readonly id: string; readonly level: number }[];
}

/** Ids of parts of the page that are put anew. */
export const cardId = (cell: string): string => `${cell}-card`;
export const ALARMS = 'alarms';
export const CARS = 'cars';
export const MINDS = 'minds';
export const BESIDES = 'besides';
export const DATA = 'axlewatt-notebook';
export const ENGINE = 'axlewatt-engine';
export const PANEL = 'knobs';
