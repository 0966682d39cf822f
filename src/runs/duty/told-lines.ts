/** What is told of the lines of a duty: figures, counts, warnings, verdicts and their table; and again once their intervals are known. */
import { item, nth } from '../../columns.ts';
import { column, textColumn } from '../column.ts';
import { number, words } from '../output.ts';
import type { Coverage, Intervals, Output, Result, Series } from '../result.ts';
import { numbers, texts } from '../series.ts';
import { UNJUDGED } from './lines/wires.ts';
import { type Line, partNames, VERDICTS } from './line.ts';

type Told = Pick<Result, 'summary' | 'reasons' | 'outputs' | 'series' | 'warnings' | 'broken' | 'verdicts'>;

export function tellLines(lines: readonly Line[]): Told {
  const broken = warningsOf(lines);
  // Of a cable whose sheet is entered its owner expects a verdict.
  const unjudged = lines
    .filter(({ note }) => note.startsWith(UNJUDGED))
    .map(({ part, output }) => `${part}, ${output.label}: ${UNJUDGED}`);
  return {
    ...figuresOf(lines),
    series: { lines: lineSeries(lines) },
    warnings: [...broken, ...unjudged],
    broken,
    verdicts: verdictsOf(lines),
  };
}

/** A duty with its intervals: what passes, and could be beyond its sheet within them, is to be looked at. */
export function withDoubts(result: Result, intervals: Intervals): Result {
  const lines = linesIn(result).map(line => {
    const coverage = line.verdict === 'pass' ? intervals.of[line.key] : undefined;
    if (coverage === undefined || !reaches(coverage, line)) return line;
    return { ...line, verdict: 'look' as const, note: [line.note, DOUBTFUL].filter(Boolean).join('; ') };
  });
  const { series, ...told } = tellLines(lines);
  return { ...result, ...told, series: { ...result.series, ...series }, intervals };
}

const DOUBTFUL = 'its interval goes beyond what the sheet says';

function reaches({ low, high }: Coverage, { limit, side }: Line): boolean {
  return limit !== null && (side === 'most' ? high > limit : low < limit);
}

/** The lines as they stand in the table of a result. */
function linesIn({ summary, outputs, series }: Result): readonly Line[] {
  const table = series['lines'] ?? {};
  const limits = numbers(table, 'limit');
  return texts(table, 'figure').map((key, row): Line => {
    const of = (name: string): string => item(texts(table, name), row);
    const [value, output, limit] = [summary[key], outputs[key], nth(limits, row)];
    if (output === undefined) throw new Error(`a line without its output: ${key}`);
    return {
      key,
      part: of('part'),
      output: { ...output, label: of('what') },
      value: typeof value === 'number' ? value : null,
      run: of('run'),
      limit: Number.isNaN(limit) ? null : limit,
      side: of('side') === 'most' ? 'most' : 'least',
      verdict: VERDICTS.find(each => each === of('verdict')) ?? 'figure',
      note: of('note'),
    };
  });
}

/** What is counted of all lines. */
export const DUTY_COUNTS: { readonly [key: string]: Output } = {
  verdict: words('on the whole', 'the worst that is said of a part against the data sheets that are entered'),
  fails: number('fail', 'lines beyond their data sheet'),
  looks: number('to be looked at', 'lines close to their data sheet, or beyond it in a worse case'),
  passes: number('pass', 'lines within their data sheet'),
  required: number('required', 'lines of which no data sheet is entered'),
};

function figuresOf(lines: readonly Line[]): Pick<Result, 'summary' | 'reasons' | 'outputs'> {
  const count = (verdict: Line['verdict']): number => lines.filter(line => line.verdict === verdict).length;
  const counts = { fails: count('fail'), looks: count('look'), passes: count('pass'), required: count('required') };
  const verdict = counts.fails > 0 ? 'fail' : counts.looks > 0 ? 'look' : counts.passes > 0 ? 'pass' : 'required';
  const named = lines.map(({ key, part, output, value, note }) => ({
    key,
    value,
    note,
    output: { ...output, label: `${part}: ${output.label}` },
  }));
  return {
    summary: { verdict, ...counts, ...Object.fromEntries(named.map(({ key, value }) => [key, value])) },
    reasons: Object.fromEntries(
      named.flatMap(({ key, value, note }) => (value === null ? [[key, note || 'it has no figure']] : [])),
    ),
    outputs: { ...DUTY_COUNTS, ...Object.fromEntries(named.map(({ key, output }) => [key, output])) },
  };
}

function lineSeries(lines: readonly Line[]): Series {
  const text = (label: string, of: (line: Line) => string) => textColumn(label, lines.map(of));
  const numbers = (label: string, of: (line: Line) => number | null) =>
    column(
      label,
      '1',
      '1',
      '1',
      Float64Array.from(lines, line => of(line) ?? Number.NaN),
    );
  return {
    figure: text('figure', ({ key }) => key),
    part: text('part', ({ part }) => part),
    what: text('what', ({ output }) => output.label),
    value: numbers('value in SI', ({ value }) => value),
    unit: text('unit', ({ output }) => output.unit),
    run: text('run', ({ run }) => run),
    side: text('side', ({ side }) => side),
    limit: numbers('data sheet in SI', ({ limit }) => limit),
    verdict: text('verdict', ({ verdict }) => verdict),
    note: text('note', ({ note }) => note),
  };
}

function warningsOf(lines: readonly Line[]): readonly string[] {
  return lines
    .filter(({ verdict }) => verdict === 'fail')
    .map(
      ({ part, output, note }) =>
        `${part}, ${output.label}: beyond what is entered for it${note === '' ? '' : ` (${note})`}`,
    );
}

const NOT_A_SELECTION = 'Not a selection of parts: the data sheets of their makers and a licensed professional decide';

/** How many lines came to which verdict, the worst first. */
export function verdictsOf(lines: readonly Line[]): readonly string[] {
  const all = VERDICTS.map(verdict => ({ verdict, of: lines.filter(line => line.verdict === verdict) }));
  const parts = (of: readonly Line[]): string => partNames(of.map(({ part }) => part));
  const words: { readonly [verdict in Line['verdict']]: (of: readonly Line[]) => string } = {
    fail: of =>
      `${of.length === 1 ? '1 line is' : `${of.length} lines are`} beyond the data sheets that are entered: ${parts(of)}`,
    look: of => `${of.length === 1 ? '1 is' : `${of.length} are`} to be looked at: ${parts(of)}`,
    pass: of => `${of.length === 1 ? '1 is' : `${of.length} are`} within the data sheets that are entered`,
    required: of =>
      of.length === 1
        ? '1 is a requirement: no data sheet is entered for it'
        : `${of.length} are requirements: no data sheet is entered for them`,
    figure: () => '',
  };
  const told = all.flatMap(({ verdict, of }) => (of.length === 0 || verdict === 'figure' ? [] : [words[verdict](of)]));
  return [...told, NOT_A_SELECTION];
}
