/** `yaml weigh NAME`: the scales before, what comes out, what goes in. */
import { completeLedger } from '../../model/complete-ledger.ts';
import { weighFields } from '../../model/mass-ledger-fields.ts';
import { weigh as weighCar } from '../../runs/weigh.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { resultYield } from './result.ts';

export const weigh: CellKind = {
  kind: 'weigh',
  language: 'yaml',
  named: true,
  doc: 'a car on the scales: kerb mass, axle loads, centre of gravity, tyres, before and after a conversion',
  fields: weighFields,
  notes: [
    'a car cell takes mass, front_share, cg_height, wheelbase and driver from it with `weights: NAME`',
    'top_speed may be `= dash.top_speed`, but not of a car that takes its weights from here: compare tyre_speed in a check cell then',
  ],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, weighFields),
      run(world) {
        const { name } = cell.piece;
        const { values, inputs } = readFieldsOf(map, weighFields, world, name);
        const completed = withSpec(map, name, () => completeLedger(values, name));
        const given = resultYield(weighCar(completed, world.system), [...inputs, ...completed.inputs], world.system);
        return given.product?.kind === 'result'
          ? { ...given, product: { ...given.product, ledger: completed.ledger } }
          : given;
      },
    };
  },
};
