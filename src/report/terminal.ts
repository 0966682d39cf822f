/** The short answer for a terminal: plain text, narrow enough, readable without colours. */
import { styleText } from 'node:util';
import type { CellBlock, NotebookOutcome } from '../notebook/document/outcome.ts';
import { folded, type ProblemData, problemText } from '../notebook/document/problem.ts';
import { cutBands, shares } from '../plots/kit/bands.ts';
import { SIGN } from '../plots/kit/palette.ts';
import { span, summaryNumber } from '../plots/kit/series.ts';
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { cellTitle, valueText } from './page/cell.ts';
import { intervalNote, valueOf } from './page/outputs.ts';
import { harmless } from './harmless.ts';
import { createGuard } from './guard.ts';
import { unsaidWarnings } from './alarms.ts';
import { exactInputs } from './exact-inputs.ts';
import { goalOf, hasOwnTarget } from './kinds/launch.ts';
import { reportOf } from './kinds.ts';

export interface TerminalOptions {
  readonly color: boolean;
  /** Characters of a line; at least 40 are used. */
  readonly width: number;
}

type Style = Parameters<typeof styleText>[0];
type Paint = (style: Style, text: string) => string;

/** Key outputs, as many as have a value: why one has none is told where it matters. */
const KEYS: { readonly [system in System]: readonly string[] } = {
  metric: ['time_to_100_km_h', 'time_80_to_120_km_h', 'time_quarter_mile', 'top_speed'],
  imperial: ['time_to_60_mph', 'time_50_to_80_km_h', 'time_quarter_mile', 'top_speed'],
};

/** Per run the key figures, the limiter band and the verdict; then values, checks and problems. @param onFault see `writeReport`. */
export function terminalSummary(
  outcome: NotebookOutcome,
  options: TerminalOptions,
  onFault?: (fault: ProblemData) => void,
): string {
  const guard = createGuard(outcome.file, 'the summary');
  const width = Math.max(40, Math.floor(options.width));
  // styleText would look at the streams; the caller has done that already.
  const paint: Paint = (style, text) => (options.color ? styleText(style, text, { validateStream: false }) : text);
  const cells = outcome.blocks.filter(block => block.kind === 'cell');
  const runPart = (block: CellBlock, result: Result): readonly string[] =>
    guard.part(
      block,
      () => runLines(block, result, outcome.system, width, paint),
      () => [],
    );
  const parts = [
    [...wrap(outcome.title, width, '').map(line => paint('bold', line)), ...wrap(outcome.file, width, '')],
    answerLines(outcome, width),
    ...cells.flatMap(block => (block.result === null ? [] : [runPart(block, block.result)])),
    ...cells.flatMap(block => (block.values.length === 0 ? [] : [valueLines(block, width, paint)])),
    exactLines(outcome, width),
    checkLines(cells, outcome.failedChecks, width, paint),
  ];
  parts.push(problemLines([...outcome.problems, ...guard.faults], width, paint));
  for (const fault of guard.faults) onFault?.(fault);
  return `${parts
    .filter(lines => lines.length > 0)
    .map(lines => lines.join('\n'))
    .join('\n\n')}\n`;
}

/** What the brackets do not know of, where there are any. */
function exactLines({ blocks, inputs }: NotebookOutcome, width: number): readonly string[] {
  const sampled = blocks.some(block => block.kind === 'cell' && (block.result?.intervals?.samples ?? 0) > 0);
  return sampled ? wrap(exactInputs(inputs), width, '') : [];
}

/** What the author answers. */
function answerLines({ blocks }: NotebookOutcome, width: number): readonly string[] {
  return blocks.flatMap(block =>
    block.kind === 'prose' && block.answers
      ? block.text.split('\n').flatMap(line => (line.trim() === '' ? [] : wrap(line, width, '  ')))
      : [],
  );
}

