/** `yaml range NAME`: a trip over and over, or a standard test, until the pack is empty. */
import { filler } from '../../model/fields/filler.ts';
import type { Car } from '../../model/car.ts';
import { completeSurroundings } from '../../model/complete.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { surroundingsFields } from '../../model/spec.ts';
import { range as rangeOf } from '../../runs/trip/range.ts';
import type { Result } from '../../runs/result.ts';
import { isStandardTest, STANDARD_TESTS, standardTest } from '../../runs/standard/range-test.ts';
import type { World } from '../context.ts';
import type { LocatedMap } from '../document/located.ts';
import { type FieldValue, type FieldValues, writtenKey } from '../fields/read-context.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { questionOf, whereOf, writtenNumbers } from './question.ts';
import { resultYield } from './result.ts';
import { plainTrip } from '../../runs/answer/question.ts';
import type { Run } from '../../runs/answer/question.ts';
import { carOf } from './the-car.ts';
import { carField, depletionFields, soakedField } from './travel-fields.ts';
import { readTrip, tripFields, withoutTrip } from './trip.ts';

export const rangeFields = {
  ...carField,
  standard: { kind: 'choice', choices: STANDARD_TESTS, doc: 'in place of a trip: a test as on a window sticker' },
  ...tripFields,
  ...depletionFields,
  temperatures: {
    kind: 'numbers',
    unit: 'K',
    display: { metric: 'degC', imperial: 'degF' },
    min: 223.15,
    max: 333.15,
    doc: 'of the air, ascending, for the curve of range over temperature; -20 to 40 degC every 10 K if left out',
  },
  ...soakedField,
  ...surroundingsFields,
} as const satisfies Fields;

/** K. */
const SEASONS = [-20, -10, 0, 10, 20, 30, 40].map(celsius => celsius + 273.15);

/** What a range gives beside its own inputs. */
interface Ranged {
  readonly result: Result;
  readonly notes: readonly string[];
  readonly inputs: readonly Input[];
  /** Left out for a standard test, which is nothing to be varied. */
  readonly run?: Run;
}

export const range: CellKind = {
  kind: 'range',
  language: 'yaml',
  named: true,
  doc: 'a trip over and over until the pack is empty: how far, in which season; or a standard test',
  fields: rangeFields,
  notes: [
    'what is driven is said once: a schedule, a log, a speed with distance or time, a trip of several, a mix, or a standard',
    'wltp: UN GTR 15, consecutive cycles; udds, hwfet: SAE J1634, one cycle over and over; mct: SAE J1634, the multi-cycle test. All at 23 degC, nothing heated',
    'a standard brings its own weather and a full pack, and the car is taken as it is loaded',
    'for the curve over temperature the car has stood in that air',
  ],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, rangeFields),
      run(world) {
        const { name } = cell.piece;
        const { values, inputs } = readFieldsOf(map, rangeFields, world, name);
        const { car, inputs: behind, notes } = carOf(values['car'], cell, map, world);
        const ranged =
          values['standard'] === undefined
            ? overTrip(car, values, map, name, world)
            : underStandard(car, values, map, name);
        const { result } = ranged;
        const minded = { ...result, warnings: [...result.warnings, ...notes, ...ranged.notes] };
        const question = ranged.run && questionOf(values['car'], name, ranged.run, world);
        return resultYield(minded, [...behind, ...inputs, ...ranged.inputs], world.system, question);
      },
    };
  },
};

function overTrip(car: Car, values: FieldValues, map: LocatedMap, name: string, world: World): Ranged {
  const { trip, notes } = withSpec(map, name, () => readTrip(values, name, path => world.readFile(path)));
  const { car: _car, charge: _charge, reserve: _reserve, temperatures, soaked, ...where } = withoutTrip(values);
  const { surroundings, inputs } = withSpec(map, name, () => completeSurroundings(where, name));
  const conditions: Input[] = [];
  const result = withSpec(map, name, () => {
    const fill = filler(name, rangeFields, values, conditions);
    const seasons = numbersOf(temperatures);
    if (seasons.some((each, i) => i > 0 && each <= seasons[i - 1]!)) throw fill.error('temperatures', 'do not ascend');
    if (temperatures === undefined) conditions.push(assumedSeasons(name));
    // Without a temperature of its own the car has stood in the air of the day, and in that of each point of the curve.
    const start = fill.derived('soaked', () => surroundings.temperature);
    return rangeOf(car, trip, {
      surroundings,
      charge: fill.derived('charge', () => car.pack.window.high),
      reserve: fill.number('reserve'),
      ...(soaked !== undefined && { soaked: start }),
      temperatures: temperatures === undefined ? SEASONS : seasons,
    });
  });
  const run: Run = {
    kind: 'range',
    where: whereOf(values),
    trip: plainTrip(trip),
    ...writtenNumbers(values, ['charge', 'reserve', 'soaked']),
  };
  return { result, notes, inputs: [...conditions, ...inputs], run };
}

function underStandard(car: Car, values: FieldValues, map: LocatedMap, name: string): Ranged {
  return withSpec(map, name, () => {
    const fill = filler(name, rangeFields, values, []);
    for (const key of Object.keys(values) as (keyof typeof rangeFields)[]) {
      if (key === 'car' || key === 'standard') continue;
      throw fill.error(key, 'stands beside standard, and a standard test brings its own', `no ${writtenKey(key)}`);
    }
    const { standard } = values;
    if (typeof standard !== 'string' || !isStandardTest(standard)) throw fill.error('standard', 'is no test');
    return { result: standardTest(car, standard), notes: [], inputs: [] };
  });
}

function numbersOf(value: FieldValue | undefined): readonly number[] {
  return Array.isArray(value) ? value.filter((each): each is number => typeof each === 'number') : [];
}

function assumedSeasons(name: string): Input {
  return {
    path: `${name}.temperatures`,
    value: '-20 to 40 °C every 10 K',
    unit: '',
    display: '',
    origin: { kind: 'assumed', source: 'from deep frost to a heat wave' },
  };
}
