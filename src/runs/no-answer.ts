/** A question without an answer: a result with a reason, not an error. */
import type { Output, Result, Summary } from './result.ts';
import type { Figures } from './sound.ts';

/** Every figure missing for the same reason, but for those that are known before the run. */
export function noFigures(outputs: { readonly [key: string]: Output }, reason: string, known: Summary = {}): Figures {
  const keys = Object.keys(outputs).filter(key => !(key in known));
  return {
    summary: Object.fromEntries(Object.keys(outputs).map(key => [key, known[key] ?? null])),
    reasons: Object.fromEntries(keys.map(key => [key, reason])),
  };
}

/** Why a question has no answer; `ended`: why the integration ended before its time, where that is the reason. */
export interface None {
  readonly none: string;
  readonly ended?: string;
}

/**
 * A result in which every value is missing for the same reason, which is also its warning.
 * @param known values that are known before the run.
 * @param ended why the integration ended before its time, where that is the reason.
 */
export function noAnswer<S extends Summary = Summary>(
  kind: string,
  outputs: { readonly [key: string]: Output },
  reason: string,
  ended?: string,
  known: Summary = {},
): Result<S> {
  const { summary, reasons } = noFigures(outputs, reason, known);
  return {
    kind,
    reasons,
    // As in `sound`.
    summary: summary as S,
    outputs,
    series: {},
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    warnings: [reason],
    ...(ended === undefined && { broken: [reason] }),
    opinion: null,
    ...(ended !== undefined && { ended }),
  };
}
