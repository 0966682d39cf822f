/** What running a notebook gives: the same blocks in the same order, each with what came out of it. Plain data. */
import type { Input, Spread } from '../../model/fields/input.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import type { CellPiece } from './document.ts';
import type { Knob } from './knob.ts';
import type { ProblemData } from './problem.ts';

export interface NotebookOutcome {
  /** Path as the user gave it. */
  readonly file: string;
  /** From the front matter, else the first heading, else the file name. */
  readonly title: string;
  readonly system: System;
  readonly blocks: readonly Block[];
  /** Every input that any run of the notebook used: given, computed, assumed. */
  readonly inputs: readonly Input[];
  /** All problems of all cells and of inline results, in order of line. */
  readonly problems: readonly ProblemData[];
  /** Number of `check` lines that do not hold. */
  readonly failedChecks: number;
}

export type Block = ProseBlock | CellBlock;

/** Prose: HTML made from the Markdown with raw HTML escaped; inline results stand as `<output>` elements. */
export interface ProseBlock {
  readonly kind: 'prose';
  readonly html: string;
  /** The same as plain text, for the terminal. */
  readonly text: string;
  /** Whether it is what the author answers: it stands first. */
  readonly answers?: true;
}

/** The cell as it is written, and what came out of it. */
export interface CellBlock extends CellPiece {
  /**
   * Null when the cell has no problem. A failed cell has neither values, chart nor checks; its result is there only where it is
   * one that is not to be relied on.
   */
  readonly problem: ProblemData | null;
  /** Result of a run cell; null otherwise. */
  readonly result: Result | null;
  /** Named values of a calc cell. */
  readonly values: readonly NamedValue[];
  /** Vega-Lite spec of a plot cell, checked to load nothing; null otherwise. */
  readonly chart: { readonly title: string; readonly spec: object } | null;
  readonly checks: readonly CheckOutcome[];
  /** Of a car cell: what car it is; left out for all others. */
  readonly sketch?: CarSketch;
  /** Controls of a knobs cell; left out for all others. */
  readonly knobs?: readonly Knob[];
}

/** A car in the words of a workshop. */
export interface CarSketch {
  /** The car or the calibration that it is made from; null for none. */
  readonly from: string | null;
  /** Mass, drive, tyres, pack: what is the same stands in the same place and in the same words as in another car. */
  readonly parts: readonly string[];
  /** Of these parts what it says itself; and what else. */
  readonly told: readonly string[];
  readonly besides: readonly string[];
}

export interface NamedValue {
  readonly name: string;
  readonly value: number | string | boolean;
  /** SI unit, '1' for a pure number. */
  readonly unit: string;
  readonly display: string;
  readonly spread?: Spread;
}

export interface CheckOutcome {
  /** What it promises, in the words of the author or in those of its figures. */
  readonly promise: string;
  /** The comparison. */
  readonly text: string;
  readonly line: number;
  readonly holds: boolean;
  /** `4.81 s < 8 s`, the two sides evaluated. */
  readonly found: string;
  /** Of a figure with an interval: whether it may be promised, and what may be: `in nine of ten at most 5.2 s`. */
  readonly sure?: { readonly hold: boolean; readonly text: string };
}
