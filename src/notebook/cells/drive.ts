/** `yaml drive NAME`: a trip once. */
import { filler } from '../../model/fields/filler.ts';
import { completeSurroundings } from '../../model/complete.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { number } from '../../model/fields/table.ts';
import { surroundingsFields } from '../../model/spec.ts';
import { drive as driveTrip } from '../../runs/trip/drive.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { questionOf, whereOf, writtenNumbers } from './question.ts';
import { resultYield } from './result.ts';
import { plainTrip } from '../../runs/answer/question.ts';
import { carOf } from './the-car.ts';
import { carField, soakedField } from './travel-fields.ts';
import { readTrip, tripFields, withoutTrip } from './trip.ts';

export const driveFields = {
  ...carField,
  ...tripFields,
  charge: number('1', '%', [0.001, 1], 'state of charge at the start', { derived: 'that of the car', computed: true }),
  ...soakedField,
  ...surroundingsFields,
} as const satisfies Fields;

export const drive: CellKind = {
  kind: 'drive',
  language: 'yaml',
  named: true,
  doc: 'a car on its way: consumption, where the energy goes, whether it keeps up with the schedule',
  fields: driveFields,
  notes: ['what is driven is said once: a schedule, a log, a speed with distance or time, a trip of several, or a mix'],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, driveFields),
      run(world) {
        const { name } = cell.piece;
        const conditions: Input[] = [];
        const { values, inputs } = readFieldsOf(map, driveFields, world, name);
        const { car: carName, charge: _charge, soaked: _soaked, ...where } = withoutTrip(values);
        const { car, inputs: behind, notes } = carOf(carName, cell, map, world);
        const { trip, notes: told } = withSpec(map, name, () => readTrip(values, name, path => world.readFile(path)));
        const { surroundings, inputs: assumed } = withSpec(map, name, () => completeSurroundings(where, name));
        const result = withSpec(map, name, () => {
          const fill = filler(name, driveFields, values, conditions);
          const charge = fill.derived('charge', () => car.pack.charge);
          if (charge <= car.pack.window.low) {
            throw fill.error('charge', 'is not above the low end of the window of the pack');
          }
          return driveTrip(car, trip, {
            surroundings,
            charge,
            soaked: fill.derived('soaked', () => surroundings.temperature),
          });
        });
        const minded = { ...result, warnings: [...result.warnings, ...notes, ...told] };
        const run = {
          kind: 'drive',
          where: whereOf(values),
          trip: plainTrip(trip),
          ...writtenNumbers(values, ['charge', 'soaked']),
        } as const;
        const question = questionOf(carName, name, run, world);
        return resultYield(minded, [...behind, ...inputs, ...conditions, ...assumed], world.system, question);
      },
    };
  },
};
