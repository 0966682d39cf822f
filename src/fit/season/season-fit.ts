/** From the drives and charges of a season to consumers, drag, rolling resistance, capacity and charger of a car. */
import * as elementary from '../../elementary.ts';
import { item, nth } from '../../columns.ts';
import type { Measured } from '../coast/measured.ts';
import { leastSquares, shiftFor } from '../least-squares.ts';
import { added, type Covariance, effectOf, scaled } from '../linear.ts';
import type { Shortcoming } from '../problem.ts';
import { weakestOf } from '../untold.ts';

export const SEASON_PARAMETERS = ['auxiliaries', 'drag', 'rolling'] as const;
export type SeasonParameter = (typeof SEASON_PARAMETERS)[number];

/** A usual change: what a season knows no better than this it does not tell. W; shares of what was assumed. */
const SEASON_SCALE: { readonly [key in SeasonParameter]: number } = {
  auxiliaries: 200,
  drag: 0.2,
  rolling: 0.2,
};
const START: { readonly [key in SeasonParameter]: number } = { auxiliaries: 0, drag: 1, rolling: 1 };

export interface SeasonDrive {
  /** J out of the pack, measured. */
  readonly energy: Measured;
  /** J out of the pack, with W of consumers more than assumed and factors on drag and rolling resistance. Throws nothing; NaN where it has no answer. */
  readonly modelled: (change: { readonly [key in SeasonParameter]: number }) => number;
  /** J by which a standard uncertainty of each other input changes that. */
  readonly effects: readonly number[];
}

export interface SeasonFit {
  readonly parameters: readonly SeasonParameter[];
  readonly values: readonly number[];
  readonly covariance: Covariance;
  /** J of each drive, modelled with these values. */
  readonly modelled: readonly number[];
  /** How much more the drives scatter than their meters explain: 1 or more. */
  readonly excess: number;
}

export function seasonFit(
  drives: readonly SeasonDrive[],
  parameters: readonly SeasonParameter[],
): SeasonFit | { readonly short: readonly Shortcoming[] } {
  if (drives.length <= parameters.length) {
    const what = `${drives.length} drives say too little about ${parameters.length} unknowns`;
    return { short: [{ what, cure: `${parameters.length + 2} drives or more, or fit: with fewer of them` }] };
  }
  const changeOf = (values: readonly number[]): { readonly [key in SeasonParameter]: number } => {
    const at = (each: SeasonParameter): number => {
      const place = parameters.indexOf(each);
      return place < 0 ? START[each] : nth(values, place);
    };
    return { auxiliaries: at('auxiliaries'), drag: at('drag'), rolling: at('rolling') };
  };
  const scale = parameters.map(each => SEASON_SCALE[each]);
  const fit = leastSquares({
    residuals: values =>
      Float64Array.from(
        drives,
        ({ energy, modelled }) => (energy.value - modelled(changeOf(values))) / energy.standard,
      ),
    start: parameters.map(each => START[each]),
    scale,
    within: parameters.map(each => (each === 'auxiliaries' ? ([-5000, 20_000] as const) : ([0.1, 5] as const))),
    // Energies come out of a follower that takes whole steps: a wider difference than round-off asks for.
    step: 0.02,
  });
  const excess = Math.max(1, Math.sqrt(fit.squares / fit.freedom));
  const count = drives[0]?.effects.length ?? 0;
  const shifts = Array.from({ length: count }, (_, k) =>
    shiftFor(
      fit,
      scale,
      Float64Array.from(drives, ({ effects, energy }) => -nth(effects, k) / energy.standard),
    ),
  );
  const covariance = shifts.reduce<number[][]>(
    (all, shift) => added(all, effectOf(shift, 1)),
    scaled(fit.inverse, elementary.pow(excess, 2)),
  );
  const weak = weakestOf(covariance, scale);
  if (weak !== null) return { short: [shortOf(weak.map(k => item(parameters, k)))] };
  return {
    parameters,
    values: fit.parameters,
    covariance,
    modelled: drives.map(({ modelled }) => modelled(changeOf(fit.parameters))),
    excess,
  };
}

