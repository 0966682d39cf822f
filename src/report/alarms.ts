/** What fails, and overrules whatever else is answered: it stands first. */
import type { CellBlock } from '../notebook/document/outcome.ts';
import { folded, type ProblemData } from '../notebook/document/problem.ts';
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { reportOf } from './kinds.ts';
import { unansweredCases } from './unanswered.ts';

/** What of a result fails: limits that are broken, and cases in which the figure of its card does not come about. Without full stops. */
export function alarmsOf(result: Result, system: System): readonly string[] {
  const kind = reportOf(result);
  const headline = kind.card(result, system)?.headline ?? null;
  const silent = headline === null || headline.key === undefined ? '' : unansweredCases(result, headline.key);
  return [...(kind.alarms?.(result, system) ?? result.broken ?? []), ...(silent === '' ? [] : [silent])];
}

/** Warnings beside the words of a result: what these say in full is said once. */
export function unsaidWarnings(result: Result, system: System): readonly string[] {
  const kind = reportOf(result);
  const said = [...(kind.lines?.(result, system) ?? []), kind.words(result, system)].join('\n');
  return result.warnings.filter(warning => !said.includes(warning.replace(/\.$/u, '')));
}

/** Promises that are not kept, and cells without an answer that anybody may rely on. Without full stops. */
export function failuresOf(
  cells: readonly CellBlock[],
  problems: readonly ProblemData[],
): readonly { readonly name: string; readonly text: string }[] {
  const broken = cells.flatMap(({ checks }) => checks.filter(({ holds }) => !holds));
  const { own, waiting } = folded(problems);
  return [
    ...own.map(({ path, message, line }) => ({ name: path === '' ? `line ${line}` : path, text: message })),
    ...(waiting === '' ? [] : [{ name: 'no answer', text: waiting }]),
    ...broken.map(({ promise, found }) => ({ name: 'promised, and not kept', text: `${promise} (${found})` })),
  ];
}
