/** A stretch at full pedal as it is remembered: see `pedal-memory.ts`. */
import type { Powers } from '../../model/backward/state.ts';

/** How a stretch at full pedal ends. */
export type Outcome = 'caught up' | 'interval over' | 'stuck' | 'empty' | 'too fast' | 'starved' | 'failed';

/** A stretch as it was driven. */
export interface KeptStretch {
  readonly s0: number;
  readonly speed: number;
  readonly mode: number;
  readonly gear: number;
  readonly outcome: Outcome;
  /** s in the interval, m/s and mode at its end, m. */
  readonly at: number;
  readonly last: number;
  readonly lastMode: number;
  readonly distance: number;
  /** s that it is late and that it loses, and m/s that it has settled at; 0 where it has not. */
  readonly late: number;
  readonly lost: number;
  readonly settled: number;
  /** J, consumers and what leaves the pack aside. */
  readonly sums: Powers;
  /** The most that the drives take, W, and V of the pack below which they could not. */
  readonly most: number;
  readonly volts: number;
  /** J of heat of the drive units. */
  readonly heatFront: number;
  readonly heatRear: number;
  readonly pieces: Float64Array;
}
