/** What stands of a result in the answer at the head of a page: a figure, a sentence, a small picture. */
import { endsText, intervalText } from '../plots/kit/interval.ts';
import { summaryNumber } from '../plots/kit/series.ts';
import type { Ends } from '../plots/kit/interval.ts';
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { type Described, figure } from '../units/rounding.ts';
import { holesText, reason } from './unanswered.ts';

export interface Card {
  /** Null where the answer is no figure but a sentence. */
  readonly headline: Headline | null;
  /** What there is to say beside the figure; '' where that is all. */
  readonly text: string;
  readonly small: Small | null;
  /** A few lines, where it is they that decide. */
  readonly table?: CardTable | undefined;
  /** Questions that are put to every run of this kind. */
  readonly asked: readonly Asked[];
  /** Whether something of it fails: it is marked. */
  readonly alarming?: boolean;
}

export interface CardTable {
  readonly columns: readonly string[];
  readonly rows: readonly { readonly cells: readonly string[]; readonly bad: boolean }[];
}

/** The figure in front; null when there is none: the reason stands in its place. */
export interface Headline {
  /** `8.43 s`. */
  readonly figure: string | null;
  /** What it is of: `0 to 100 km/h`. */
  readonly of: string;
  /** Why there is no figure, without a full stop. */
  readonly reason: string;
  /** `8.43 [8.01, 8.90] s`, and the ends alone; null without an interval. */
  readonly within: string | null;
  readonly ends: string | null;
  /** The figure's name in the summary; left out where it is none of its own. */
  readonly key?: string;
  /** What samples say that are not as the run; '' where all are. */
  readonly holes: string;
}

/** A question and its answer; `word` says it in short. */
export interface Asked {
  readonly question: string;
  readonly word: string;
  readonly answer: string;
  /** Not worth its place on a single sheet; `crowded`: on one with many cards. */
  readonly aside?: boolean | 'crowded';
}

/** A picture that needs no axes: for the eye only, the words beside it say the same. */
export type Small =
  /** What holds a launch back, piece by piece: shares of the whole length. */
  | { readonly kind: 'strip'; readonly pieces: readonly Piece[] }
  /** Things of one sort, each a bar of its share of the longest. */
  | { readonly kind: 'bars'; readonly bars: readonly Bar[] }
  /** A value and the ends of its interval on a scale that begins at nothing: shares of its length. */
  | { readonly kind: 'within'; readonly low: number; readonly value: number; readonly high: number };

export interface Piece {
  /** In full, and the letter that stands for it. */
  readonly what: string;
  readonly sign: string;
  readonly share: number;
  readonly word: string;
  readonly colour: string;
  readonly ink: string;
}

export interface Bar {
  readonly name: string;
  /** Of the longest, 0 to 1. */
  readonly share: number;
  readonly text: string;
  /** `best` of them, or `out`: it breaks a limit. */
  readonly mark: 'best' | 'out' | '';
}

/** An answer that is a sentence. */
export function sentenceCard(text: string, small: Small | null = null): Card {
  return { headline: null, text, small, asked: [] };
}

/** An answer that is a figure, with its interval on a scale where it has one. */
export function figureCard(result: Result, headline: Headline, key: string, text: string): Card {
  return { headline, text, small: withinOf(summaryNumber(result, key), result.intervals?.of[key]), asked: [] };
}

/** The figure of an output as a headline. */
export function headlineOf(result: Result, key: string, of: string, system: System): Headline {
  const value = summaryNumber(result, key);
  const holes = holesText(result, key, system);
  if (value === null) return { key, figure: null, of, reason: reason(result, key), within: null, ends: null, holes };
  const what: Described = result.outputs[key] ?? { unit: '1', display: { metric: '1', imperial: '1' } };
  const ends = result.intervals?.of[key];
  return {
    key,
    figure: figure(value, what, system),
    of,
    reason: '',
    within: ends === undefined ? null : intervalText(value, ends, what, system),
    ends: ends === undefined ? null : endsText(value, ends, what, system),
    holes,
  };
}

/** Room on the scale beyond the upper end. */
const BEYOND = 1.08;

function withinOf(value: number | null, ends: Ends | undefined): Small | null {
  if (value === null || ends === undefined || ends.low < 0 || !(ends.high > ends.low)) return null;
  const scale = BEYOND * ends.high;
  return { kind: 'within', low: ends.low / scale, value: value / scale, high: ends.high / scale };
}
