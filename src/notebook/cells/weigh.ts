/** `yaml weigh NAME`: the scales before, what comes out, what goes in. */
import { completeLedger } from '../../model/body/complete-ledger.ts';
import { weighFields } from '../../model/body/ledger-fields.ts';
import { weigh as weighCar } from '../../runs/weigh/weigh.ts';
import type { World } from '../context.ts';
import { entryOf, type LocatedMap, type LocatedNode, problemAt } from '../document/located.ts';
import { mergeMaps } from '../fields/merge.ts';
import { oddities } from '../fields/oddities.ts';
import { NotebookProblem } from '../document/problem.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { resultYield } from './result.ts';

export const weigh: CellKind = {
  kind: 'weigh',
  language: 'yaml',
  named: true,
  doc: 'a car on the scales: kerb mass, axle loads, centre of gravity, tyres, before and after a conversion',
  fields: weighFields,
  beside: 'from',
  notes: [
    'from: another weigh cell, of which this one says only what differs; a list takes the place of the whole list there',
    'a car cell takes mass, driver, front_share, cg_height and wheelbase from it with `weights: NAME`',
    'top_speed may be `= dash.top_speed`, but not of a car that takes its weights from here: compare tyre_speed in a check cell then',
  ],
  prepare(cell) {
    const written = readCell(cell);
    const own: LocatedMap = { ...written, entries: written.entries.filter(({ key }) => key.text !== 'from') };
    const from = entryOf(written, 'from')?.value;
    return {
      needs: [...fieldNeeds(own, weighFields), ...(from?.kind === 'scalar' ? [from.text] : [])],
      run(world) {
        const { name } = cell.piece;
        const map = from === undefined ? own : mergeMaps(baseOf(from, name, world), own);
        const { values, inputs } = readFieldsOf(map, weighFields, world, name);
        const completed = withSpec(map, name, () => completeLedger(values, name));
        const found = weighCar(completed, world.system);
        const warnings = [...found.warnings, ...oddities(inputs, weighFields, world.system)];
        const result = { ...found, warnings };
        const weighing = { ledger: completed.ledger, map };
        return {
          ...resultYield(result, [...inputs, ...completed.inputs], world.system),
          product: { kind: 'result', result, weighing },
        };
      },
    };
  },
};

/** The mapping of the weighing that this one starts from. */
function baseOf(from: LocatedNode, name: string, world: World): LocatedMap {
  const product = from.kind === 'scalar' ? world.given(from.text)?.product : undefined;
  if (product?.kind === 'result' && product.weighing !== undefined) return product.weighing.map;
  throw new NotebookProblem(problemAt(from, `${name}.from`, 'is no weighing', 'the name of a weigh cell'));
}
