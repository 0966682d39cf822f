/** A question put to a car, in plain data: what studies vary and what other threads answer. */
import type { Schedule } from '../../cycles/schedule.ts';
import type { Stop, Trip } from '../../cycles/trip.ts';
import type { MeasuredUnit } from '../../model/drive/complete.ts';
import type { CarSpec } from '../../model/spec.ts';
import type { RunValues } from '../kind.ts';

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

export function plainTrip({ title, parts }: Trip): PlainTrip {
  return {
    title,
    parts: parts.map(part =>
      part.kind === 'stop' ? part : { kind: 'leg', load: part.load, schedule: plainSchedule(part.schedule) },
    ),
  };
}

function plainSchedule({ title, time, speed, slope }: Schedule): PlainSchedule {
  return { title, time: Array.from(time), speed: Array.from(speed), slope: slope === null ? null : Array.from(slope) };
}

export function tripOf({ title, parts }: PlainTrip): Trip {
  return {
    title,
    parts: parts.map(part =>
      part.kind === 'stop'
        ? part
        : {
            kind: 'leg',
            load: part.load,
            schedule: {
              title: part.schedule.title,
              source: '',
              time: Float64Array.from(part.schedule.time),
              speed: Float64Array.from(part.schedule.speed),
              slope: part.schedule.slope === null ? null : Float64Array.from(part.schedule.slope),
              phases: [],
            },
          },
    ),
  };
}
