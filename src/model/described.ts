/**
 * The way in for programs: what must be said is required by its type, parts that ship go by their names, and complaints name the field
 * as a program writes it (`drive.unit.peakPower`). A notebook reads the same tables by its own words.
 */
import { nearest } from '../units/nearest.ts';
import { usualQuantity } from '../units/usual.ts';
import { completeLedger as ledgerOf } from './body/complete-ledger.ts';
import type { CompletedLedger } from './body/complete-ledger.ts';
import { weighFields } from './body/ledger-fields.ts';
import { completeCar as carOf, completeSurroundings as surroundingsOf } from './complete.ts';
import type { CompletedCar, CompletedSurroundings } from './complete.ts';
import type { MeasuredUnit } from './drive/complete.ts';
import { fieldKey } from './fields/filler.ts';
import type { Field, Fields } from './fields/field.ts';
import { SpecError } from './fields/spec-error.ts';
import { unusual } from './fields/unusual.ts';
import { kindOf } from './fields/wrong-type.ts';
import type { ShippedPart } from './parts/part.ts';
import { shippedPart, shippedParts } from './parts/shipped.ts';
import { carFields } from './spec.ts';
import type { CarSpec as Said } from './spec.ts';
import type { CarSpec } from './specs/car.ts';
import type { SurroundingsSpec } from './specs/surroundings.ts';
import type { WeighSpec } from './specs/weigh.ts';

/**
 * Completes a car: what is left out is assumed by the defaults of the fields, and listed.
 * @param name prefix of the paths in `inputs` and in errors; '' for none.
 * @param measured maps and torque tables that its drive units name, by the path of the unit: `drive.unit` below `name`.
 * @throws SpecError, with a `code` and the `path` of the field, when something required is missing, a name is unknown, a number is outside the
 * limits of its field, or things do not fit together.
 */
export function completeCar(
  spec: CarSpec,
  name = '',
  measured: ReadonlyMap<string, MeasuredUnit> = new Map(),
): CompletedCar {
  if (!(measured instanceof Map))
    throw new SpecError('measured', 'measured: is no Map; expected units by their paths', 'a Map', '', 'outside');
  return told(name, () => {
    const said = withParts(spec, name);
    const completed = carOf(said, name, measured);
    return { ...completed, notes: [...completed.notes, ...oddities(said, carFields, name)] };
  });
}

/** Numbers that hardly any car has, a sentence each. */
function oddities(said: object, fields: Fields, path: string): readonly string[] {
  return Object.entries(said).flatMap(([key, value]: [string, unknown]): readonly string[] => {
    const field: Field | undefined = fields[key];
    const own = path === '' ? key : `${path}.${key}`;
    if (field?.kind === 'group' && typeof value === 'object' && value !== null)
      return oddities(value, field.fields, own);
    if (field?.kind !== 'number' || typeof value !== 'number') return [];
    const odd = unusual(
      own,
      value,
      field,
      each => usualQuantity(each, field.unit, field.display.metric),
      said['size' as keyof typeof said],
    );
    return odd === '' ? [] : [odd];
  });
}

/** The same with the values of parts that ship in the place of their names. @throws SpecError for a name that none has. */
export function withParts(spec: CarSpec, name = ''): Said {
  return named(spec, carFields, name) as Said;
}

/** Completes where and when. @throws SpecError as `completeCar`. */
export function completeSurroundings(spec: SurroundingsSpec = {}, name = ''): CompletedSurroundings {
  return told(name, () => surroundingsOf(group(spec, name), name));
}

/** Completes a car on the scales. @throws SpecError as `completeCar`, or when the masses can stand on no two axles. */
export function completeLedger(spec: WeighSpec, name = ''): CompletedLedger {
  return told(name, () => ledgerOf(named(spec, weighFields, name), name));
}

/** Complains in the words of a program, the field in front. @param name of the car or run, which stands in front of its paths. */
export function told<T>(name: string, work: () => T, asWritten?: (path: string) => string): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof SpecError)) throw error;
    const { path, message, expected, nearest: meant, code } = error;
    const own = asWritten?.(path) ?? inCode(name, path);
    if (message.startsWith(`${own}: `)) throw error;
    throw new SpecError(
      own,
      `${own === '' ? 'what is described' : `${own}:`} ${message}${expected === '' || meant !== '' ? '' : `; expected ${expected}`}`,
      expected,
      meant,
      code,
    );
  }
}

function inCode(name: string, path: string): string {
  const below = name !== '' && path.startsWith(`${name}.`);
  return below ? `${name}.${fieldKey(path.slice(name.length + 1))}` : fieldKey(path);
}

/** A group of fields, which is a plain object. */
function group<T extends object>(value: T, path: string): T {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value;
  throw new SpecError(path, `is ${kindOf(value)}; expected a group of fields`, '', '', 'outside');
}

/** With the values of a part that ships in the place of its name. */
function named<T extends object>(spec: T, fields: Fields, path: string): T {
  const entries = Object.entries(group(spec, path)).map(([key, value]: [string, unknown]): [string, unknown] => {
    const field: Field | undefined = fields[key];
    const own = path === '' ? key : `${path}.${key}`;
    if (value === undefined || field === undefined) return [key, value];
    if (field.kind === 'groups' && !Array.isArray(value))
      throw new SpecError(own, `is ${kindOf(value)}; expected a list`, '', '', 'outside');
    if (field.kind !== 'group') return [key, value];
    if (typeof value === 'string' && field.part !== '') return [key, partOf(field.part, value, own)];
    return [key, named(value as object, field.fields, own)];
  });
  return Object.fromEntries(entries) as T;
}

function partOf(kind: string, name: string, path: string): object {
  const found = shippedPart(kind as ShippedPart['kind'], name);
  if (found !== null) return found.values;
  const names = shippedParts(kind as ShippedPart['kind']).map(each => each.name);
  const meant = nearest(name, names);
  const hint = meant === '' ? '' : `; did you mean "${meant}"?`;
  throw new SpecError(path, `no ${kind} "${name}" ships${hint}`, names.join(', '), meant, 'choice');
}
