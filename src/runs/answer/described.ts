/** The way in for programs: a question with parts by their names, and nothing in it that is passed over in silence. */
import type { Trip } from '../../cycles/trip.ts';
import { completeCar, told, withParts } from '../../model/described.ts';
import type { MeasuredUnit } from '../../model/drive/complete.ts';
import type { Fields } from '../../model/fields/field.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { keyMeant } from '../../model/fields/synonyms.ts';
import { unknownKey, unknownOption } from '../../model/fields/unknown-key.ts';
import type { CarSpec } from '../../model/specs/car.ts';
import type { RunKind, RunValues } from '../kind.ts';
import { runKindOf } from '../kinds.ts';
import { refused, type Rule } from '../rules.ts';
import { checkWanted } from '../options.ts';
import { CAR_FIGURES, createAsk as createAnyAsk } from './ask.ts';
import type { Ask, AskOptions } from './ask.ts';
import { pathChecker } from './paths.ts';
import { plainTrip } from './question.ts';
import type { Question } from './question.ts';

/** What is asked, of which car. */
export interface QuestionSpec {
  readonly spec: CarSpec;
  /** `launch`, `sheet`, `repeat`, `drive`, `range`, `standard`, `steady`, `charge` or `coast`. */
  readonly kind: string;
  /** By the fields of the kind, in SI: `{ to: 27.8, temperature: 278 }`. What is left out is assumed. */
  readonly values?: RunValues;
  /** Where the kind drives one. */
  readonly trip?: Trip;
  /** Names of the car and of the run: the heads of paths. Default `car` and the kind. */
  readonly car?: string;
  readonly name?: string;
  /** What files say that drive units name, by the path of the unit: `drive.unit` below the name of the car. */
  readonly measured?: ReadonlyMap<string, MeasuredUnit>;
}

/**
 * A question, checked.
 * @throws SpecError for a car that makes no sense, a kind that there is none of, an unknown name among the values, or a trip that is missing.
 */
export function questionOf(asked: QuestionSpec): Question {
  const given: unknown = asked;
  if (typeof given !== 'object' || given === null) throw refused('question', given, '{ spec, kind }');
  const { spec, kind, values = {}, trip, car = 'car', name = kind, measured = new Map() } = asked;
  const unknown = unknownKey(asked, KEYS, keyMeant);
  if (unknown !== null) throw unknownOption(unknown.key, unknown);
  return checked({
    car,
    name,
    spec: told(car, () => withParts(spec, car)),
    measured: [...measured],
    run: { kind, values, ...(trip !== undefined && { trip: plainTrip(trip) }) },
  });
}

const KEYS: { readonly [key in keyof Required<QuestionSpec>]: true } = {
  spec: true,
  kind: true,
  values: true,
  trip: true,
  car: true,
  name: true,
  measured: true,
};

/**
 * Asks a question again and again with other values.
 * @returns a function that throws SpecError where the changed car makes no sense, and for a path that leads nowhere; paths are those of the
 * question's car and run with their names in front: `coupe.drive.ratio`, `dash.temperature`.
 * @throws SpecError as `questionOf`, and for an option or a wanted figure that there is none of.
 */
export function createAsk(question: Question, options: AskOptions = {}): Ask {
  const unknown = unknownKey(options, OPTIONS);
  if (unknown !== null) throw unknownOption(unknown.key, unknown);
  const given: Partial<Question> | null | undefined = question;
  if (typeof given?.run !== 'object') throw refused('question', question, 'what questionOf gives');
  const whole = checked({
    ...question,
    spec: told(question.car, () => withParts(question.spec as CarSpec, question.car)),
  });
  const { outputs } = runKindOf(whole.run.kind);
  checkWanted(options.wanted, [...Object.keys(outputs), ...CAR_FIGURES]);
  const ask = createAnyAsk(whole, options);
  const check = pathChecker([whole]);
  return changes => {
    CHANGES(changes, 'changes');
    for (const { path } of changes) check(path);
    return told(whole.car, () => ask(changes));
  };
}

const OPTIONS: { readonly [key in keyof Required<AskOptions>]: true } = {
  carryMass: true,
  wanted: true,
  tolerance: true,
  markTolerance: true,
};

const CHANGES: Rule = (value, path) => {
  const known = (each: unknown): boolean =>
    typeof each === 'object' && each !== null && 'path' in each && typeof each.path === 'string';
  if (!Array.isArray(value) || !value.every(known))
    throw refused(path, value, "a list such as [{ path: 'car.drive.ratio', value: 9 }]");
};

function checked(question: Question): Question {
  const { car, name, spec, measured, run } = question;
  const kind = kindOf(run.kind);
  checkValues(run.values, kind.fields, name);
  if (kind.drivesTrip && run.trip === undefined)
    throw new SpecError(
      'trip',
      'trip: is missing; expected what is driven, as tripThrough gives it',
      '',
      '',
      'missing',
    );
  if (car === name)
    throw new SpecError('name', `name: car and run are both called "${name}"`, 'two names', '', 'conflict');
  completeCar(spec as CarSpec, car, new Map(measured));
  return question;
}

function kindOf(kind: string): RunKind {
  try {
    return runKindOf(kind);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new SpecError('kind', `kind: ${error.message}`, '', '', 'choice');
  }
}

/** Names among the values of a run, those of its groups among them. */
function checkValues(values: RunValues, fields: Fields, path: string): void {
  const unknown = unknownKey(values, fields, keyMeant);
  if (unknown !== null) throw unknownOption(`${path}.${unknown.key}`, unknown);
  for (const [key, value] of Object.entries(values)) {
    const field = fields[key];
    if (field?.kind === 'group' && typeof value === 'object' && !Array.isArray(value))
      checkValues(value as RunValues, field.fields, `${path}.${key}`);
  }
}
