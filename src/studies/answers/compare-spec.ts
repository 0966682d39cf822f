/** What a comparison is asked beside its cars and runs. */

/** What else is known of the cars, and what they must not break. */
export interface CompareSpec {
  /** Of each car in turn, in money of any kind. */
  readonly prices?: readonly number[];
  /** A step stops paying when it gains less than this share of what the first one gained. */
  readonly pays?: number;
  /** kg. */
  readonly grossMass?: number;
  readonly frontLimit?: number;
  readonly rearLimit?: number;
  /** Of each car in turn, kg on the axles with all seats and luggage, where its scales say so: the limits are held against that. */
  readonly full?: readonly (FullLoads | null)[];
}

/** kg on each axle. */
export interface FullLoads {
  readonly front: number;
  readonly rear: number;
}
