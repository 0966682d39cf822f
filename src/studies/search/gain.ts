/** The arithmetic of a comparison: what a variant gains, what it costs, and where the next step stops paying. */
import { item } from '../../columns.ts';

/** A number, or null for a variant without an answer. */
export type Figure = number | null;

/** Each variant minus the first one; null without both. The first is 0, or null. */
export function differences(values: readonly Figure[]): Figure[] {
  const first = values[0] ?? null;
  return values.map(value => (value === null || first === null ? null : value - first));
}

/** One step from a variant to the next dearer one. */
export interface MarginalStep {
  /** Indices of the variants. */
  readonly from: number;
  readonly to: number;
  readonly cost: number;
  readonly gain: number;
  /** Gain per unit of cost of this step alone. */
  readonly rate: number;
}

export interface Diminishing {
  /** Steps in order of cost. Variants without answers are left out; of those that cost the same the one that gains most counts. */
  readonly steps: readonly MarginalStep[];
  /** First step that no longer pays, as an index of `steps`; null where all of them do. */
  readonly stops: number | null;
}

/**
 * Where the next step stops paying: the first step whose rate is below `share` of that of the first step (more is better;
 * turn the sign of a gain where less is). A first step that gains nothing does not pay itself.
 */
export function diminishing(gains: readonly Figure[], costs: readonly Figure[], share: number): Diminishing {
  sameLength(gains, costs);
  if (!(share >= 0 && share <= 1)) throw new RangeError(`a share lies between 0 and 1, got ${share}`);
  const known = gains.flatMap((gain, index) => {
    const cost = item(costs, index);
    return gain === null || cost === null ? [] : [{ index, gain, cost }];
  });
  known.sort((a, b) => a.cost - b.cost || b.gain - a.gain);
  const line = known.filter((variant, k) => k === 0 || variant.cost > item(known, k - 1).cost);
  const steps = line.slice(1).map((next, k): MarginalStep => {
    const last = item(line, k);
    const [cost, gain] = [next.cost - last.cost, next.gain - last.gain];
    return { from: last.index, to: next.index, cost, gain, rate: gain / cost };
  });
  const first = steps[0]?.rate ?? 0;
  const stops = steps.findIndex(({ rate }) => rate <= 0 || rate < share * first);
  return { steps, stops: stops === -1 ? null : stops };
}

function sameLength(gains: readonly Figure[], costs: readonly Figure[]): void {
  if (gains.length === costs.length) return;
  throw new RangeError(`every gain needs a cost, got ${gains.length} and ${costs.length}`);
}
