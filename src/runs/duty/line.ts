/** One thing that a part must stand, and what its data sheet says to it. */
import type { Output } from '../result.ts';

/** `required`: the sheet says nothing, so the figure is what the part must have. `figure`: judged by nobody here. */
export type Verdict = 'pass' | 'look' | 'fail' | 'required' | 'figure';

export const VERDICTS: readonly Verdict[] = ['fail', 'look', 'pass', 'required', 'figure'];

export interface Line {
  /** Name of the figure for formulas: `pack_current_10_s`. */
  readonly key: string;
  readonly part: string;
  readonly output: Output;
  /** SI; null where there is none, for the reason in `note`. */
  readonly value: number | null;
  /** The run that it is of; '' where it is of the car. */
  readonly run: string;
  /** What the sheet says, SI; null where it says nothing. */
  readonly limit: number | null;
  /** Whether the figure may be as much as the limit at most, or must be as much at least. */
  readonly side: 'most' | 'least';
  readonly verdict: Verdict;
  /** A sentence without a full stop; '' for none. */
  readonly note: string;
}

/** Parts in words: `pack, charged` is the pack again, so `pack (also charged), inverter`. */
export function partNames(parts: readonly string[]): string {
  const found = new Map<string, string[]>();
  for (const part of new Set(parts)) {
    const [name = part, ...way] = part.split(', ');
    found.set(name, [...(found.get(name) ?? []), way.join(', ')]);
  }
  const told = [...found].map(([name, ways]) => {
    const named = ways.filter(way => way !== '').join(' and ');
    if (named === '') return name;
    return ways.includes('') ? `${name} (also ${named})` : `${name} (${named})`;
  });
  return told.join(', ');
}

/** What is said of a line before it is judged. */
export type Said = Pick<Line, 'key' | 'part' | 'output' | 'value'> &
  Partial<Pick<Line, 'run' | 'limit' | 'side' | 'note'>> & {
    /** A worse case that need not come, as a run repeated without a pause: beyond the limit the line is to be looked at. */
    readonly worst?: number;
    /** A limit up to which all is well: nothing is looked at before it. */
    readonly sharp?: true;
    /** What is known without a limit. */
    readonly verdict?: Verdict;
  };

/** Judges lines against what sheets say. @param lookFrom share of a limit from which on a line is to be looked at. */
export function judge(lookFrom: number): (said: Said) => Line {
  return ({ run = '', limit = null, side = 'most', note = '', verdict, worst, sharp, ...said }) => ({
    ...said,
    run,
    limit,
    side,
    note,
    verdict: verdict ?? verdictOf(said.value, limit, side, sharp === true ? 1 : lookFrom, worst),
  });
}

/** Share of a limit that is no excess: 16 A out of a charger that may draw 16 A come out as 16.000000000000007. */
const ROUND_OFF = 1e-9;

function verdictOf(
  value: number | null,
  limit: number | null,
  side: Line['side'],
  lookFrom: number,
  worst: number | undefined,
): Verdict {
  if (limit === null) return 'required';
  if (value === null) return 'look';
  const over = (each: number): number => (side === 'most' ? each / limit : limit / each);
  if (over(value) > 1 + ROUND_OFF) return 'fail';
  return over(value) > lookFrom || (worst !== undefined && over(worst) > 1) ? 'look' : 'pass';
}
