/** `yaml sheet NAME`: a car through the tests that the road-test standards name. */
import { completeSurroundings } from '../../model/complete.ts';
import { filler } from '../../model/fields/filler.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { number } from '../../model/fields/table.ts';
import { surroundingsFields } from '../../model/spec.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { sheet as sheetOf } from '../../runs/sheet/sheet.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { resultYield } from './result.ts';
import { atFullPedal, carOf } from './the-car.ts';
import { loadedMass } from '../../model/body/loaded-mass.ts';
import { soakedField } from './travel-fields.ts';

const { slope: _slope, ...level } = surroundingsFields;

export const sheetFields = {
  car: { kind: 'reference', to: ['car'], doc: 'the car', required: true },
  grossMass: number('kg', ['kg', 'lb'], [50, 30_000], 'of the fully loaded car, for the tests that are done at it', {
    derived: 'nothing is told at gross mass',
  }),
  grossFrontShare: number('1', '%', [0.05, 0.95], 'share of the weight on the front axle then', {
    derived: 'as in the car',
    computed: true,
  }),
  ...soakedField,
  ...level,
} as const satisfies Fields;

export const sheet: CellKind = {
  kind: 'sheet',
  language: 'yaml',
  named: true,
  doc: 'a performance sheet: maximum and 30-minute speed, times, slopes, hill start',
  fields: sheetFields,
  notes: ['there is no slope here: every test has its own'],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, sheetFields),
      run(world) {
        const { name } = cell.piece;
        const conditions: Input[] = [];
        const { values, inputs } = readFieldsOf(map, sheetFields, world, name);
        const { car: carName, grossMass, grossFrontShare, soaked: _soaked, ...where } = values;
        const { car, inputs: behind } = carOf(carName, cell, map, world);
        const { surroundings, inputs: assumed } = withSpec(map, name, () => completeSurroundings(where, name));
        const result = withSpec(map, name, () => {
          const lightest = loadedMass(car.body);
          if (typeof grossMass === 'number' && grossMass < lightest) {
            throw new SpecError(
              `${name}.gross_mass`,
              `is below the ${lightest} kg of the car with its driver and load`,
              'the mass of the fully loaded car',
            );
          }
          const fill = filler(name, sheetFields, values, conditions);
          const soaked = fill.derived('soaked', () => surroundings.temperature);
          return sheetOf(car, {
            surroundings: { ...surroundings, soaked },
            ...(typeof grossMass === 'number' && { grossMass }),
            ...(typeof grossFrontShare === 'number' && { grossFrontShare }),
          });
        });
        const unused = assumed.filter(({ path }) => path !== `${name}.slope`);
        return resultYield(result, [...atFullPedal(behind), ...inputs, ...conditions, ...unused], world.system);
      },
    };
  },
};
