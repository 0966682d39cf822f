/** By how much a car misses its schedule. */
import { nth } from '../../columns.ts';
import type { Schedule } from '../../cycles/schedule.ts';
import { SPEED } from '../../model/forward/state.ts';
import type { Solution } from '../../solvers/system.ts';

/** UN GTR No. 15, Annex 6: within 2 km/h of the speeds asked for within 1 s. */
const SPEED_TOLERANCE = 2 / 3.6;
const TIME_TOLERANCE = 1;

/** Looks a second; between two of them the gap is taken as a straight line, so that a trifle more speed is a trifle less time. */
const SAMPLES = 10;
const LEAST_SAMPLES = 2;

/** s and m/s of a stretch of the way. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  speedAt(t: number): number;
}

export interface Shortfall {
  /** s of a stretch in which the car is too slow. @param start s of the schedule that its time counts from. */
  outside(stretch: Stretch, start: number): number;
}

export function createShortfall({ time, speed }: Schedule): Shortfall {
  let near = 0;

  function speedAt(t: number): number {
    const last = time.length - 1;
    if (t <= 0) return nth(speed, 0);
    if (t >= nth(time, last)) return nth(speed, last);
    while (near > 0 && nth(time, near) > t) near--;
    while (near + 1 < last && nth(time, near + 1) <= t) near++;
    return (
      nth(speed, near) +
      ((t - nth(time, near)) / (nth(time, near + 1) - nth(time, near))) * (nth(speed, near + 1) - nth(speed, near))
    );
  }

  /** The lowest speed asked for within the tolerance in time. */
  function lowest(t: number): number {
    let least = Math.min(speedAt(t + TIME_TOLERANCE), speedAt(t - TIME_TOLERANCE));
    for (let i = near; i < time.length && nth(time, i) <= t + TIME_TOLERANCE; i++) {
      if (nth(time, i) >= t - TIME_TOLERANCE) least = Math.min(least, nth(speed, i));
    }
    return least;
  }

  return {
    outside(stretch, start) {
      const { from, to } = stretch;
      const gapAt = (t: number): number => lowest(start + t) - SPEED_TOLERANCE - stretch.speedAt(t);
      const samples = Math.max(LEAST_SAMPLES, Math.ceil(SAMPLES * (to - from)));
      let share = 0;
      let before = gapAt(from);
      for (let i = 1; i <= samples; i++) {
        const gap = gapAt(from + (i / samples) * (to - from));
        share += positiveShare(before, gap) / samples;
        before = gap;
      }
      return share * (to - from);
    },
  };
}

/** Of a straight line from one value to another, the share that is above 0. */
function positiveShare(a: number, b: number): number {
  if (a <= 0 && b <= 0) return 0;
  if (a > 0 && b > 0) return 1;
  return Math.max(a, b) / Math.abs(a - b);
}

/** The stretches of one mode each that a solution of the forward model is made of. */
export function stretchesOf(solution: Solution): readonly (Stretch & { readonly mode: number })[] {
  const { times, modes, nodes } = solution;
  const state = new Float64Array((solution.states.length + solution.integrals.length) / nodes + 4);
  const speedAt = (t: number): number => {
    solution.at(t, state);
    return nth(state, SPEED);
  };
  return Array.from({ length: nodes - 1 }, (_, k) => ({
    from: nth(times, k),
    to: nth(times, k + 1),
    mode: nth(modes, k),
    speedAt,
  })).filter(({ from, to }) => to > from);
}