function runLines(block: CellBlock, result: Result, system: System, width: number, paint: Paint): readonly string[] {
  const head = `${block.cell} ${cellTitle(block.name)}`;
  const asked = result.kind === 'launch' && hasOwnTarget(result) ? goalOf(result, system) : null;
  const keys = KEYS[system].map(key => [key, result.outputs[key]?.label ?? key] as const);
  // The speed that was asked for comes first.
  const figures = (asked === null ? keys : [asked, ...keys.filter(([, label]) => label !== asked[1])])
    .filter(([key]) => key in result.outputs && summaryNumber(result, key) !== null)
    .map(([key, label]) => `${label} ${valueOf(result, key, system)}`)
    .join(', ');
  const kind = reportOf(result);
  return [
    ...wrap(head, width, '').map(line => paint('bold', line)),
    ...(figures === '' ? [] : wrap(figures, width, '  ')),
    ...(kind.band === false ? [] : bandLines(result, width)),
    ...(kind.lines?.(result, system) ?? []).flatMap(text => (text === '' ? [] : wrap(text, width, '  '))),
    ...wrap(kind.words(result, system), width, '  '),
    ...(kind.brackets === 'own' ? [] : wrap(intervalNote(result) ?? '', width, '  ')),
    ...unsaidWarnings(result, system)
      .flatMap(warning => wrap(`mind: ${warning}`, width, '  '))
      .map(line => paint('yellow', line)),
    ...(result.notes ?? []).flatMap(note => wrap(`note: ${note}`, width, '  ')),
  ];
}

/** The limiter band in letters, a scale under it, and what the letters mean. */
export function bandLines(result: Result, width: number): readonly string[] {
  const end = span(result);
  const bands = cutBands(result.bands, end);
  if (bands.length === 0) return [];
  const room = Math.min(width - 4, 72);
  const strip = Array.from({ length: room }, (_, i) => {
    const t = ((i + 0.5) / room) * end;
    const band = bands.find(({ from, to }) => t >= from && t < to) ?? bands.at(-1);
    return band === undefined ? ' ' : SIGN[band.limiter];
  }).join('');
  const right = `${end.toFixed(1)} s`;
  const legend = shares(bands, end).map(({ limiter, time }) => `${SIGN[limiter]} ${limiter} ${time.toFixed(1)} s`);
  return [`  |${strip}|`, `  0${right.padStart(room + 1)}`, ...wrap(legend.join(', '), width, '  ')];
}

function valueLines(block: CellBlock, width: number, paint: Paint): readonly string[] {
  const values = block.values.flatMap(value => wrap(`${value.name} = ${valueText(value)}`, width, '  '));
  return [...wrap(`${block.cell} ${cellTitle(block.name)}`, width, '').map(line => paint('bold', line)), ...values];
}

function checkLines(cells: readonly CellBlock[], failed: number, width: number, paint: Paint): readonly string[] {
  const checks = cells.flatMap(block => block.checks);
  if (checks.length === 0) return [];
  const held = checks.length - failed;
  const head = `checks: ${held} ${held === 1 ? 'holds' : 'hold'}, ${failed} ${failed === 1 ? 'fails' : 'fail'}`;
  return [
    paint(failed === 0 ? 'green' : ['red', 'bold'], head),
    ...checks
      .filter(check => !check.holds)
      .flatMap(check =>
        wrap(`fails: ${check.promise}: ${check.found} (line ${check.line}, ${check.text})`, width, '  '),
      )
      .map(line => paint('red', line)),
  ];
}

function problemLines(problems: readonly ProblemData[], width: number, paint: Paint): readonly string[] {
  if (problems.length === 0) return [];
  const { own, waiting } = folded(problems);
  return [
    paint(['red', 'bold'], `problems: ${own.length}`),
    // Carets stand under the wrong part only where a line is not broken, so these lines may be wider than the terminal.
    ...own.flatMap(problem => {
      const [head = '', ...rest] = problemText(problem).split('\n');
      return [...wrap(head, width, '  '), ...rest.map(line => `  ${harmless(line)}`)];
    }),
    ...wrap(waiting, width, '  '),
  ];
}

/** Lines of at most `width` characters, all indented; words longer than a line are cut. */
export function wrap(text: string, width: number, indent: string): readonly string[] {
  const room = width - indent.length;
  const lines: string[] = [];
  let line = '';
  for (const word of harmless(text)
    .split(/ +/)
    .flatMap(word => chunks(word, room))) {
    if (line !== '' && line.length + 1 + word.length > room) {
      lines.push(indent + line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  if (line !== '') lines.push(indent + line);
  // Spaces that held a number and its unit together have done so.
  return lines.map(text => text.replaceAll('\u00a0', ' '));
}

function chunks(word: string, size: number): readonly string[] {
  return Array.from({ length: Math.max(1, Math.ceil(word.length / size)) }, (_, i) =>
    word.slice(i * size, (i + 1) * size),
  );
}