const NAMES: { readonly [key in SeasonParameter]: string } = {
  auxiliaries: 'consumers',
  drag: 'drag',
  rolling: 'rolling resistance',
};

function shortOf(weak: readonly SeasonParameter[]): Shortcoming {
  const names = weak.map(each => NAMES[each]).join(' and ');
  if (weak.length === 1) {
    return {
      what: `the ${names} can not be told by these drives`,
      cure: 'drives in which it counts, or fit: without it',
    };
  }
  const cure = weak.includes('auxiliaries')
    ? 'slow drives that take long beside quick ones'
    : 'drives at walking pace or in town beside drives on the motorway';
  return {
    what: `${names} can not be told apart: the drives are too much alike`,
    cure: `${cure}, or fit: with fewer of them`,
  };
}

/** One charge, as the instruments told it. */
export interface SeasonCharge {
  /** Share of the capacity that went in or out, by the state of charge before and after; null where nothing tells it. */
  readonly part: Measured | null;
  /** C that were counted; null where nobody counted. */
  readonly counted: Measured | null;
  /** J from the wall and into the pack; null where not metered. */
  readonly wall: Measured | null;
  readonly into: Measured | null;
}

/** C: the capacity that is left, by all charges with a count; null where none has. Least share of a full charge that says anything: 20 %. */
export function capacityOf(charges: readonly SeasonCharge[]): Measured | null {
  const told = charges.flatMap(({ part, counted }) =>
    counted === null || part === null || part.value < LEAST_PART ? [] : [ratio(counted, part)],
  );
  return weighted(told);
}

/** Shares of the capacity when new that no pack has: a unit, the cells in parallel or what was counted is wrong. Common practice, no source. */
const LEAST_HEALTH = 0.35;
const MOST_HEALTH = 1.1;

/** The same, or why it is not told. @param whole C of the pack when new. @param short why a state of charge is not told. */
export function capacityTold(
  charges: readonly SeasonCharge[],
  short: readonly Shortcoming[],
  whole: number,
): { readonly capacity: Measured | null; readonly missing: string | null } {
  const capacity = capacityOf(charges);
  const [first] = short;
  if (capacity === null) {
    const what = 'the capacity can not be told: it needs the charge in A h that was counted over 20 % or more';
    return { capacity, missing: first === undefined ? what : `${first.what}; it takes ${first.cure}` };
  }
  const health = capacity.value / whole;
  const off = 2 * (capacity.standard / whole);
  if (health + off < LEAST_HEALTH || health - off > MOST_HEALTH) {
    const what = `the capacity comes out as ${Number(health.toPrecision(2))} times that of the pack when new, which no pack has`;
    return {
      capacity: null,
      missing: `${what}; it takes the right units, cells in series and in parallel as in the car cell, and all that flowed between the two states of charge`,
    };
  }
  return { capacity, missing: null };
}

/** Share of what the wall gives that reaches the pack; null where no charge has both meters. */
export function chargerOf(charges: readonly SeasonCharge[]): Measured | null {
  const told = charges.flatMap(({ wall, into }) => (wall === null || into === null ? [] : [ratio(into, wall)]));
  return weighted(told);
}

const LEAST_PART = 0.2;

function ratio(top: Measured, bottom: Measured): Measured {
  const value = top.value / bottom.value;
  return { value, standard: value * elementary.hypot(top.standard / top.value, bottom.standard / bottom.value) };
}

/** Mean by weights; wider by the scatter where that is more than the instruments explain. Gauges that are off alike do not average out. */
function weighted(told: readonly Measured[]): Measured | null {
  if (told.length === 0) return null;
  const weight = told.reduce((all, { standard }) => all + 1 / elementary.pow(standard, 2), 0);
  const value = told.reduce((all, each) => all + each.value / elementary.pow(each.standard, 2), 0) / weight;
  const squares = told.reduce((all, each) => all + elementary.pow((each.value - value) / each.standard, 2), 0);
  const excess = told.length < 2 ? 1 : Math.max(1, Math.sqrt(squares / (told.length - 1)));
  const alike = Math.min(...told.map(({ standard }) => standard)) / Math.SQRT2;
  return { value, standard: Math.max(excess / Math.sqrt(weight), alike) };
}
