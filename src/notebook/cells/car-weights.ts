/** What a car takes from a weighing where it does not say it itself. */
import type { Fields } from '../../model/fields/field.ts';
import { weighed, withPeople } from '../../model/body/mass-ledger.ts';
import type { Input } from '../../model/fields/input.ts';
import { carFields } from '../../model/spec.ts';
import type { World } from '../context.ts';
import { displayOf } from '../fields/describe.ts';
import { entryOf, type LocatedMap, problemAt } from '../document/located.ts';
import { NotebookProblem } from '../document/problem.ts';
import { type FieldValues, writtenKey } from '../fields/read.ts';
import { togetherField } from './together.ts';

/** The fields of a car cell. */
export const carCellFields = {
  weights: {
    kind: 'reference',
    to: ['weigh'],
    doc: 'a weigh cell that gives mass, driver, front_share, cg_height and wheelbase where they are left out',
  },
  together: togetherField,
  ...carFields,
} as const satisfies Fields;

/** The same where a weighing gives the mass. */
export const weighedCarFields = { ...carCellFields, mass: { ...carFields.mass, required: false } } as const;

/** The values that are those of a car, and not of its cell. */
export function withoutWeights(values: FieldValues): FieldValues {
  return Object.fromEntries(Object.entries(values).filter(([key]) => key !== 'weights' && key !== 'together'));
}

/** Values that a weighing gives to a car, and where they came from. */
export interface CarWeights {
  readonly values: FieldValues;
  /** What was taken, then what the weighing itself rests on. */
  readonly inputs: readonly Input[];
}

/**
 * Fills what the car leaves out from the weighing it names; front share and height are those with the driver and the load
 * of the car. Throws NotebookProblem when the car has a load and the weighing does not say where it sits.
 */
export function weightsOf(map: LocatedMap, own: FieldValues, world: World, name: string): CarWeights {
  const { weights } = own;
  const from = typeof weights === 'string' ? weights : '';
  const given = world.given(from);
  const ledger = given?.product?.kind === 'result' ? given.product.weighing?.ledger : undefined;
  if (given === undefined || ledger === undefined) return { values: {}, inputs: [] };
  const numberOf = (key: string, other: number): number => (typeof own[key] === 'number' ? own[key] : other);
  const driver = numberOf('driver', ledger.driver.mass);
  const seated = withPeople(ledger, driver, numberOf('load', 0));
  const needed = own['frontShare'] === undefined || own['cgHeight'] === undefined;
  if (seated === null && needed) {
    const place = entryOf(map, 'load')?.value ?? map;
    const message = `${from} has no load that would say where this sits`;
    throw new NotebookProblem(
      problemAt(place, `${name}.load`, message, `load: in ${from}, or front_share and cg_height here`),
    );
  }
  const taken = {
    mass: [weighed(ledger).kerb.mass, 'kerb_mass'],
    driver: [driver, 'driver.mass'],
    frontShare: [seated?.frontShare, 'front_share'],
    cgHeight: [seated?.height, 'cg_height'],
    wheelbase: [ledger.wheelbase, 'wheelbase'],
  } as const;
  const values: { [key: string]: number } = {};
  const inputs: Input[] = [];
  for (const [key, [value, path]] of Object.entries(taken)) {
    if (own[key] !== undefined || value === undefined) continue;
    const field = carFields[key as keyof typeof taken];
    values[key] = value;
    inputs.push({
      path: `${name}.${writtenKey(key)}`,
      value,
      unit: field.unit,
      display: displayOf(field, world.system),
      origin: { kind: 'computed', formula: `${from}.${path}` },
    });
  }
  return { values, inputs: [...inputs, ...given.inputs] };
}
