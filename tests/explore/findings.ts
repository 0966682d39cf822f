/** What is wrong with the outcome of a notebook. */
import type { NotebookOutcome } from '../../src/notebook/document/outcome.ts';
import type { Result } from '../../src/runs/result.ts';

export const KINDS = [
  'fault',
  'hang',
  'slow',
  'ledger',
  'opinion',
  'implausible',
  'early',
  'late',
  'jump',
  'study',
  'refused',
] as const;

export interface Finding {
  readonly kind: (typeof KINDS)[number];
  /** Cell that it is about. */
  readonly cell: string;
  /** Kind of that cell. */
  readonly of: string;
  /** What was found, with its size. */
  readonly text: string;
  /** The same without numbers, for telling alike from unlike. */
  readonly sort: string;
}

/** Relative size from which a difference is one. */
const LEAST = 1e-6;

function finding(kind: Finding['kind'], cell: string, of: string, text: string, sort = text): Finding {
  return { kind, cell, of, text, sort: `${kind} ${of} ${sort.replace(/-?\d+(\.\d+)?(e[-+]?\d+)?/g, '#')}` };
}

/** Of one outcome by itself. */
export function findingsOf(outcome: NotebookOutcome): Finding[] {
  return outcome.blocks.flatMap(block => {
    if (block.kind !== 'cell') return [];
    const { cell, name, problem, result } = block;
    const own = result === null ? [] : ofResult(name, cell, result);
    // A result that is not to be relied on stands there with what is wrong with it; that is told by the result.
    if (problem === null || own.length > 0) return own;
    const fault = /a fault of axlewatt itself/.test(problem.message);
    const text = `${problem.path}: ${problem.message}`;
    return [finding(fault ? 'fault' : 'refused', name, cell, text, problem.message)];
  });
}

function ofResult(name: string, cell: string, result: Result): Finding[] {
  const found: Finding[] = [];
  const { ledger, opinion, warnings, summary, series } = result;
  if (!(Math.abs(ledger.gap) <= LEAST)) found.push(finding('ledger', name, cell, `gap ${ledger.gap.toExponential(1)}`));
  if (opinion !== null && !(opinion.difference <= LEAST)) {
    found.push(
      finding(
        'opinion',
        name,
        cell,
        `differs by ${opinion.difference.toExponential(1)} in ${opinion.where}`,
        'differs',
      ),
    );
  }
  for (const warning of warnings) {
    if (/no car can have/.test(warning)) found.push(finding('implausible', name, cell, warning));
    if (/ended early/.test(warning)) found.push(finding('early', name, cell, warning));
    if (/found late/.test(warning)) found.push(finding('late', name, cell, warning));
  }
  for (const [key, value] of Object.entries(summary)) {
    if (typeof value === 'number' && !Number.isFinite(value)) found.push(finding('implausible', name, cell, key));
    const untold = value === null && (result.reasons[key] ?? '') === '';
    if (untold) found.push(finding('implausible', name, cell, `${key} is missing without a reason`));
  }
  for (const columns of Object.values(series)) {
    for (const [key, { values }] of Object.entries(columns)) {
      if (values instanceof Float64Array && values.some(value => Math.abs(value) === Infinity)) {
        found.push(finding('implausible', name, cell, `${key} is infinite somewhere`));
      }
    }
  }
  return found;
}

/** Sizes below which a figure is as good as nothing, by unit; differences are told against them at least. */
const FLOOR: { readonly [unit: string]: number } = {
  s: 1,
  m: 10,
  J: 1e4,
  'J/m': 10,
  W: 100,
  'm/s': 1,
  K: 273,
  A: 10,
  V: 10,
  'N m': 10,
  kg: 10,
};

function difference(unit: string, a: number, b: number): number {
  return Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b), FLOOR[unit] ?? 0.1);
}

/** Figures that move by more than a car whose mass has changed by a thousand-millionth. */
export function jumps(before: NotebookOutcome, after: NotebookOutcome): Finding[] {
  return before.blocks.flatMap(block => {
    if (block.kind !== 'cell' || block.result === null) return [];
    const other = after.blocks.find(each => each.kind === 'cell' && each.name === block.name);
    if (other?.kind !== 'cell') return [];
    if (other.result === null) return [finding('jump', block.name, block.cell, 'has no result any more')];
    const { summary, outputs } = block.result;
    let worst = LEAST;
    let where = '';
    const words: Finding[] = [];
    for (const [key, value] of Object.entries(summary)) {
      const moved = other.result.summary[key] ?? null;
      if (typeof value !== 'number' || typeof moved !== 'number') {
        if (value !== moved)
          words.push(finding('jump', block.name, block.cell, `${key}: ${value} becomes ${moved}`, key));
        continue;
      }
      const size = difference(outputs[key]?.unit ?? '1', value, moved);
      if (size > worst) [worst, where] = [size, `${key} moves by ${size.toExponential(1)}: ${value} to ${moved}`];
    }
    return where === '' ? words : [finding('jump', block.name, block.cell, where, where.split(' ')[0]), ...words];
  });
}

/** Sweeps named `same_RUN` with one row that is the car itself: their figures against those of the run. */
export function studyDifferences(outcome: NotebookOutcome): Finding[] {
  const results = new Map<string, Result>();
  for (const block of outcome.blocks) {
    if (block.kind === 'cell' && block.result !== null) results.set(block.name, block.result);
  }
  return outcome.blocks.flatMap(block => {
    if (block.kind !== 'cell' || block.cell !== 'sweep' || !block.name.startsWith('same_')) return [];
    const run = block.name.slice('same_'.length);
    return Object.entries(block.result?.series['rows'] ?? {}).flatMap(([key, column]) => {
      const figure = key.slice(run.length + 1);
      const own = results.get(run)?.summary[figure];
      const asked = column.values[0];
      if (own === undefined || typeof own === 'string' || typeof asked !== 'number') return [];
      const kind =
        outcome.blocks.flatMap(each => (each.kind === 'cell' && each.name === run ? [each.cell] : []))[0] ?? '';
      if (own === null || Number.isNaN(asked)) {
        if ((own === null) === Number.isNaN(asked)) return [];
        return [
          finding('study', run, kind, `${figure}: cell ${own}, sweep ${asked}`, `${figure} is missing on one side`),
        ];
      }
      const size = difference(column.unit, own, asked);
      return size > LEAST ? [finding('study', run, kind, `${figure}: cell ${own}, sweep ${asked}`, figure)] : [];
    });
  });
}

export function slowFinding(cell: string, of: string, seconds: number): Finding {
  return finding('slow', cell, of, `takes ${seconds.toFixed(1)} s`);
}

export function lostFinding(kind: 'fault' | 'hang', text: string): Finding {
  return finding(kind, '', 'notebook', text.split('\n').slice(0, 12).join('\n'), text.split('\n')[0]);
}
