/** What a car is asked to drive: speed over time, straight between its points. */

/** A stretch of a schedule with a name, such as the phases of a test cycle. */
export interface Phase {
  readonly name: string;
  /** s. */
  readonly from: number;
  readonly to: number;
}

export interface Schedule {
  readonly title: string;
  /** Where the figures come from. */
  readonly source: string;
  /** s, from 0, each later than the one before; two or more. */
  readonly time: Float64Array;
  /** m/s at these times, none negative; as long as `time`. */
  readonly speed: Float64Array;
  /** Rise over run from each point to the next, one shorter than `time`; null on a level road. */
  readonly slope: Float64Array | null;
  /** In order, without overlap; empty where the whole is one. */
  readonly phases: readonly Phase[];
}
