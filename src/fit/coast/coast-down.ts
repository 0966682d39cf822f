/** From coast-downs in both directions to the road load of a car, with its covariance. */
import * as elementary from '../../elementary.ts';
import { item, nth } from '../../columns.ts';
import { STANDARD_GRAVITY } from '../../model/gravity.ts';
import { airDensity, standardAtmosphere } from '../../model/air.ts';
import { ABOVE_0, FINITE, group, NOT_BELOW_0, optional, refused, type Rule } from '../../runs/rules.ts';
import { rollingAtTemperature } from '../../model/tyre/rolling.ts';
import { added, effectOf, expanded, meanOf, scaled, type Covariance, type Spread, standardOf } from '../linear.ts';
import { leastSquares } from '../least-squares.ts';
import type { Shortcoming } from '../problem.ts';
import { widening } from '../student.ts';
import type { SpeedLog } from '../speed-log.ts';
import { type DescentOptions, descentOf } from './descent.ts';
import { fitRun, type RunFit } from './one-run.ts';
import { type Pair, pairsOf } from './pairs.ts';
import { underSideWind, withoutSideWind } from './side-wind.ts';
import { shortcomingsOf } from './shortcomings.ts';
import { type Window, windowsOf } from './windows.ts';
import type { Measured, Terms } from './measured.ts';

/** A day on which a car was let coast, as it was measured. */
export interface CoastDay {
  /** K. */
  readonly temperature: Measured;
  /** m above sea level. */
  readonly altitude: Measured;
  /** Relative, 0 to 1. */
  readonly humidity: Measured;
}

export interface CoastMeasurement {
  readonly there: readonly RunFit[];
  readonly back: readonly RunFit[];
  /** kg that stand on the road. */
  readonly mass: Measured;
  /** kg by which what turns adds to it. */
  readonly turning: Measured;
  readonly day: CoastDay;
  /** m/s of wind across the road, by its size; left out: nothing is known of it and nothing taken off. */
  readonly sideWind?: Measured;
  /** K and Pa of the dry air that the figures are corrected to. */
  readonly standard: { readonly temperature: number; readonly pressure: number };
}

export interface CoastDown {
  readonly runs: readonly RunFit[];
  readonly pairs: readonly Pair[];
  readonly windows: readonly Window[];
  /** On the day, from the fit of v(t); the same corrected to the standard; and from the windows on the day. */
  readonly day: Terms;
  readonly terms: Terms;
  readonly windowed: Terms | null;
  /** Of `terms`; such that a normal distribution has the 95 % intervals of Student's t. */
  readonly covariance: Covariance;
  readonly dayCovariance: Covariance;
  /** The same apart: what one sum of the terms is uncertain by is told by `standardOf`. */
  readonly spread: Spread;
  readonly daySpread: Spread;
  /** m2: 2 F2 over the density of the air. */
  readonly dragArea: Measured;
  /** Share of the weight at 25 degC, as tyres have it. */
  readonly rolling: Measured;
  /** m/s and rise over run against a car that goes there: the mean of all pairs. */
  readonly wind: Measured;
  readonly slope: Measured;
  /** kg with all that turns. */
  readonly moved: number;
  /** What must be known beside the figures, as sentences without a full stop. */
  readonly doubts: readonly string[];
}

const NUMBER = group<Measured>({ value: FINITE, standard: NOT_BELOW_0 });
const HEAVY = group<Measured>({ value: ABOVE_0, standard: NOT_BELOW_0 });

const RUNS: Rule = (value, path) => {
  if (!Array.isArray(value)) throw refused(path, value, 'a list of runs, as coastRun gives them');
};

const MEASUREMENT = group<CoastMeasurement>({
  there: RUNS,
  back: RUNS,
  mass: HEAVY,
  turning: NUMBER,
  day: group<CoastDay>({ temperature: HEAVY, altitude: NUMBER, humidity: NUMBER }),
  sideWind: optional(NUMBER),
  standard: group<CoastMeasurement['standard']>({ temperature: ABOVE_0, pressure: ABOVE_0 }),
});

/** Fewest pairs whose scatter means something: UN GTR 15 asks for as many (from memory). */
const FEWEST_PAIRS = 3;

/**
 * One run of a log.
 * @throws LogError located in it, where the car does not coast or too much else happens; SpecError for speeds that can not be.
 */
export function coastRun(track: SpeedLog, options: DescentOptions): RunFit {
  group<DescentOptions>({ from: optional(ABOVE_0), to: NOT_BELOW_0 })(options, 'options');
  return fitRun(descentOf(track, options));
}

