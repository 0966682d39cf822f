/** Why the figures of a run are not to be relied on, whatever they say. */
import type { Result } from './result.ts';

/** Share of its throughput by which a ledger may fail to close. Common practice, no source: far above round-off, far below what matters. */
const LEDGER_TOLERANCE = 1e-6;

const REPORT = 'do not rely on its figures, and please report it with the notebook';

/** One sentence for each doubt, with what to do; empty for a sound result. */
export function doubtsOf({ ledger, opinion, ended }: Pick<Result, 'ledger' | 'opinion' | 'ended'>): readonly string[] {
  const doubts: string[] = [];
  if (ended !== undefined) doubts.push(`the integration ended early (${ended}): ${REPORT}`);
  if (!(Math.abs(ledger.gap) <= LEDGER_TOLERANCE)) {
    const [gap, most] = [ledger.gap, LEDGER_TOLERANCE].map(share => (100 * Math.abs(share)).toExponential(1));
    doubts.push(`its energies do not add up: ${gap} % is not accounted for, at most ${most} % may be: ${REPORT}`);
  }
  if (opinion !== null && !opinion.agrees) {
    const [found, most] = [opinion.difference, opinion.tolerance].map(share => share.toExponential(1));
    doubts.push(
      `worked out a second time by another method (${opinion.method}) it differs by ${found} in "${opinion.where.replaceAll('_', ' ')}", at most ${most} may be: ${REPORT}`,
    );
  }
  return doubts;
}
