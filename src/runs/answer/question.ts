/** A question put to a car, in plain data: what studies vary and what other threads answer. */
import type { Schedule } from '../../cycles/schedule.ts';
import type { Stop, Trip } from '../../cycles/trip.ts';
import type { MeasuredUnit } from '../../model/drive/complete.ts';
import type { CarSpec } from '../../model/spec.ts';
import type { Car } from '../../model/car.ts';
import { UNLISTED } from '../../model/fields/filler.ts';
import type { Asked, RunValues } from '../kind.ts';

/** What is run, by what a cell says: what is left out is assumed. */
export interface Run {
  /** Name of an entry of `kinds.ts`. */
  readonly kind: string;
  /** By the fields of the kind. */
  readonly values: RunValues;
  /** Where the kind drives one. */
  readonly trip?: PlainTrip;
}

/** A trip without typed arrays: it goes through JSON. */
export interface PlainTrip {
  readonly title: string;
  readonly parts: readonly (
    | Stop
    | { readonly kind: 'leg'; readonly load: number | null; readonly schedule: PlainSchedule }
  )[];
}

export interface PlainSchedule {
  readonly title: string;
  readonly time: readonly number[];
  readonly speed: readonly number[];
  readonly slope: readonly number[] | null;
}

export interface Question {
  /** Name of the car cell and of the run cell: the heads of paths. */
  readonly car: string;
  readonly name: string;
  readonly spec: CarSpec;
  /** What the files say that its drive units name, by the path of the unit. */
  readonly measured: readonly (readonly [string, MeasuredUnit])[];
  readonly run: Run;
  /** Runs that it is taken from, by the names of their cells. */
  readonly within?: readonly { readonly name: string; readonly run: Run }[];
  /** Inputs of the car that were measured together. */
  readonly joint?: readonly Joint[];
}

/** Inputs with one covariance. */
export interface Joint {
  /** With the name of the car in front. */
  readonly paths: readonly string[];
  /** Row by row, in the products of their SI units. */
  readonly covariance: readonly (readonly number[])[];
}

/** The runs that a question is taken from, as they are put to a car; `changed` takes what a change makes of the values of one. */
export function createWithin({
  car: carName,
  within = [],
}: Question): (car: Car, changed?: (name: string, values: RunValues) => RunValues) => NonNullable<Asked['within']> {
  const runs = within.map(({ name, run: { kind, values, trip } }) => ({
    name,
    carName,
    kind,
    values,
    trip: trip === undefined ? null : tripOf(trip),
    inputs: UNLISTED,
  }));
  return (car, changed = (_, values) => values) =>
    runs.map(each => ({ ...each, car, values: changed(each.name, each.values) }));
}

export function plainTrip({ title, parts }: Trip): PlainTrip {
  const plain = onceFor(plainSchedule, (a, b) => a === b);
  return {
    title,
    parts: parts.map(part =>
      part.kind === 'stop' ? part : { kind: 'leg', load: part.load, schedule: plain(part.schedule) },
    ),
  };
}

function plainSchedule({ title, time, speed, slope }: Schedule): PlainSchedule {
  return { title, time: Array.from(time), speed: Array.from(speed), slope: slope === null ? null : Array.from(slope) };
}

/** The trip again. What is driven more than once is one schedule in it, as in the trip before: what it asks of a car is remembered by that. */
export function tripOf({ title, parts }: PlainTrip): Trip {
  const whole = onceFor(scheduleAgain, isSameSchedule);
  return {
    title,
    parts: parts.map(part =>
      part.kind === 'stop' ? part : { kind: 'leg', load: part.load, schedule: whole(part.schedule) },
    ),
  };
}

function scheduleAgain({ title, time, speed, slope }: PlainSchedule): Schedule {
  return {
    title,
    source: '',
    time: Float64Array.from(time),
    speed: Float64Array.from(speed),
    slope: slope === null ? null : Float64Array.from(slope),
    phases: [],
  };
}

function isSameSchedule(a: PlainSchedule, b: PlainSchedule): boolean {
  if (a === b) return true;
  if (a.title !== b.title || (a.slope === null) !== (b.slope === null)) return false;
  const same = (one: readonly number[], other: readonly number[]): boolean =>
    one.length === other.length && one.every((value, i) => value === other[i]);
  return same(a.time, b.time) && same(a.speed, b.speed) && same(a.slope ?? [], b.slope ?? []);
}

/** Makes one thing of all that are the same. */
function onceFor<From, To>(make: (from: From) => To, isSame: (a: From, b: From) => boolean): (from: From) => To {
  const made: { readonly from: From; readonly to: To }[] = [];
  return from => {
    const found = made.find(each => isSame(each.from, from));
    if (found !== undefined) return found.to;
    const to = make(from);
    made.push({ from, to });
    return to;
  };
}
