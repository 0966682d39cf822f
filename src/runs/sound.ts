/** The one place through which every result leaves: no number that nobody can have, and a reason for whatever is missing. */
import { isPlausible, whyImplausible } from './plausible.ts';
import type { Column, Ledger, Output, Result, Series, Summary } from './result.ts';

/** Figures as they leave a run. */
export interface Figures {
  readonly summary: Summary;
  /** Of exactly those figures that are null. */
  readonly reasons: { readonly [key: string]: string };
}

const UNTOLD = 'the run does not give it';

/** A result with null and a reason for each figure that no car can have, and holes for such numbers in its series. */
export function sound<S extends Summary = Summary>(result: Result): Result<S> {
  const { summary, reasons } = soundFigures(result.kind, result.outputs, result.summary, result.reasons);
  const lost = Object.keys(summary).filter(key => summary[key] === null && typeof result.summary[key] === 'number');
  const { ledger, told } = soundLedger(result.ledger);
  return {
    ...result,
    // The type of the summary of a kind is written from its outputs; a test holds the two together.
    summary: summary as S,
    reasons,
    series: soundSeries(result.series),
    events: result.events.filter(({ time }) => Number.isFinite(time)),
    ledger,
    warnings: [...warningOf(lost, result.outputs), ...told, ...result.warnings],
  };
}

/** The same for the figures alone. */
export function soundFigures(
  kind: string,
  outputs: { readonly [key: string]: Output },
  summary: Summary,
  reasons: { readonly [key: string]: string } = {},
): Figures {
  // Of thousands of rows nearly all are.
  if (allSound(kind, outputs, summary)) return { summary, reasons: NONE };
  const values: { [key: string]: number | string | null } = {};
  const missing: { [key: string]: string } = {};
  for (const [key, value] of Object.entries(summary)) {
    const output = outputs[key];
    const why = typeof value === 'number' && output !== undefined ? whyImplausible(kind, key, output, value) : null;
    values[key] = why === null ? value : null;
    if (values[key] === null) {
      const own = reasons[key] ?? UNTOLD;
      missing[key] = Number.isNaN(value) ? (reasons[key] ?? why ?? UNTOLD) : (why ?? own);
    }
  }
  return { summary: values, reasons: missing };
}

const NONE = {};

function allSound(kind: string, outputs: { readonly [key: string]: Output }, summary: Summary): boolean {
  for (const key of Object.keys(summary)) {
    const value = summary[key];
    const output = outputs[key];
    if (value === null || value === undefined) return false;
    if (typeof value === 'number' && output !== undefined && whyImplausible(kind, key, output, value) !== null)
      return false;
  }
  return true;
}

function warningOf(lost: readonly string[], outputs: { readonly [key: string]: Output }): readonly string[] {
  if (lost.length === 0) return [];
  const names = lost.map(key => outputs[key]?.label ?? key).join(', ');
  return [`Left out, for no car can have what came out: ${names}. Nothing else of this run should be relied upon`];
}

/** Columns with a hole for every number that can be none; those without one stay as they are, down to their memory. */
function soundSeries(series: Result['series']): Result['series'] {
  return mapped(series, (columns: Series) => mapped(columns, soundColumn));
}

function soundColumn(column: Column): Column {
  const { values, unit } = column;
  if (!(values instanceof Float64Array)) return column;
  const wrong = (value: number): boolean => !Number.isNaN(value) && !isPlausible(unit, value);
  return values.some(wrong) ? { ...column, values: values.map(value => (wrong(value) ? Number.NaN : value)) } : column;
}

function mapped<T>(record: { readonly [key: string]: T }, change: (value: T) => T): { readonly [key: string]: T } {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, change(value)]));
}

/** Energies that are none tell nothing, not even their gap. */
function soundLedger(ledger: Ledger): { readonly ledger: Ledger; readonly told: readonly string[] } {
  const all = [...Object.values(ledger.in), ...Object.values(ledger.out), ...Object.values(ledger.stored), ledger.gap];
  if (all.every(energy => isPlausible('J', energy))) return { ledger, told: [] };
  return {
    // Nothing of it is accounted for.
    ledger: { in: {}, out: {}, stored: {}, gap: 1 },
    told: ['The energy ledger does not close: its energies are such as no car can have, and are left out'],
  };
}
