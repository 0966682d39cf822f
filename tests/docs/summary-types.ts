/**
 * src/runs/summaries/: what each question is answered with, as types: a figure that there is none of does not compile, and each shows its
 * meaning and unit to whoever points at it. Written from the tables of outputs.
 */
import { chargeOutputs } from '../../src/runs/charge/outputs.ts';
import { launchOutputs } from '../../src/runs/launch/outputs.ts';
import { repeatOutputs } from '../../src/runs/launch/repeat-outputs.ts';
import { launchCurrents, travelCurrents } from '../../src/runs/duty/currents.ts';
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

/** What several summaries have alike, the one with most figures first, by the name of its type. */
const SHARED: readonly (readonly [string, Outputs])[] = [
  ['TravelCurrents', travelCurrents],
  ['LaunchCurrents', launchCurrents],
];

/** Path below the root of the project, and text. */
export function summaryTypes(): readonly (readonly [string, string])[] {
  const own = [...SUMMARIES].map(([kind, outputs]) => [`src/runs/summaries/${kind}.ts`, file(kind, outputs)] as const);
  const shared = SHARED.map(
    ([name, outputs]) => `\n${typeOf(name, outputs, 'What flows and what turns, as several runs tell it.')}`,
  );
  return [...own, ['src/runs/summaries/currents.ts', `${WRITTEN}\n${shared.toReversed().join('')}`]];
}

const WRITTEN = '/** Written by `npm run defaults` from the tables of outputs: do not edit. */';

function file(kind: string, outputs: Outputs): string {
  const name = `${kind.charAt(0).toUpperCase()}${kind.slice(1)}Summary`;
  const base = baseOf(name, outputs);
  const imports = base === undefined ? '' : `import type { ${base[0]} } from './currents.ts';\n`;
  const doc = `Figures of a ${kind}; null where there is none, with the reason in \`reasons\`.`;
  return `${WRITTEN}\n${imports}\n${typeOf(name, outputs, doc)}`;
}

/** What is shared, and is all there. */
function baseOf(name: string, outputs: Outputs): readonly [string, Outputs] | undefined {
  const has = (shared: Outputs): boolean => Object.entries(shared).every(([key, output]) => outputs[key] === output);
  return SHARED.find(([own, shared]) => own !== name && has(shared));
}

function typeOf(name: string, outputs: Outputs, doc: string): string {
  const base = baseOf(name, outputs);
  const lines = Object.entries(outputs)
    .filter(([key]) => base === undefined || !Object.hasOwn(base[1], key))
    .map(
      ([key, output]) =>
        `  /** ${commentOf(output)} */\n  readonly ${key}: ${output.unit === '' ? 'string' : 'number'} | null;\n`,
    );
  return `/** ${doc} */\nexport type ${name} = ${base === undefined ? '' : `${base[0]} & `}{\n${lines.join('')}};\n`;
}

function commentOf({ label, unit, doc }: Output): string {
  const of = unit === '' ? '' : unit === '1' ? ' A pure number.' : ` In ${unit}.`;
  return `${label.charAt(0).toUpperCase()}${label.slice(1)}: ${doc}.${of}`.replaceAll('*/', '* /');
}
