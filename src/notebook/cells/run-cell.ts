/** The cells that put a question to a car: one for each kind of run that has a cell of its own. */
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { plainTrip } from '../../runs/answer/question.ts';
import type { Question } from '../../runs/answer/question.ts';
import type { RunKind, RunValues } from '../../runs/kind.ts';
import { RUN_KINDS } from '../../runs/kinds.ts';
import { leversOf } from '../../studies/answers/levers.ts';
import type { World } from '../context.ts';
import type { LocatedMap } from '../document/located.ts';
import { type FieldValues, writtenKey } from '../fields/read-context.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind, CellText } from './kind.ts';
import type { CellYield } from './yield.ts';
import { withLoggedPower } from './logged-power.ts';
import { resultYield } from './result.ts';
import { atFullPedal, carOf } from './the-car.ts';
import { remembered } from '../memory.ts';
import { readTrip, tripFields, withoutTrip } from './trip.ts';
import type { TripRead } from './trip.ts';

const carField = {
  car: { kind: 'reference', to: ['car'], doc: 'the car', required: true },
} as const satisfies Fields;

/** The cell of a kind of run. */
function runCell(kind: RunKind): CellKind {
  const others = RUN_KINDS.filter(({ within }) => within?.cell === kind.kind);
  const fields: Fields = {
    ...carField,
    ...Object.assign({}, ...others.map(other => other.fields)),
    ...(kind.drivesTrip && tripFields),
    ...kind.fields,
  };
  return {
    kind: kind.kind,
    language: 'yaml',
    named: true,
    doc: kind.doc,
    fields,
    notes: [kind, ...others].flatMap(({ notes = [] }) => notes),
    prepare(cell) {
      const map = readCell(cell);
      return {
        needs: fieldNeeds(map, fields),
        run(world) {
          const { values, inputs } = readFieldsOf(map, fields, world, cell.piece.name);
          const asked = others.find(({ within }) => within !== undefined && values[within.by] !== undefined);
          if (asked !== undefined) withSpec(map, cell.piece.name, () => alone(asked, values, cell.piece.name));
          return answered(asked ?? kind, cell, map, values, inputs, world);
        },
      };
    },
  };
}

/** Every run that has a cell of its own. */
export const RUN_CELLS: readonly CellKind[] = RUN_KINDS.filter(({ within }) => within === undefined).map(runCell);

/** @throws SpecError where something else stands beside what is asked in place of it. */
function alone({ fields, kind, within }: RunKind, values: FieldValues, name: string): void {
  const other = Object.keys(values).find(key => key !== 'car' && !Object.hasOwn(fields, key));
  if (other === undefined) return;
  const message = `stands beside ${within?.by ?? kind}, and a ${kind} test brings its own`;
  throw new SpecError(`${name}.${writtenKey(other)}`, message, `no ${writtenKey(other)}`);
}

function answered(
  kind: RunKind,
  cell: CellText,
  map: LocatedMap,
  values: FieldValues,
  inputs: readonly Input[],
  world: World,
): CellYield {
  const { name } = cell.piece;
  const { carName, car, spec, measured, joint, inputs: behind, notes } = carOf(values['car'], cell, map, world);
  const read: TripRead | null = kind.drivesTrip
    ? withSpec(map, name, () => readTrip(values, name, path => world.readFile(path), kind.repeatsTrip === true))
    : null;
  const { car: _car, ...own }: RunValues = kind.drivesTrip ? withoutTrip(values) : values;
  const question: Question = {
    car: carName,
    name,
    spec,
    measured: [...measured],
    ...(joint.length > 0 && { joint }),
    run: { kind: kind.kind, values: own, ...(read !== null && { trip: plainTrip(read.trip) }) },
  };
  const effort = world.effort(name);
  const { result, assumed } = withSpec(map, name, () =>
    remembered(effort === 'whole' ? world.memory : undefined, question, () => {
      const list: Input[] = [];
      const asked = { name, carName, car, values: own, trip: read?.trip ?? null, inputs: list };
      const plain = kind.run(asked, effort);
      const levers = effort === 'whole' ? leversOf(question, plain) : [];
      return { result: levers.length === 0 ? plain : { ...plain, levers }, assumed: list };
    }),
  );
  const driven = {
    ...result,
    warnings: [...result.warnings, ...notes],
    ...(read !== null && read.notes.length > 0 && { notes: read.notes }),
  };
  const told = effort === 'whole' ? withLoggedPower(driven, values, path => world.readFile(path)) : driven;
  const before = kind.atFullPedal ? atFullPedal(behind) : behind;
  return resultYield(told, [...before, ...inputs, ...(read?.assumed ?? []), ...assumed], world.system, { question });
}
