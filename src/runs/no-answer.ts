/** A question without an answer: a result with a reason, not an error. */
import type { Output, Result } from './result.ts';

/**
 * A result in which every value is missing for the same reason, which is also its warning.
 * @param ended why the integration ended before its time, where that is the reason.
 */
export function noAnswer(
  kind: string,
  outputs: { readonly [key: string]: Output },
  reason: string,
  ended?: string,
): Result {
  const keys = Object.keys(outputs);
  return {
    kind,
    summary: Object.fromEntries(keys.map(key => [key, null])),
    reasons: Object.fromEntries(keys.map(key => [key, reason])),
    outputs,
    series: {},
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    warnings: [reason],
    opinion: null,
    ...(ended !== undefined && { ended }),
  };
}