/** The road load of all runs, or why there is none. @throws SpecError for what was measured where that can not be. */
export function coastDown(
  measured: CoastMeasurement,
): CoastDown | { readonly short: readonly Shortcoming[]; readonly doubts: readonly string[] } {
  MEASUREMENT(measured, 'measured');
  const { there, back } = measured;
  const pairs = pairsOf(there, back);
  const { short, doubts } = shortcomingsOf(there, back, pairs, FEWEST_PAIRS);
  if (short.length > 0) return { short, doubts };
  const windows = windowsOf(pairs);
  const moved = measured.mass.value + measured.turning.value;
  const freedom = pairs.length - 1;
  const { mean, covariance } = meanOf(pairs.map(({ slowing: { a, b, c } }) => [a, b, c]));
  const felt = termsOf(mean, moved);
  const massEffect = effectOf(
    felt.map(term => term / moved),
    elementary.hypot(measured.mass.standard, measured.turning.standard),
  );
  const feltScatter = scaled(covariance, elementary.pow(moved, 2));
  const { terms: day, covariance: beside } =
    measured.sideWind === undefined
      ? { terms: felt, covariance: massEffect }
      : withoutSideWind(felt, massEffect, measured.sideWind);
  const daySpread: Spread = { scatter: underSideWind(feltScatter, measured.sideWind?.value ?? 0), beside, freedom };
  const air = correction(measured);
  const { factors } = air;
  const terms = termsOf(
    day.map((term, i) => term * nth(factors, i)),
    1,
  );
  const corrected = (matrix: Covariance): number[][] =>
    matrix.map((row, i) => row.map((each, j) => each * nth(factors, i) * nth(factors, j)));
  const spread: Spread = {
    scatter: corrected(daySpread.scatter),
    beside: added(corrected(daySpread.beside), air.effect(day)),
    freedom,
  };
  const scatter = (of: (pair: Pair) => number): Measured => {
    const found = meanOf(pairs.map(pair => [of(pair)]));
    return {
      value: item(found.mean, 0),
      standard: Math.sqrt(item(item(found.covariance, 0), 0)) * widening(freedom),
    };
  };
  const inWindows = windowTerms(windows, moved);
  const windowed =
    inWindows === null || measured.sideWind === undefined
      ? inWindows
      : withoutSideWind(inWindows, massEffect, measured.sideWind).terms;
  return {
    runs: [...there, ...back],
    pairs,
    windows,
    day,
    terms,
    windowed,
    covariance: expanded(spread),
    dayCovariance: expanded(daySpread),
    spread,
    daySpread,
    ...splitOf(measured, terms, spread),
    wind: scatter(({ wind }) => wind),
    slope: scatter(({ slope }) => slope),
    moved,
    doubts,
  };
}

function termsOf([a = 0, b = 0, c = 0]: readonly number[], mass: number): Terms {
  return [a * mass, b * mass, c * mass];
}

/** From the day to the standard: F0 and F1 as rolling resistance goes with temperature, F2 as the density of the air. */
function correction({ day, standard }: CoastMeasurement): {
  readonly factors: Terms;
  readonly effect: (day: Terms) => number[][];
} {
  const wanted = airDensity(standard.temperature, standard.pressure, 0);
  const factorsAt = (temperature: number, altitude: number, humidity: number): Terms => {
    const roll = rollingAtTemperature(standard.temperature) / rollingAtTemperature(temperature);
    const rho = airDensity(temperature, standardAtmosphere(altitude).pressure, humidity);
    return [roll, roll, wanted / rho];
  };
  const { temperature: t, altitude: h, humidity: x } = day;
  const at = factorsAt(t.value, h.value, x.value);
  const moved = (one: Terms): Terms => [one[0] - at[0], one[1] - at[1], one[2] - at[2]];
  const steps: readonly (readonly [Terms, number])[] = [
    [moved(factorsAt(t.value + 1, h.value, x.value)), t.standard],
    [moved(factorsAt(t.value, h.value + 10, x.value)), h.standard / 10],
    [moved(factorsAt(t.value, h.value, Math.min(1, x.value + 0.01))), x.value < 1 ? x.standard / 0.01 : 0],
  ];
  return {
    factors: at,
    effect: terms =>
      steps.reduce<number[][]>(
        (all, [change, standard]) =>
          added(
            all,
            effectOf(
              terms.map((term, i) => term * nth(change, i)),
              standard,
            ),
          ),
        [0, 1, 2].map(() => [0, 0, 0]),
      ),
  };
}

/** Drag area and rolling resistance, as far as a coast-down parts them: by how they go with speed. */
function splitOf(
  { mass, standard }: CoastMeasurement,
  terms: Terms,
  spread: Spread,
): Pick<CoastDown, 'dragArea' | 'rolling'> {
  const rho = airDensity(standard.temperature, standard.pressure, 0);
  const weight = mass.value * STANDARD_GRAVITY * rollingAtTemperature(standard.temperature);
  const of = (k: 0 | 2, by: number): Measured => ({
    value: terms[k] / by,
    standard: standardOf(k === 0 ? [1, 0, 0] : [0, 0, 1], spread) / by,
  });
  return { dragArea: of(2, rho / 2), rolling: of(0, weight) };
}

/** Three terms through the forces of the windows; null where there are too few of them. */
function windowTerms(windows: readonly Window[], moved: number): Terms | null {
  if (windows.length < 4) return null;
  const forces = windows.map(({ speed, slowing }) => ({
    speed,
    force: (moved * slowing.reduce((all, each) => all + each, 0)) / slowing.length,
  }));
  const { parameters } = leastSquares({
    residuals: ([f0 = 0, f1 = 0, f2 = 0]) =>
      Float64Array.from(forces, ({ speed, force }) => force - f0 - f1 * speed - f2 * speed * speed),
    start: [100, 0, 0.4],
    scale: [100, 5, 0.4],
  });
  return termsOf(parameters, 1);
}

/** N at a speed. */
export function forceAt([f0, f1, f2]: Terms, speed: number): number {
  return f0 + f1 * speed + f2 * speed * speed;
}
