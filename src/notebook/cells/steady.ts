/** `yaml steady NAME`: one speed until the pack is empty, and the same at every speed of a curve. */
import { filler } from '../../model/fields/filler.ts';
import { completeSurroundings } from '../../model/complete.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { assume, KMH, number } from '../../model/fields/table.ts';
import { surroundingsFields } from '../../model/spec.ts';
import { steady as steadyOf } from '../../runs/trip/steady.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { questionOf, whereOf, writtenNumbers } from './question.ts';
import { resultYield } from './result.ts';
import { carOf } from './the-car.ts';
import { carField, depletionFields } from './travel-fields.ts';

export const steadyFields = {
  ...carField,
  speed: number('m/s', KMH, [0.1, 90], 'the speed that is asked about', assume(100 / 3.6, 'the usual question')),
  speeds: {
    kind: 'numbers',
    unit: 'm/s',
    display: { metric: 'km/h', imperial: 'mph' },
    min: 0.1,
    max: 90,
    doc: 'of the curve, ascending; 10 to 150 km/h every 10 km/h if left out',
  },
  ...depletionFields,
  ...surroundingsFields,
} as const satisfies Fields;

/** m/s. */
const SPEEDS = Array.from({ length: 15 }, (_, i) => (10 * (i + 1)) / 3.6);

export const steady: CellKind = {
  kind: 'steady',
  language: 'yaml',
  named: true,
  doc: 'one steady speed after the other: consumption and range',
  fields: steadyFields,
  notes: ['the car starts at that speed, with pack and drive unit as warm as the air'],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, steadyFields),
      run(world) {
        const { name } = cell.piece;
        const conditions: Input[] = [];
        const { values, inputs } = readFieldsOf(map, steadyFields, world, name);
        const { car: carName, speed: _speed, speeds, charge: _charge, reserve: _reserve, ...where } = values;
        const { car, inputs: behind, notes } = carOf(carName, cell, map, world);
        const { surroundings, inputs: assumed } = withSpec(map, name, () => completeSurroundings(where, name));
        const result = withSpec(map, name, () => {
          const fill = filler(name, steadyFields, values, conditions);
          const curve = Array.isArray(speeds) ? speeds.filter(each => typeof each === 'number') : SPEEDS;
          if (curve.some((each, i) => i > 0 && each <= curve[i - 1]!)) throw fill.error('speeds', 'do not ascend');
          if (speeds === undefined) conditions.push(assumedSpeeds(name));
          return steadyOf(car, {
            surroundings,
            speed: fill.number('speed'),
            speeds: curve,
            charge: fill.derived('charge', () => car.pack.window.high),
            reserve: fill.number('reserve'),
          });
        });
        const minded = { ...result, warnings: [...result.warnings, ...notes] };
        const speed = typeof values['speed'] === 'number' ? values['speed'] : 100 / 3.6;
        const run = {
          kind: 'steady',
          where: whereOf(values),
          speed,
          ...writtenNumbers(values, ['charge', 'reserve']),
        } as const;
        const question = questionOf(carName, name, run, world);
        return resultYield(minded, [...behind, ...inputs, ...conditions, ...assumed], world.system, question);
      },
    };
  },
};

function assumedSpeeds(name: string): Input {
  return {
    path: `${name}.speeds`,
    value: '10 to 150 km/h every 10 km/h',
    unit: '',
    display: '',
    origin: { kind: 'assumed', source: 'from a walk to a fast motorway' },
  };
}
