/** The lowest point of a stretch in which there is one dip. */
import { bestSight } from './probe.ts';
import type { Line, Sight } from './probe.ts';
import { better, feasible } from './trial.ts';
import type { Asking, Trial } from './trial.ts';

const GOLDEN = (3 - Math.sqrt(5)) / 2;
const MOST_ROUNDS = 100;
/** A minimum shows in the digits of the value only down to the root of the precision of a double. */
const FLAT = 1.5e-8;

export interface MinimumOptions {
  /** How a trial is looked at; as it is unless stated. */
  readonly lens?: (trial: Trial) => Trial;
  /** Ends the search early. */
  readonly enough?: (trial: Trial) => boolean;
}

/**
 * Lowest point between `low` and `high`, from a start between or at one of them. R. P. Brent, Algorithms for Minimization without
 * Derivatives (1973), chapter 5: parabolas where they help, golden sections where not. It compares points by `better`,
 * so that a part where the constraints fail counts as a slope that leads out of it; parabolas are put through
 * points that will do only.
 */
export function* minimum(
  line: Line,
  low: number,
  high: number,
  start: Sight,
  { lens = trial => trial, enough = () => false }: MinimumOptions = {},
): Asking<Sight> {
  if (line.whole) return yield* wholeMinimum(line, low, high, start, lens);
  let [a, b] = [low, high];
  let [best, second, third] = [start, start, start];
  let [step, before] = [0, 0];
  for (let round = 0; round < MOST_ROUNDS && !enough(best.trial); round++) {
    const middle = a + (b - a) / 2;
    const least = line.resolution / 4 + FLAT * Math.abs(best.t);
    if (Math.abs(best.t - middle) <= 2 * least - (b - a) / 2) break;
    const parabola = Math.abs(before) > least ? vertex(best, second, third, lens) : Number.NaN;
    const inside = parabola > a + least && parabola < b - least;
    if (inside && Math.abs(parabola - best.t) < Math.abs(before) / 2) {
      [before, step] = [step, parabola - best.t];
    } else {
      before = best.t < middle ? b - best.t : a - best.t;
      step = GOLDEN * before;
    }
    if (Math.abs(step) < least) step = Math.sign(step || middle - best.t) * least;
    const next = yield* line.sight(best.t + step);
    if (better(lens(best.trial), lens(next.trial))) {
      if (next.t < best.t) a = next.t;
      else b = next.t;
      if (second === best || !better(lens(second.trial), lens(next.trial))) [third, second] = [second, next];
      else if (third === best || third === second || !better(lens(third.trial), lens(next.trial))) third = next;
    } else {
      if (next.t < best.t) b = best.t;
      else a = best.t;
      [third, second, best] = [second, best, next];
    }
  }
  return best;
}

/** Where the parabola through three points has its lowest point; NaN where there is none. */
function vertex(p: Sight, q: Sight, r: Sight, lens: (trial: Trial) => Trial): number {
  const [fp, fq, fr] = [lens(p.trial), lens(q.trial), lens(r.trial)];
  if (!feasible(fp) || !feasible(fq) || !feasible(fr)) return Number.NaN;
  const left = (p.t - q.t) * (fp.value - fr.value);
  const right = (p.t - r.t) * (fp.value - fq.value);
  return p.t - ((p.t - q.t) * left - (p.t - r.t) * right) / (2 * (left - right));
}

/** Whole numbers: scans of ever shorter stretches around the best, until the last one leaves nothing out. */
function* wholeMinimum(
  line: Line,
  low: number,
  high: number,
  start: Sight,
  lens: (trial: Trial) => Trial,
): Asking<Sight> {
  let [a, b, best] = [low, high, start];
  for (;;) {
    const stride = Math.max(1, Math.ceil((b - a) / line.scan));
    const places = Array.from({ length: Math.floor((b - a) / stride) + 1 }, (_, k) => a + k * stride);
    if (places.at(-1) !== b) places.push(b);
    const sights = yield* line.sights(places);
    best = bestSight([best, ...sights], lens);
    if (stride === 1) return best;
    [a, b] = [Math.max(a, best.t - stride), Math.min(b, best.t + stride)];
  }
}
