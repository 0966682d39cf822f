/**
 * What a question to a car is. One entry for each kind says what may be asked with it, how that is read, what answers it, and
 * what is worth showing; a cell, a study, and whoever calls the library go through the same entry. `kinds.ts` lists them.
 */
import type { Trip } from '../cycles/trip.ts';
import type { Car, Surroundings } from '../model/car.ts';
import { completeSurroundings } from '../model/complete.ts';
import type { Fields } from '../model/fields/field.ts';
import type { Input } from '../model/fields/input.ts';
import { onceEach } from '../model/fields/once.ts';
import { surroundingsFields } from '../model/surroundings-fields.ts';
import type { Intervals, Output, Result } from './result.ts';
import { soundFigures } from './sound.ts';
import type { Figures } from './sound.ts';

/** Plain values by the keys of the fields of a kind: SI numbers, words, lists, groups. What is left out is assumed. */
export interface RunValues {
  readonly [key: string]: RunValue | undefined;
}

export type RunValue = number | string | readonly number[] | readonly string[] | RunValues | readonly RunValues[];

/** A question as it is put. */
export interface Asked {
  /** Of the run and of the car: the heads of paths in complaints and in lists of inputs. */
  readonly name: string;
  readonly carName: string;
  readonly car: Car;
  readonly values: RunValues;
  /** What is driven; null where the kind needs none. */
  readonly trip: Trip | null;
  /** What is assumed about the run is appended. */
  readonly inputs: Input[];
  /** Runs of the same car that it is taken from. */
  readonly within?: readonly (Asked & { readonly kind: string })[];
}

/** Keys of the figures that are wanted: what costs extra and is not among them is left out. Undefined: all of them. */
export type Wanted = readonly string[] | undefined;

/**
 * The whole, or the core of an answer: without what only checks it, or stands beside it (the second opinion, the curve over the seasons), and
 * of the figures that need runs of their own those that are wanted.
 */
export type Effort = 'whole' | { readonly wanted: Wanted };

export interface AnswerSettings {
  /** Relative, where a run is integrated to one; the run's own where left out. */
  readonly tolerance?: number;
  /** The same of a launch of which nothing but times and speeds at marks is wanted. */
  readonly markTolerance?: number;
}

/** What is worth showing of a kind of run when nobody says. */
export interface Shown {
  /** Figures that a study shows. */
  readonly headlines: readonly string[];
  /** Figures that get an interval in every report: those that the run itself gives, without further ones. */
  readonly intervals: readonly string[];
  /** Whether a figure is better when low or when high; where neither can be said it is left out. */
  readonly better: { readonly [key: string]: 'low' | 'high' };
  /** Whether it goes over hours: it then gets fewer samples. */
  readonly slow: boolean;
}

interface Told extends Shown {
  readonly kind: string;
  /** One sentence for the reference. */
  readonly doc: string;
  /** What no field table can say: one line each, for the reference. */
  readonly notes?: readonly string[];
  /** Asked in the cell of another kind, by this field in place of all others; left out, in a cell of its own. */
  readonly within?: { readonly cell: string; readonly by: string };
  /** What may be said besides the car and the trip. */
  readonly fields: Fields;
  readonly drivesTrip: boolean;
  /** Whether it drives that trip over and over. */
  readonly repeatsTrip?: true;
  /** Whether it is over before leisure counts: fields of a car that only matter on the way are then no inputs of it. */
  readonly atFullPedal: boolean;
  readonly outputs: { readonly [key: string]: Output };
  /** The answer once its intervals are known, where more of it hangs on them. */
  readonly withIntervals?: (result: Result, intervals: Intervals) => Result;
  /** Figures that had another name: the one of today by the one of before, so that who asks by the old one is told. */
  readonly renamed?: { readonly [before: string]: string };
}

export interface RunKind extends Told {
  /**
   * The whole answer, with series, events, ledger and the opinion of a second method; its core has the same figures. Default: the whole.
   * @throws SpecError
   */
  run(asked: Asked, effort?: Effort): Result;
  /**
   * Makes a function that gives the figures alone, one question after the other in memory that it keeps: the same figures as
   * those of the whole answer, to the last bit. It throws SpecError.
   */
  createAnswer(wanted?: Wanted, settings?: AnswerSettings): (asked: Asked) => Figures;
}

/** The answer with its intervals. */
export function intervalsOn({ withIntervals }: RunKind, result: Result, intervals: Intervals): Result {
  return withIntervals?.(result, intervals) ?? { ...result, intervals };
}

/** The car as the run takes it, and how it is run. */
export interface Ready<O> {
  readonly car: Car;
  readonly options: O;
}

/** A kind in its parts. */
export interface KindParts<O> extends Told {
  /** @throws SpecError */
  readonly read: (asked: Asked) => Ready<O>;
  readonly run: (ready: Ready<O>, effort: Effort) => Result;
  readonly createAnswer: (wanted: Wanted, settings: AnswerSettings) => (ready: Ready<O>) => Figures;
}

export function runKind<O>({ read, run, createAnswer, ...told }: KindParts<O>): RunKind {
  return {
    ...told,
    run: (asked, effort = 'whole') => run(read(asked), effort),
    createAnswer(wanted, settings = {}) {
      if (wanted?.length === 0) return () => ({ summary: {}, reasons: {} });
      const answer = createAnswer(wanted, settings);
      return asked => {
        const { summary, reasons } = answer(read(asked));
        return soundFigures(told.kind, told.outputs, summary, reasons);
      };
    },
  };
}

/** Whether one of these figures is wanted. */
export function wants(wanted: Wanted, keys: readonly string[]): boolean {
  return wanted === undefined || wanted.some(key => keys.includes(key));
}

/** Where and when a run is. @throws SpecError */
export function surroundingsOf({ name, values, inputs }: Asked, fixed: RunValues = NOTHING): Surroundings {
  return placeOf(values, [name, fixed], inputs, () => {
    const where = Object.fromEntries(
      Object.keys(surroundingsFields).flatMap(key => {
        const value = fixed[key] ?? values[key];
        return value === undefined ? [] : [[key, value]];
      }),
    );
    return completeSurroundings(where, name, inputs).surroundings;
  });
}

const placeOf = onceEach<Surroundings>();
const NOTHING: RunValues = {};
