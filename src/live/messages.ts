/** What the page and its worker say to each other. */
import type { Setting } from '../notebook/document/written-setting.ts';
import type { Summary } from '../runs/result.ts';
import type { LiveData } from '../report/page/live-data.ts';
import type { Change } from './changes.ts';

export type ToWorker =
  | { readonly kind: 'open'; readonly data: LiveData; readonly rehearsal: Rehearsal | null }
  /** Nobody waits for anything that was asked before. */
  | { readonly kind: 'stop'; readonly turn: number }
  /** For the bare figures of what the settings reach, in all their digits. */
  | { readonly kind: 'figures'; readonly settings: readonly Setting[] }
  | {
      readonly kind: 'turn';
      /** Counts up: only the newest is answered. */
      readonly turn: number;
      readonly settings: readonly Setting[];
      /** Whether the page shows the slim drawings. */
      readonly slim: boolean;
      /** The pictures that are seen, by id, and which drawing of the worker stands there, 0 for none of its; at rest all of them are drawn. */
      readonly seen: ReadonlyMap<string, number>;
      readonly rest: boolean;
    };

/** What a reader may do first: done once before, so that nobody waits for code that is cold. */
export interface Rehearsal {
  readonly turns: readonly (readonly Setting[])[];
  readonly slim: boolean;
  readonly seen: ReadonlyMap<string, number>;
}

export type FromWorker =
  | { readonly kind: 'ready' }
  | { readonly kind: 'rehearsed' }
  | ({ readonly kind: 'turned'; readonly turn: number } & Parts)
  | {
      readonly kind: 'figures';
      readonly figures: readonly (readonly [cell: string, summary: Summary])[];
      readonly lines: string;
    }
  | { readonly kind: 'failed'; readonly message: string };

/** A picture that is drawn anew: as a whole, or by what of the drawing before it changes. */
export interface Redrawn {
  readonly id: string;
  readonly drawing: number;
  readonly svg: string | { readonly over: number; readonly changes: readonly Change[] };
  readonly caption: string;
}

/** What is put anew in the page. */
export interface Parts {
  /** Whole elements by their ids. */
  readonly elements: readonly (readonly [id: string, html: string])[];
  /** Pictures alone. */
  readonly pictures: readonly Redrawn[];
  /** Whether they are the slim drawings. */
  readonly slim: boolean;
  /** Quoted figures in the order in which they stand; null for what stands in the notebook. */
  readonly quotes: readonly { readonly place: number; readonly text: string | null; readonly wrong: boolean }[];
  /** Ids of the cells that do not stand at the settings yet, and why. */
  readonly late: readonly string[];
  /** One sentence for who does not see the page. */
  readonly told: string;
  /** The cells as they would be written. */
  readonly lines: string;
  /** Whether a control moves: what stands in a card beside its figure is as it was. */
  readonly core: boolean;
  /** Whether the control rests, and this is all. */
  readonly rested: boolean;
  /** What is still being worked out; '' where all is there. */
  readonly working: string;
}
