/** What a report says of one kind of result. `kinds.ts` lists them; pages and terminal ask there, and know no kind by name. */
import type { Picture } from '../plots/kit/picture.ts';
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import type { Card } from './card.ts';
import type { Html } from './page/html.ts';

export interface Caution {
  readonly title: string;
  readonly text: string;
  /** What has the last word. */
  readonly defers: string;
}

/** What stands in every body, where the kind wants it. */
export interface BodyParts {
  /** The energy ledger, ready to be placed. */
  readonly ledger: Html;
  /** What square brackets mean in this result; null where it has none. */
  readonly brackets: Html | null;
}

/** By their names within one result, in the order of the page. */
export type Pictures = readonly (readonly [string, Picture])[];

export interface ReportKind {
  /** As in `Result`. */
  readonly kind: string;
  /** What stands of it in the answer at the head of the page; null where it has nothing to say there. */
  readonly card: (result: Result, system: System) => Card | null;
  /** What of it fails, in sentences without a full stop that stand before every answer; left out: its `broken`. */
  readonly alarms?: (result: Result, system: System) => readonly string[];
  /** Whether several of it stand side by side there. */
  readonly besides?: true;
  /** What it says in sentences, for the terminal. */
  readonly words: (result: Result, system: System) => string;
  /** Sentences that stand before them, each on lines of its own. */
  readonly lines?: (result: Result, system: System) => readonly string[];
  /** Whether the terminal shows what holds the car back as a band; words say it otherwise. */
  readonly band?: false;
  /** Pictures of its part of the page by name, those for which the result has the numbers. */
  readonly pictures?: (result: Result, system: System) => Pictures;
  /** Its part of the page, below its warnings; ids inside begin with `id`. */
  readonly body: (result: Result, system: System, id: string, parts: BodyParts) => Promise<Html>;
  /** The ledger is folded where bars have told it already. */
  readonly ledger?: 'folded';
  /** What brackets mean follows the body, unless the body places it inside, or has a way of its own to tell it. */
  readonly brackets?: 'inside' | 'own';
  /** What must be read before it is acted on, beside what holds for all. */
  readonly cautions?: readonly Caution[];
}
