/** What the results of all calibrations have in common. */
import { speedColumn, textColumn } from '../runs/column.ts';
import type { Coverage, Output, Result, Series } from '../runs/result.ts';
import type { Shortcoming } from './problem.ts';

export const EMPTY_LEDGER = { in: {}, out: {}, stored: {}, gap: 0 };

/** Of a normal distribution, 19 of 20. */
export const TWO_SIDED = 1.959963984540054;

/** `130 kW (121 kW to 139 kW)`: ± is a standard uncertainty wherever it is typed, so half an interval must not stand behind it. */
export function within(value: number, half: number, shown: (each: number) => string): string {
  return `${shown(value)} (${shown(value - half)} to ${shown(value + half)})`;
}

/** The same, on one side: no more than 1 of 20 lies beyond. */
const ONE_SIDED = 1.644853626951472;

export function coverageOf(value: number, standard: number): Coverage {
  const [half, one] = [TWO_SIDED * standard, ONE_SIDED * standard];
  const promised = { atLeast: value - one, atMost: value + one };
  return { low: value - half, high: value + half, promised, standard, error: 0, known: true, below: null, missing: 0 };
}

/** A calibration that gives no figure, and why. */
export function noCalibration(
  kind: string,
  outputs: { readonly [key: string]: Output },
  short: readonly Shortcoming[],
  warnings: readonly string[],
): Result {
  const why = short.map(({ what, cure }) => `${what}; it takes ${cure}`);
  const keys = Object.keys(outputs);
  return {
    kind,
    summary: Object.fromEntries(keys.map(key => [key, null])),
    reasons: Object.fromEntries(keys.map(key => [key, why[0] ?? 'the log does not give it'])),
    outputs,
    series: {},
    bands: [],
    events: [],
    ledger: EMPTY_LEDGER,
    warnings,
    opinion: null,
    verdicts: why.map(each => `No figure: ${each}`),
  };
}

/** What was read less what is fitted, row by row, with the run that each row is of. */
export function residualColumns(rows: readonly { readonly off: number; readonly run: string }[]): Series {
  return {
    residual_m_s: speedColumn(
      'read less fitted',
      Float64Array.from(rows, ({ off }) => off),
    ),
    run: textColumn(
      'run',
      rows.map(({ run }) => run),
    ),
  };
}
