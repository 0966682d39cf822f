/** What is uncertain about a car and a day beside what a calibration fits. */
import { item } from '../../columns.ts';
import type { Nuisance } from '../../fit/launch/measurement.ts';
import { ROOM } from '../../fit/launch/parameters.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { completeCar } from '../../model/complete.ts';
import { UNLISTED } from '../../model/fields/filler.ts';
import { type Change, withChanges } from '../../runs/answer/change.ts';
import type { Question } from '../../runs/answer/question.ts';
import { changesOfOne, drawsOf, type Uncertain } from '../../studies/sampling/uncertain.ts';
import { uncertainOf } from '../uncertain-inputs.ts';
import type { Calibrating } from './calibrating.ts';

/** An input of car or day that is uncertain, and the same car and day with it a standard uncertainty up and down. */
export interface MovedInput {
  readonly path: string;
  /** Below the car, where it is a number of the car that a covariance may name. */
  readonly input: Nuisance['input'];
  readonly up: Nuisance['up'];
  readonly down: Nuisance['up'];
}

/** @param kind of run whose fields the cell shares. @param counts by the path below the car or the cell. */
export function movedInputs(
  { name, inputs, car }: Calibrating,
  kind: string,
  surroundings: Surroundings,
  counts: (path: string) => boolean,
): readonly MovedInput[] {
  const { carName, spec, measured, joint } = car;
  const run = { kind, values: {} };
  const question: Question = {
    car: carName,
    name,
    spec,
    measured: [...measured],
    run,
    ...(joint.length > 0 && { joint }),
  };
  const drawn = uncertainOf(question, inputs).filter(({ path }) => counts(path.slice(path.indexOf('.') + 1)));
  const draws = drawsOf(drawn);
  const changed = (changes: readonly Change[]): { readonly car: Car; readonly surroundings: Surroundings } => {
    const below = (head: string): readonly Change[] =>
      changes
        .filter(({ path }) => path.startsWith(`${head}.`))
        .map(each => ({ ...each, path: each.path.slice(head.length + 1) }));
    const other = below(carName);
    return {
      car: other.length === 0 ? car.car : completeCar(withChanges(spec, other), carName, measured, UNLISTED).car,
      surroundings: withChanges(surroundings, below(name)),
    };
  };
  return drawn.map((input, k) => {
    const { mean, standard, low, high } = item(draws, k);
    const [up, down] = [mean + standard, mean - standard].map(value =>
      changed(changesOfOne(input, Math.min(high, Math.max(low, value)), drawn)),
    );
    const inCar = input.path.startsWith(`${carName}.`) && input.mix === undefined && fits(input, standard);
    return {
      path: input.path,
      input: inCar ? { path: input.path.slice(carName.length + 1), standard } : null,
      up: up ?? changed([]),
      down: down ?? changed([]),
    };
  });
}

/** Whether it may be drawn from a normal distribution. */
function fits({ value, min, max }: Uncertain, standard: number): boolean {
  return (
    value - ROOM * standard >= (min ?? Number.NEGATIVE_INFINITY) &&
    value + ROOM * standard <= (max ?? Number.POSITIVE_INFINITY)
  );
}
