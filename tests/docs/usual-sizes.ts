/** src/units/usual-sizes.ts: the size of every unit that a field or a result is kept or shown in, as the parser of units has it. */
import type { Field, Fields } from '../../src/model/fields/field.ts';
import { partFields } from '../../src/notebook/cells/part.ts';
import { CELL_KINDS } from '../../src/notebook/cells/registry.ts';
import { RUN_KINDS } from '../../src/runs/kinds.ts';
import { weighOutputs } from '../../src/runs/weigh/outputs.ts';
import { unitOf } from '../../src/units/unit.ts';

interface Shown {
  readonly unit: string;
  readonly display?: { readonly metric: string; readonly imperial: string };
}

function shownIn(fields: Fields): readonly Shown[] {
  return Object.values(fields).flatMap((field: Field): readonly Shown[] => {
    if (field.kind === 'group' || field.kind === 'groups') return shownIn(field.fields);
    return field.kind === 'number' || field.kind === 'numbers' ? [field] : [];
  });
}

/** The units, each once, in the order of the alphabet. */
export function usualUnits(): readonly string[] {
  const fields = [...[...partFields].map(([, each]) => each), ...CELL_KINDS.map(each => each.fields)].flatMap(shownIn);
  const outputs = [...RUN_KINDS.map(kind => kind.outputs), weighOutputs].flatMap(each => Object.values(each));
  const all = [...fields, ...outputs].flatMap(({ unit, display }) => [unit, ...Object.values(display ?? {})]);
  return [...new Set(all)].filter(unit => unit !== '').toSorted();
}

/** The file. */
export function usualSizes(): string {
  const rows = usualUnits().map(unit => {
    const { factor, zero } = unitOf(unit);
    return `  ${key(unit)}: [${factor}, ${zero}],`;
  });
  return `/** Written by \`npm run defaults\` from the units of all fields and results: do not edit. In SI: the size, and what is added before. */
export const USUAL_SIZES: { readonly [unit: string]: readonly [factor: number, zero: number] } = {
${rows.join('\n')}
};
`;
}

/** Quoted where the formatter would quote it. */
function key(unit: string): string {
  return /^[A-Za-z_]\w*$/u.test(unit) ? unit : `'${unit}'`;
}
