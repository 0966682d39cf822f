/** `yaml duty NAME`: what the parts must stand in the runs that are named. */

import type { Fields } from '../../model/fields/field.ts';
import { dutyFields } from '../../model/duty/fields.ts';
import type { DutySpec } from '../../model/duty/fields.ts';
import type { Car } from '../../model/car.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { duty as dutyOf } from '../../runs/duty/duty.ts';
import type { Question } from '../../runs/answer/question.ts';
import type { NamedRun } from '../../runs/duty/runs.ts';
import type { World } from '../context.ts';
import { withSpec } from './fields.ts';
import { resultYield } from './result.ts';
import { studyCell } from './study-cell.ts';

/** Kinds of run in which something flows over time. */
const FLOWING = ['launch', 'repeat', 'sheet', 'coast', 'drive', 'range', 'steady', 'charge'];

const cellFields = {
  of: { kind: 'words', to: FLOWING, doc: 'the runs of one car in which the parts must stand it', required: true },
  ...dutyFields,
} as const satisfies Fields;

export const duty = studyCell(
  {
    kind: 'duty',
    doc: 'what parts must stand in the named runs: currents over time, torque and its cycles, voltages, pre-charge, fuse and cable',
    fields: cellFields,
    notes: [
      'what a data sheet says is entered part by part, and its lines then pass, are to be looked at, or fail; without it a line is a requirement',
      'a sheet is taken from rest to 100 km/h, and for half an hour at the speed that it holds for so long; a standard test over all of its cycles',
      'a launch is taken to its end: to its target and at least 1000 m; its currents over a longer time have nothing before and after them',
      'no selection of parts: the data sheet of the maker and a licensed professional decide',
      'each figure is a value for formulas: NAME.pack_current_10_s, NAME.shaft_torque, NAME.fails',
    ],
  },
  ({ name, map, values, inputs, world }) => {
    const { of, ...spec } = values;
    const assumed: Input[] = [];
    const { result, behind, question } = withSpec(map, name, () => {
      const asked = runsOf(name, Array.isArray(of) ? of.filter(each => typeof each === 'string') : [], world);
      const sheets: DutySpec = spec;
      const { behind, car, runs } = asked;
      return {
        result: dutyOf({ name, car, runs, spec: sheets, inputs: assumed, given: inputs }),
        behind,
        question: { ...asked.question, name, run: { kind: 'duty', values: spec } },
      };
    });
    return resultYield(result, [...behind, ...inputs, ...assumed], world.system, { question });
  },
);

/** @throws SpecError at the run that can not be taken. */
function runsOf(
  name: string,
  names: readonly string[],
  world: World,
): {
  readonly car: Car;
  readonly runs: readonly NamedRun[];
  readonly behind: readonly Input[];
  readonly question: Omit<Question, 'name' | 'run'>;
} {
  const path = `${name}.of`;
  const found = names.map(each => {
    const given = world.given(each);
    const product = given?.product;
    if (given === undefined || product?.kind !== 'result' || product.question === undefined)
      throw new SpecError(path, `"${each}" is no run`, FLOWING.join(', '));
    const { result, question } = product;
    if (result.trail === undefined)
      throw new SpecError(path, `"${each}" has no answer from which currents could be taken`, 'a run that has one');
    return { name: each, result, trail: result.trail, car: question.car, question, inputs: given.inputs };
  });
  const [first] = found;
  if (first === undefined) throw new SpecError(path, 'names no run', FLOWING.join(', '));
  const other = found.find(({ car }) => car !== first.car);
  if (other !== undefined)
    throw new SpecError(
      path,
      `${first.name} is of ${first.car} and ${other.name} of ${other.car}`,
      'runs of one car: a duty cell for each',
    );
  const product = world.given(first.car)?.product;
  if (product?.kind !== 'car')
    throw new SpecError(path, `the car of ${first.name} is not to be found`, 'a run of a car cell');
  const { car, spec, measured, joint } = first.question;
  const within = found.map(({ name: each, question }) => ({ name: each, run: question.run }));
  return {
    car: product.car,
    runs: found,
    behind: found.flatMap(({ inputs }) => inputs),
    question: { car, spec, measured, ...(joint !== undefined && { joint }), within },
  };
}
