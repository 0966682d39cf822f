/**
 * Answers a question again and again with other values: the figures that studies compare, sweep and spread. Each asker keeps the
 * memory of its runs, so that thousands of answers cost no more than their physics.
 */
import { UNLISTED } from '../../model/fields/filler.ts';
import { loadedMass } from '../../model/body/loaded-mass.ts';
import { towed } from '../../model/body/trailer.ts';
import { completeCar } from '../../model/complete.ts';
import type { MeasuredUnit } from '../../model/drive/complete.ts';
import type { Car } from '../../model/car.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { CarSpec } from '../../model/spec.ts';
import type { AnswerSettings, Wanted } from '../kind.ts';
import { runKindOf } from '../kinds.ts';
import type { Figures } from '../sound.ts';
import { ownChanges, valueAt, withChanges, withOwnChanges } from './change.ts';
import type { Change } from './change.ts';
import { carried } from './carried-mass.ts';
import { createDrawn } from './drawn-spec.ts';
import { createWithin, tripOf } from './question.ts';
import type { Question } from './question.ts';

/** How a question is answered again and again. */
export interface AskOptions extends AnswerSettings {
  /** A change of the pack carries its mass; default true. See `carried-mass.ts`. */
  readonly carryMass?: boolean;
  /** Figures that are wanted, of the run or of the car; what costs extra is left out otherwise. Default: all. */
  readonly wanted?: Wanted;
}

/** The figures of the run, those of the car among them. */
export type Ask = (changes: readonly Change[]) => Figures;

/**
 * @returns a function that throws SpecError where the changed car makes no sense; paths are those of the question's car and run
 * with their names in front: `coupe.drive.ratio`, `dash.temperature`.
 */
export function createAsk(question: Question, { carryMass, wanted, ...settings }: AskOptions = {}): Ask {
  const measured: ReadonlyMap<string, MeasuredUnit> = new Map(question.measured);
  const { kind, values, trip } = question.run;
  const ofRun = wanted?.filter(key => !CAR_FIGURES.some(own => own === key));
  const answer = runKindOf(kind).createAnswer(ofRun, settings);
  const driven = trip === undefined ? null : tripOf(trip);
  const drawn = createDrawn(question.spec, question.car);
  const within = createWithin(question);
  const ofCar = wanted === undefined || wanted.some(key => CAR_FIGURES.some(own => own === key));
  return changes => {
    const other = otherCar(question.car, changes);
    // What is drawn belongs to the car as it is: a drawn mass is that of the scales, to which another pack adds its own.
    const base =
      other === null
        ? drawn(changes)
        : withChanges(
            other.spec,
            drawnFor(other.spec, question.spec, ownChanges(question.car, changes.filter(isDrawn))),
          );
    const spec = withOwnChanges(base, question.car, changes, 'others');
    const { car } = completeCar(
      carryMass === false ? spec : carried(base, spec),
      question.car,
      other === null ? measured : new Map(other.measured),
      UNLISTED,
    );
    const { summary, reasons } = answer({
      name: question.name,
      carName: question.car,
      car,
      values: withOwnChanges(values, question.name, changes),
      trip: driven,
      inputs: UNLISTED,
      within: within(car, (name, own) => withOwnChanges(own, name, changes)),
    });
    return ofCar ? { summary: { ...carFigures(car), ...summary }, reasons } : { summary, reasons };
  };
}

/** A whole other car in the place of the question's: the value of a change whose path is the name of the car. */
export interface OtherCar {
  readonly spec: CarSpec;
  readonly measured: Question['measured'];
}

function otherCar(name: string, changes: readonly Change[]): OtherCar | null {
  const whole = changes.find(({ path }) => path === name);
  // Only cells make such a change, with what stands in a car cell.
  return whole === undefined ? null : (whole.value as OtherCar);
}

/** What was drawn about one car, for another one: where the two differ, its own value off by as much; nothing where it has none. */
function drawnFor(other: CarSpec, spec: CarSpec, drawn: readonly Change[]): readonly Change[] {
  return drawn.flatMap((change): Change[] => {
    const [own, value] = [valueAt(other, change.path), valueAt(spec, change.path)];
    if (own === value) return [change];
    if (typeof own !== 'number' || typeof value !== 'number' || typeof change.value !== 'number') return [];
    return [{ ...change, value: own + change.value - value }];
  });
}

const isDrawn = (change: Change): boolean => change.drawn === true;

/** Of the standing car: what buyers of parts look at first. */
function carFigures({ body, pack, trailer }: Car): Figures['summary'] {
  const loaded = loadedMass(body);
  const behind = towed(trailer, body);
  return {
    mass: body.mass,
    front_axle: loaded * body.frontShare + behind.front,
    rear_axle: loaded * (1 - body.frontShare) + behind.rear,
    pack_capacity: pack.cell.capacity * pack.parallel * pack.health,
  };
}

/** Names of the figures of the car itself. */
export const CAR_FIGURES = ['mass', 'front_axle', 'rear_axle', 'pack_capacity'] as const;

/** Whether what was thrown is about a car that makes no sense, and what it says. */
export function refusal(error: unknown): string {
  if (error instanceof SpecError) return `${error.path} ${error.message}`;
  if (error instanceof RangeError) return error.message;
  throw error;
}
