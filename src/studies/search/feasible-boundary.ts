/** The place where something begins to do. */
import type { Line, Sight } from './probe.ts';
import { feasible } from './trial.ts';
import type { Asking, Trial } from './trial.ts';

/**
 * Narrows a place that will not do and one that will down to the resolution of the line, and returns the one that will. By
 * the Illinois rule on the worst margin (M. Dowell, P. Jarratt, BIT 11 (1971) 168-174), with a bisection where a margin is
 * not finite and in every third round: bounds the work whatever the shape. No step is shorter than half the resolution,
 * so that an edge next to one end is cornered at once.
 */
export function* edge(
  line: Line,
  out: Sight,
  inside: Sight,
  lens: (trial: Trial) => Trial = trial => trial,
): Asking<Sight> {
  let [bad, good] = [out, inside];
  let [below, above] = [lens(bad.trial).worst, lens(good.trial).worst];
  let side = 0;
  const towards = Math.sign(good.t - bad.t);
  const least = line.whole ? 1 : line.resolution / 2;
  for (let round = 0; Math.abs(good.t - bad.t) > line.resolution; round++) {
    const width = Math.abs(good.t - bad.t);
    const share = above / (above - below);
    const usable = round % 3 !== 2 && Number.isFinite(share) && Number.isFinite(below);
    const back = usable ? share * width : width / 2;
    const t = line.snap(good.t - towards * Math.min(Math.max(back, least), width - least));
    // Neighbouring doubles have nothing in between.
    if (!((t - bad.t) * (good.t - t) > 0)) break;
    const next = yield* line.sight(t);
    const seen = lens(next.trial);
    if (feasible(seen)) {
      [good, above] = [next, seen.worst];
      if (side === 1) below /= 2;
      side = 1;
    } else {
      [bad, below] = [next, seen.worst];
      if (side === -1) above /= 2;
      side = -1;
    }
  }
  return good;
}
