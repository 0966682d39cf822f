/** Gives every run of a page the intervals that the spreads of its inputs mean, all by one number of samples. */
import type { Table } from '../batch/table.ts';
import { item } from '../columns.ts';
import type { Intervals, Result } from '../runs/result.ts';
import type { IntervalPlan } from './intervals.ts';
import { PROBABILITY } from './intervals.ts';
import { type Memory, noteFor } from './memory.ts';
import type { RowsAsk } from './rows-ask.ts';
import { FEWEST, FIRST, MOST_WORK } from './samples.ts';

/** A run that is to get intervals. */
export interface Spreading {
  readonly cell: string;
  readonly plan: IntervalPlan;
  /** It is too much work to be sampled unasked. */
  readonly heavy: () => void;
  /** Takes the intervals, or why there are none. */
  readonly done: (intervals: Intervals) => void;
  readonly failed: (error: unknown) => void;
}

/**
 * Takes samples of all runs side by side: so many, or, where nobody says, twice as many as before until all stand still.
 * @param most where `asked` is null. @param memory of what came out before; left out, all samples are taken.
 */
export function* intervalRounds(
  runs: readonly Spreading[],
  asked: number | null,
  most: number,
  memory?: Memory,
): Generator<RowsAsk, void, Table | null> {
  const note = noteFor<readonly Outcome[]>(memory, { intervals: runs.map(({ plan }) => plan.about), asked, most });
  const before = note?.found ?? null;
  if (before !== null) {
    for (const [k, run] of runs.entries()) tell(run, item(before, k));
    return;
  }
  const outcomes = new Map<Spreading, Outcome>();
  yield* sampledTogether(runs, asked, most, (run, outcome) => {
    outcomes.set(run, outcome);
    tell(run, outcome);
  });
  // Where one of them failed or was interrupted, the next run tries again.
  if (outcomes.size === runs.length) note?.keep(runs.map(run => outcomes.get(run) ?? null));
}

/** The intervals of a run; null where it is too much work. */
type Outcome = Intervals | null;

function tell({ done, heavy }: Spreading, outcome: Outcome): void {
  if (outcome === null) heavy();
  else done(outcome);
}

function* sampledTogether(
  runs: readonly Spreading[],
  asked: number | null,
  most: number,
  ends: (run: Spreading, outcome: Outcome) => void,
): Generator<RowsAsk, void, Table | null> {
  const within = asked === null ? withinWork(runs, most) : { runs, most: asked };
  for (const run of runs) if (!within.runs.includes(run)) ends(run, null);
  const end = within.most;
  let left = within.runs;
  let samples = asked ?? Math.min(FIRST, end);
  for (;;) {
    const kept: Spreading[] = [];
    for (const run of left) if (yield* sampled(run, samples)) kept.push(run);
    left = kept;
    if (samples === end || left.every(({ plan }) => plan.standsStill())) break;
    samples = Math.min(2 * samples, end);
  }
  const cut = asked === null && end < most && samples === end;
  for (const run of left) ends(run, { ...run.plan.read(), ...(cut && !run.plan.standsStill() && { cut }) });
}

/** The runs of which a page takes samples unasked, and how many at most: those that are the most work are left out first. */
function withinWork(
  runs: readonly Spreading[],
  most: number,
): { readonly runs: readonly Spreading[]; readonly most: number } {
  const left = runs.map(run => ({ run, work: workOf(run) })).toSorted((a, b) => a.work - b.work);
  const all = (): number => left.reduce((sum, { work }) => sum + work, 0);
  while (FEWEST * all() > MOST_WORK) left.pop();
  const taken = new Set(left.map(({ run }) => run));
  return { runs: runs.filter(run => taken.has(run)), most: Math.min(most, Math.floor(MOST_WORK / all())) };
}

/** One that fails takes none: what is wrong is told when its samples are taken. */
function workOf({ plan }: Spreading): number {
  try {
    return plan.work();
  } catch {
    return 0;
  }
}

/** Whether it has all of its rows. */
function* sampled({ cell, plan, failed }: Spreading, upTo: number): Generator<RowsAsk, boolean, Table | null> {
  try {
    const table = yield { cell, job: plan.job(upTo), whole: false };
    if (table === null) return false;
    plan.take(table);
    return true;
  } catch (error) {
    // The figures of the run stand; only their intervals are missing.
    failed(error);
    return false;
  }
}

/** A spread of a page. */
export interface Spread {
  readonly runs: readonly string[];
  readonly result: Result;
}

/** Whether a spread is about a run, with the probability of all intervals of a page. */
export function sharesFigures(name: string, { runs, result }: Spread): boolean {
  return runs.includes(name) && result.intervals?.probability === PROBABILITY;
}
