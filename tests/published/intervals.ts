/** Intervals of a figure of a car of which a record says little: by the spreads of the rules it is read by and of the defaults. */
import { notebookKey } from '../../src/model/fields/filler.ts';
import { completeCar } from '../../src/model/complete.ts';
import type { Spread } from '../../src/model/fields/input.ts';
import type { CarSpec } from '../../src/model/spec.ts';
import { createAsk } from '../../src/runs/answer/ask.ts';
import { SAMPLES_TOLERANCE } from '../../src/studies/question/study-model.ts';
import type { Ask } from '../../src/runs/answer/ask.ts';
import type { Change } from '../../src/runs/answer/change.ts';
import type { Run } from '../../src/runs/answer/question.ts';
import { drawOf } from '../../src/studies/sampling/draw.ts';
import { estimate } from '../../src/studies/statistics/estimate.ts';
import { monteCarlo } from '../../src/studies/statistics/monte-carlo.ts';

const CAR = 'car';

const PROBABILITY = 0.9;
/** With 2048 as many cars are inside; with 200, one or two are in or out by the seed. */
const SAMPLES = 512;

/** A number of a rule and how far it may be off. */
export interface Uncertain {
  readonly value: number;
  readonly spread: Spread;
}

/** A car by rules that are drawn. */
export interface UncertainCar {
  /** One for each number that `specOf` takes. */
  readonly rules: readonly Uncertain[];
  readonly specOf: (rules: readonly number[]) => CarSpec;
  /** Spreads of numbers that the specification gives, by their paths below the car: those of a part that ships. */
  readonly given?: { readonly [path: string]: Spread };
}

/** A figure that is asked of every sample; further numbers may be drawn for what the figure was published as. */
export interface Asked {
  readonly run: Run;
  readonly key: string;
  readonly noise?: readonly Spread[];
  /** The figure as it would be printed. Default: as it is. */
  readonly printed?: (figure: number, noise: readonly number[]) => number;
}

export interface Interval {
  readonly low: number;
  readonly median: number;
  readonly high: number;
}

/**
 * The interval of 90 %. Each sample draws the rules, completes the car that they make, and draws every default that has a spread
 * from the spread it has in this very car; two drives, which come from one maker, are drawn alike.
 * @param seed which samples; the same seed gives the same numbers.
 */
export function intervalOf(car: UncertainCar, asked: Asked, seed: number, samples = SAMPLES): Interval {
  const middle = car.rules.map(({ value }) => value);
  const { printed = (figure: number): number => figure, noise = [] } = asked;
  const places = [...new Set(uncertainOf(car, middle).map(([path]) => placeOf(path)))];
  const [rules, extra] = [car.rules.length, car.rules.length + noise.length];
  const ask = asker(car, middle, asked);
  const { columns } = monteCarlo(
    (x, out) => {
      const drawn = car.rules.map(({ value, spread }, i) => drawOf(value, spread).at(x[i]!));
      const heard = noise.map((spread, i) => drawOf(Number.NaN, spread).at(x[rules + i]!));
      const defaults = uncertainOf(car, drawn).map(([path, value, spread]): Change => {
        return { path, value: drawOf(value, spread).at(x[extra + places.indexOf(placeOf(path))]!) };
      });
      const figure = Number(ask([...groupsOf(car.specOf(drawn)), ...defaults]).summary[asked.key] ?? Number.NaN);
      out[0] = printed(figure, heard);
    },
    {
      draws: Array.from({ length: extra + places.length }, () => drawOf(0.5, { kind: 'rectangular', low: 0, high: 1 })),
      outputs: 1,
      seed,
      probability: PROBABILITY,
      samples: { fixed: samples },
    },
  );
  const { symmetric, median, missing } = estimate(columns[0]!, PROBABILITY);
  if (symmetric === null || median === null || missing > 0) throw new Error(`${missing} samples have no answer`);
  return { low: symmetric.low, median, high: symmetric.high };
}

function asker(car: UncertainCar, middle: readonly number[], { run, key }: Asked): Ask {
  const question = { car: CAR, name: 'run', spec: car.specOf(middle), measured: [], run };
  return createAsk(question, { carryMass: false, wanted: [key], tolerance: SAMPLES_TOLERANCE });
}

/** A specification as changes of all that it says. */
function groupsOf(spec: CarSpec): Change[] {
  return Object.entries(spec).map(([key, value]) => ({ path: `${CAR}.${notebookKey(key)}`, value }));
}

/** Path, value and spread of what is uncertain about a car beside its rules. */
function uncertainOf({ specOf, given = {} }: UncertainCar, rules: readonly number[]): [string, number, Spread][] {
  const { inputs } = completeCar(specOf(rules), CAR);
  const assumed = inputs.flatMap(({ path, value, spread }): [string, number, Spread][] =>
    spread === undefined || typeof value !== 'number' ? [] : [[path, value, spread]],
  );
  // A given number is drawn from a rectangle, whatever its value is.
  const parts = Object.entries(given).map(([path, spread]): [string, number, Spread] => [
    `${CAR}.${path}`,
    Number.NaN,
    spread,
  ]);
  return [...assumed, ...parts];
}

/** Two drives share their places among the random numbers. */
function placeOf(path: string): string {
  return path.replace('.second_drive.', '.drive.');
}

/** A published figure and the interval it should lie in. */
export interface Covered extends Interval {
  readonly record: number;
  readonly published: number;
}

export interface CoverageFigures {
  /** Share of the cars whose published figure lies inside. */
  readonly share: number;
  readonly below: number;
  readonly above: number;
  /** Mean of half the width over the median of the samples. */
  readonly halfWidth: number;
}

export function coverageFigures(cars: readonly Covered[]): CoverageFigures {
  const below = cars.filter(({ published, low }) => published < low).length;
  const above = cars.filter(({ published, high }) => published > high).length;
  const halves = cars.map(({ low, median, high }) => (high - low) / (2 * median));
  return {
    share: 1 - (below + above) / cars.length,
    below,
    above,
    halfWidth: halves.reduce((sum, each) => sum + each, 0) / cars.length,
  };
}
