/** The shape that every run answers in, so that tables, plots and exports need no special cases. */
import type { Limiter } from '../model/forward/limiter.ts';
import type { Trail } from './trail/trail.ts';

/** Describes one output: what it is, its unit inside, and the units people read it in. */
export interface Output {
  readonly label: string;
  /** SI unit; '1' for a pure number, '' for text. */
  readonly unit: string;
  readonly display: { readonly metric: string; readonly imperial: string };
  readonly doc: string;
}

/** Values of a summary: a number in SI units, a word, or null with the reason in `reasons`. */
export type Summary = { readonly [key: string]: number | string | null };

/** A typed column of a series. */
export interface Column {
  readonly label: string;
  readonly unit: string;
  readonly display: { readonly metric: string; readonly imperial: string };
  readonly values: Float64Array | readonly string[];
}

/** Columns of equal length; the first is the independent one (`time` or `speed`). Keys as in CSV headers: `speed_m_s`. */
export type Series = { readonly [key: string]: Column };

export interface ResultEvent {
  /** s since the pedal went down. */
  readonly time: number;
  readonly what: string;
}

/** Energies in J, every one positive in the direction of its name; `in` = `out` + `stored` up to `gap`. */
export interface Ledger {
  readonly in: { readonly [name: string]: number };
  readonly out: { readonly [name: string]: number };
  readonly stored: { readonly [name: string]: number };
  /** (in - out - stored) / throughput. */
  readonly gap: number;
}

/** What the second integrator said about the same run. */
export interface SecondOpinion {
  readonly method: string;
  /** Largest relative difference over the times, speeds and energies compared. */
  readonly difference: number;
  /** The output with that difference. */
  readonly where: string;
  /** Difference above which it is shown as a warning. */
  readonly tolerance: number;
  readonly agrees: boolean;
  /** s up to which the second integrator got with the work it may take; left out where it did the whole run. */
  readonly until?: number;
}

/** A stretch of the run during which one thing held the car back. */
export interface Band {
  readonly from: number;
  readonly to: number;
  readonly limiter: Limiter;
}

/** What the spreads of the inputs make of the outputs (JCGM 101:2008). */
export interface Intervals {
  /** Coverage probability. */
  readonly probability: number;
  /** Samples taken; 0 where the interval is that of a measurement, reckoned without any. */
  readonly samples: number;
  /** More would have said more, and were more work than a page takes unasked. */
  readonly cut?: true;
  readonly seed: number;
  /** Samples in a block of the sequence, where they were taken block by block. */
  readonly block?: number;
  /** Uncertain inputs that were drawn. */
  readonly inputs: number;
  /** By key of the summary; left out where too few samples have an answer. */
  readonly of: { readonly [key: string]: Coverage };
  /** Figures that some samples do not have, by key of the summary. */
  readonly holes: { readonly [key: string]: Holes };
  /** Of headlines: the inputs with which most of the spread goes, largest first; left out where the samples do not tell any. */
  readonly movers?: { readonly [key: string]: readonly Mover[] };
}

/** An input with which the spread of a figure goes along. */
export interface Mover {
  /** With the name of the car or run in front. */
  readonly path: string;
  /**
   * Share of the variance of the ranks of the figure that the input explains and those told with it do not: of the first the square of Spearman's rank correlation
   * (C. Spearman, American Journal of Psychology 15 (1904) 72-101; from memory). All of a figure are 1 at most together.
   */
  readonly share: number;
}

/** What the samples that have an answer say of one figure. */
export interface Coverage {
  /** Ends of the interval. */
  readonly low: number;
  readonly high: number;
  /**
   * The value that the figure reaches or exceeds, and the one that it does not exceed, each with the probability of the intervals: what may be promised of it. Samples
   * without an answer count against a promise; null where there are too many of them.
   */
  readonly promised: { readonly atLeast: number | null; readonly atMost: number | null };
  /** Standard uncertainty. */
  readonly standard: number;
  /** By how much another set of samples may move an end, in 19 of 20 of them; `known`: whether there are samples enough to say so. */
  readonly error: number;
  readonly known: boolean;
  /** Share of those samples that lie below the figure of the run itself; null where it has none. */
  readonly below: number | null;
  /** Samples without an answer. */
  readonly missing: number;
}

/** Samples without an answer. */
export interface Holes {
  readonly missing: number;
  /** Why, the most frequent reason first. */
  readonly reasons: readonly { readonly reason: string; readonly samples: number }[];
}

/** One change of a car, and what it brings. */
export interface Lever {
  readonly what: LeverKind;
  /** What it is changed from and to, in SI units: of the thing itself, or so much more of it. */
  readonly from: number;
  readonly to: number;
  /** kg by which the car gets heavier through it. */
  readonly heavier: number;
  /** s to the target speed with it, and s gained by it; null where there is no answer, with the reason. */
  readonly time: number | null;
  readonly gain: number | null;
  readonly reason: string;
}

export type LeverKind =
  | 'friction'
  | 'weight on the driven axle'
  | 'mass'
  | 'parallel'
  | 'series'
  | 'charge'
  | 'warmth'
  | 'pedal'
  | 'ratio'
  | 'torque'
  | 'power'
  | 'half shafts';

export interface Result<S extends Summary = Summary> {
  /** Kind of run: `launch`, ... */
  readonly kind: string;
  readonly summary: S;
  /** Why a value of the summary is null, by its key. */
  readonly reasons: { readonly [key: string]: string };
  /** Describes every key of the summary, in the order of display. */
  readonly outputs: { readonly [key: string]: Output };
  /** Named sets of columns: `time` (the trace), `traction` (forces over speed), ... */
  readonly series: { readonly [name: string]: Series };
  readonly bands: readonly Band[];
  readonly events: readonly ResultEvent[];
  readonly ledger: Ledger;
  /** Sentences that the reader must see with the result. */
  readonly warnings: readonly string[];
  /** How things were read, such as a pause taken as a stop: worth knowing, nothing to beware of. */
  readonly notes?: readonly string[];
  /** Whether its rows have no intervals because nobody asked for them and they are too much work to be taken unasked. */
  readonly unsampled?: true;
  readonly opinion: SecondOpinion | null;
  /** Why the integration ended before its time; left out where it did not. */
  readonly ended?: string;
  /** Sentences that answer the question, the most important one first; for studies. */
  readonly verdicts?: readonly string[];
  /** Those of the warnings that overrule an answer: a limit of a part or of the papers is broken, or the run does not come about. */
  readonly broken?: readonly string[];
  /** What flows and turns all along it, for what its parts must stand; left out where it takes no time. */
  readonly trail?: Trail;
  /** Lines of a car cell that say what was found; for calibrations. */
  readonly lines?: readonly string[];
  /** Lines of part cells that say what was found of a part, by its kind; for calibrations. */
  readonly parts?: { readonly [kind: string]: readonly string[] };
  /** Left out where no input is uncertain, or no samples were asked for. */
  readonly intervals?: Intervals;
  /** What would make a launch quicker; left out where nobody looked. */
  readonly levers?: readonly Lever[];
}
