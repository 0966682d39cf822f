/** By how much a car misses its schedule. */
import type { Schedule } from '../../cycles/schedule.ts';
import { SPEED } from '../../model/forward/state.ts';
import type { Solution } from '../../solvers/system.ts';

/** UN GTR No. 15, Annex 6: within 2 km/h of the speeds asked for within 1 s. */
const SPEED_TOLERANCE = 2 / 3.6;
const TIME_TOLERANCE = 1;

/** Looks a second. */
const SAMPLES = 10;

export interface Shortfall {
  /** s of a stretch of the forward model, which begins at `start` of the schedule, in which the car is too slow. */
  outside(solution: Solution, start: number): number;
}

/** Before there is a schedule. */
export const NO_SHORTFALL: Shortfall = { outside: () => 0 };

export function createShortfall({ time, speed }: Schedule): Shortfall {
  let near = 0;

  function speedAt(t: number): number {
    const last = time.length - 1;
    if (t <= 0) return speed[0]!;
    if (t >= time[last]!) return speed[last]!;
    while (near > 0 && time[near]! > t) near--;
    while (near + 1 < last && time[near + 1]! <= t) near++;
    return speed[near]! + ((t - time[near]!) / (time[near + 1]! - time[near]!)) * (speed[near + 1]! - speed[near]!);
  }

  /** The lowest speed asked for within the tolerance in time. */
  function lowest(t: number): number {
    let least = Math.min(speedAt(t + TIME_TOLERANCE), speedAt(t - TIME_TOLERANCE));
    for (let i = near; i < time.length && time[i]! <= t + TIME_TOLERANCE; i++) {
      if (time[i]! >= t - TIME_TOLERANCE) least = Math.min(least, speed[i]!);
    }
    return least;
  }

  return {
    outside(solution, start) {
      const first = solution.times[0]!;
      const span = solution.times[solution.nodes - 1]! - first;
      const state = new Float64Array((solution.states.length + solution.integrals.length) / solution.nodes + 4);
      let seconds = 0;
      const samples = Math.max(SAMPLES, Math.ceil(SAMPLES * span));
      for (let i = 0; i < samples; i++) {
        const t = first + ((i + 0.5) / samples) * span;
        solution.at(t, state);
        if (state[SPEED]! < lowest(start + t) - SPEED_TOLERANCE) seconds += span / samples;
      }
      return seconds;
    },
  };
}
