/** The search along one parameter: looks it through first, and assumes nothing of the model that the look does not show. */
import { item } from '../../columns.ts';
import { edge } from './feasible-boundary.ts';
import { minimum } from './minimum.ts';
import type { Aim } from './problem.ts';
import { bestSight } from './probe.ts';
import type { Line, Sight } from './probe.ts';
import { better, byMargin, feasible } from './trial.ts';
import type { Asking, Trial } from './trial.ts';

/** A part of the line, to its resolution, where all constraints hold. */
export interface Stretch {
  readonly low: number;
  readonly high: number;
}

/** Peaks, and dips, that are looked into more closely: the most promising ones. */
const MOST_PEAKS = 3;
/** Resolutions by which to step inside from an end, to see whether the lowest point lies at that end. */
const NUDGE = 10;

/** Best place of a line by the aim; where nothing will do the place that fails by least. All sights of the look with it. */
export function* searchLine(line: Line, aim: Aim): Asking<{ readonly best: Sight; readonly sights: Sight[] }> {
  const seen = yield* line.sights(placesOf(line));
  const sights = aim === 'clearest' ? seen : yield* withPeaks(line, seen);
  if (aim === 'clearest') return { best: yield* lowest(line, sights, byMargin), sights };
  if (!sights.some(({ trial }) => feasible(trial))) return { best: bestSight(sights), sights };
  if (aim === 'best') return { best: yield* lowest(line, sights), sights };
  const first = sights.findIndex(({ trial }) => feasible(trial));
  const best = first === 0 ? item(sights, 0) : yield* edge(line, item(sights, first - 1), item(sights, first));
  return { best, sights };
}

/** The parts of a line where all constraints hold, from the sights of its look. */
export function* stretchesOf(line: Line, sights: readonly Sight[]): Asking<Stretch[]> {
  const stretches: Stretch[] = [];
  let low: number | null = null;
  for (const [k, sight] of sights.entries()) {
    if (!feasible(sight.trial)) continue;
    const [before, after] = [sights[k - 1], sights[k + 1]];
    if (before === undefined) low = sight.t;
    else if (!feasible(before.trial)) low = (yield* edge(line, before, sight)).t;
    if (after !== undefined && feasible(after.trial)) continue;
    const high = after === undefined ? sight.t : (yield* edge(line, after, sight)).t;
    stretches.push({ low: low ?? sight.t, high });
  }
  return stretches;
}

function placesOf({ low, high, whole, scan, snap }: Line): number[] {
  if (whole && high - low <= 4 * scan) return Array.from({ length: high - low + 1 }, (_, k) => low + k);
  return Array.from({ length: scan + 1 }, (_, k) => {
    if (k === 0) return low;
    return k === scan ? high : snap(low + (k / scan) * (high - low));
  });
}

/**
 * Looks for what will do between places that will not: wherever the worst margin has a peak that may reach above 0. How far a peak can
 * rise between the places is judged by how far it rises to them; when nothing at all will do, the highest peaks are followed
 * in any case, which finds the place that fails by least.
 */
function* withPeaks(line: Line, seen: readonly Sight[]): Asking<Sight[]> {
  const nothing = !seen.some(({ trial }) => feasible(trial));
  const peaks = seen.flatMap((sight, k) => {
    const around = [seen[k - 1], seen[k + 1]].filter(next => next !== undefined);
    const top = sight.trial.worst;
    if (feasible(sight.trial) || !Number.isFinite(top) || around.some(({ trial }) => trial.worst > top)) return [];
    const rise = Math.max(...around.map(({ trial }) => top - trial.worst));
    return nothing || top + rise >= 0 ? [{ sight, around }] : [];
  });
  const added: Sight[] = [];
  for (const { sight, around } of peaks
    .toSorted((a, b) => b.sight.trial.worst - a.sight.trial.worst)
    .slice(0, MOST_PEAKS)) {
    const ends = [sight, ...around].map(({ t }) => t);
    const [low, high] = [Math.min(...ends), Math.max(...ends)];
    const found = yield* minimum(line, low, high, sight, { lens: byMargin, enough: feasible });
    if (found.t !== sight.t) added.push(found);
  }
  return [...seen, ...added].toSorted((a, b) => a.t - b.t);
}

/** The lowest point: in each of the most promising dips of the look, and at its ends, where the constraints end it. */
function* lowest(line: Line, sights: readonly Sight[], lens: (trial: Trial) => Trial = trial => trial): Asking<Sight> {
  const worse = (a: Sight | undefined, b: Sight): boolean =>
    a === undefined || !feasible(lens(a.trial)) || !better(lens(a.trial), lens(b.trial));
  const dips = sights
    .map((sight, k) => ({ sight, before: sights[k - 1], after: sights[k + 1] }))
    .filter(({ sight, before, after }) => feasible(lens(sight.trial)) && worse(before, sight) && worse(after, sight))
    .toSorted((a, b) => lens(a.sight.trial).value - lens(b.sight.trial).value)
    .slice(0, MOST_PEAKS);
  const found: Sight[] = [bestSight(sights, lens)];
  for (const { sight, before, after } of dips) {
    const low = yield* endOf(line, before, sight, lens);
    const high = yield* endOf(line, after, sight, lens);
    found.push(yield* within(line, low, sight, high, lens));
  }
  return bestSight(found, lens);
}

/** Where a dip ends on one side: at the next place, at the edge of what will do, or at the end of the line. */
function* endOf(line: Line, next: Sight | undefined, sight: Sight, lens: (trial: Trial) => Trial): Asking<Sight> {
  if (next === undefined) return sight;
  return feasible(lens(next.trial)) ? next : yield* edge(line, next, sight, lens);
}

/** Lowest point between two ends that will do, with a place between them that may be one of them. */
function* within(line: Line, low: Sight, sight: Sight, high: Sight, lens: (trial: Trial) => Trial): Asking<Sight> {
  const value = ({ trial }: Sight): number => lens(trial).value;
  if (high.t - low.t <= line.resolution || (value(low) === value(sight) && value(high) === value(sight))) {
    return bestSight([low, sight, high], lens);
  }
  const best = bestSight([sight, low, high], lens);
  if (line.whole || (best.t > low.t && best.t < high.t)) return yield* minimum(line, low.t, high.t, best, { lens });
  const other = best === low ? (sight.t > low.t ? sight : high) : sight.t < high.t ? sight : low;
  const step = Math.min(NUDGE * line.resolution, Math.abs(other.t - best.t) / 2);
  const inside = yield* line.sight(best.t + Math.sign(other.t - best.t) * step);
  if (better(lens(best.trial), lens(inside.trial))) return best;
  return yield* minimum(line, Math.min(best.t, other.t), Math.max(best.t, other.t), inside, { lens });
}
