/**
 * src/runs/summaries/: what each question is answered with, as types: a figure that there is none of does not compile, and each shows its
 * meaning and unit to whoever points at it. Written from the tables of outputs.
 */
import { chargeOutputs } from '../../src/runs/charge/outputs.ts';
import { launchOutputs } from '../../src/runs/launch/outputs.ts';
import { repeatOutputs } from '../../src/runs/launch/repeat-outputs.ts';
import type { Output } from '../../src/runs/result.ts';
import { sheetOutputs } from '../../src/runs/sheet/outputs.ts';
import { standardOutputs } from '../../src/runs/standard/outputs.ts';
import { driveOutputs } from '../../src/runs/trip/drive-outputs.ts';
import { rangeOutputs } from '../../src/runs/trip/range-outputs.ts';
import { steadyOutputs } from '../../src/runs/trip/steady-outputs.ts';
import { weighOutputs } from '../../src/runs/weigh/outputs.ts';

type Outputs = { readonly [key: string]: Output };

export const SUMMARIES: ReadonlyMap<string, Outputs> = new Map([
  ['charge', chargeOutputs],
  ['drive', driveOutputs],
  ['launch', launchOutputs],
  ['range', rangeOutputs],
  ['repeat', repeatOutputs],
  ['sheet', sheetOutputs],
  ['standard', standardOutputs],
  ['steady', steadyOutputs],
  ['weigh', weighOutputs],
]);

/** Path below the root of the project, and text. */
export function summaryTypes(): readonly (readonly [string, string])[] {
  return [...SUMMARIES].map(([kind, outputs]) => [`src/runs/summaries/${kind}.ts`, file(kind, outputs)]);
}

function file(kind: string, outputs: Outputs): string {
  const name = `${kind.charAt(0).toUpperCase()}${kind.slice(1)}Summary`;
  const lines = Object.entries(outputs).map(
    ([key, output]) =>
      `  /** ${commentOf(output)} */\n  readonly ${key}: ${output.unit === '' ? 'string' : 'number'} | null;\n`,
  );
  return `/** Written by \`npm run defaults\` from the tables of outputs: do not edit. */

/** Figures of a ${kind}; null where there is none, with the reason in \`reasons\`. */
export type ${name} = {
${lines.join('')}};
`;
}

function commentOf({ label, unit, doc }: Output): string {
  const of = unit === '' ? '' : unit === '1' ? ' A pure number.' : ` In ${unit}.`;
  return `${label.charAt(0).toUpperCase()}${label.slice(1)}: ${doc}.${of}`.replaceAll('*/', '* /');
}
