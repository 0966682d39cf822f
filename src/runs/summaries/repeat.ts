/** Written by `npm run defaults` from the tables of outputs: do not edit. */
import type { LaunchCurrents } from './currents.ts';

/** Figures of a repeat; null where there is none, with the reason in `reasons`. */
export type RepeatSummary = LaunchCurrents & {
  /** Target speed: each launch goes from rest to there. In m/s. */
  readonly target: number | null;
  /** Launches: how many were done; it ends early where the car has become 20 % slower, or its pack is empty. A pure number. */
  readonly runs: number | null;
  /** First launch: from the pedal going down to the target speed. In s. */
  readonly time_first: number | null;
  /** Last launch: from the pedal going down to the target speed. In s. */
  readonly time_last: number | null;
  /** Slower by: the last launch against the first. A pure number. */
  readonly slowing: number | null;
  /** Slower from launch: the first launch that takes more than 5 % longer than the first. A pure number. */
  readonly slower_run: number | null;
  /** Slowed by: what holds the last launch back for longer than the first, most of all. */
  readonly slowed_by: string | null;
  /** Hottest drive unit: lumped, at the end of a launch. In K. */
  readonly unit_temperature: number | null;
  /** Hottest pack: lumped, at the end of a launch. In K. */
  readonly pack_temperature: number | null;
  /** State of charge at the end: after the last launch. A pure number. */
  readonly charge_end: number | null;
  /** Energy out of the cells: launches and pauses together. In J. */
  readonly energy_used: number | null;
  /** From the first pedal to the last target: the pauses included, braking left out. In s. */
  readonly time_all: number | null;
};
