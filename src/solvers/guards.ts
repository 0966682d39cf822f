/**
 * Watches the guards of a system: which one fires first in a step, and where.
 *
 * A guard is armed once it has been positive in the mode; only an armed guard fires. Guards are read at the ends of
 * accepted steps. The inside of a step is looked at only when there is reason to:
 * - a guard that is positive at both ends may have dipped: the parabola through its last three values has its lowest
 *   point near this step and comes close to zero compared to its bend. On the first step of a mode, where there is no
 *   third value: the smaller end is less than the change over the step;
 * - a guard that is not armed and is negative at the end may have been positive in between.
 * What is missed all the same is found late (see `SolveStatistics.lateSwitches`) or not at all; `maxStep` helps.
 */
import { denseAt } from './step.ts';
import type { SwitchedSystem } from './system.ts';
import type { GuardWatch } from './guard-watch.ts';
import { parabolaRoot, slopeInside } from './parabola.ts';
import { fitQuintic, statesOnQuintic, straightRoot } from './quintic.ts';

/** Where to look inside a step; on the first one of a mode, a guard that starts from zero may be back below it early. */
const INSIDE = [0.25, 0.5, 0.75] as const;
const INSIDE_FIRST = [1e-6, 1e-5, 1e-4, 1e-3, 0.01, 0.05, 0.25, 0.5, 0.75] as const;
const MIDDLE = [0.5] as const;
/** A root is good enough when the guard is this small against its values at the ends: the driver corrects it once more. */
const ROOT_VALUE = 1e-7;
const ROOT_WIDTH = 1e-13;
/** Rounds in which a parabola is tried; where it has not found the root by then it is no good. */
const PARABOLAS = 4;
/** A step that ends just where its guard is known to be zero leaves so little of it, against its value at the start. */
const AT_END = 1e-12;
/** Over a first step with so little error the guards are all but straight lines: between two positive ends they stay positive. */
const STRAIGHT = 1e-6;

function guardInto(system: SwitchedSystem, mode: number, y: Float64Array, out: Float64Array): void {
  if (system.guard === undefined) throw new Error('a system with guards has a function for them');
  system.guard(mode, y, out);
}

/** Starts a mode: reads the guards at the start (the rates have just been evaluated there) and arms the positive ones. */
export function beginGuards(watch: GuardWatch, mode: number): void {
  const { count, armed, first } = watch;
  guardInto(watch.system, mode, watch.step.start, first);
  watch.invalid = -1;
  for (let i = 0; i < count; i++) {
    armed[i] = first[i]! > 0 ? 1 : 0;
    if (Number.isNaN(first[i]!)) watch.invalid = i;
  }
  watch.fresh = true;
  watch.previousSize = Number.NaN;
}

/** Takes the guards a little ahead of the start of a mode, right after the rates there: they tell how each of them sets out. */
export function lookAhead(watch: GuardWatch, mode: number, y: Float64Array, ahead: number): void {
  guardInto(watch.system, mode, y, watch.previous);
  watch.previousSize = -ahead;
}

/** An armed guard that `begin` found no longer positive, because the rates jumped at a breakpoint; -1 if none. */
export function brokenGuard(watch: GuardWatch, mode: number): number {
  guardInto(watch.system, mode, watch.step.start, watch.here);
  for (let i = 0; i < watch.count; i++) if (watch.armed[i] === 1 && watch.here[i]! <= 0) return i;
  return -1;
}

/**
 * At the start of a mode, a guard that is not positive there and falls, -1 if there is none. Two guards that cross at
 * the same instant fire one after the other this way. Up to two calls of `rates`.
 */
export function fallingGuard(watch: GuardWatch, mode: number, probe: number): number {
  if (!anyBelow(watch.first)) return -1;
  // Heun's step, so that a guard that only begins to move is seen as well.
  for (let i = 0; i < watch.n; i++) watch.y[i] = watch.step.start[i]! + probe * watch.step.startRates[i]!;
  watch.y[watch.n] = watch.step.start[watch.n]! + probe;
  watch.system.rates(mode, watch.y, watch.rates);
  for (let i = 0; i < watch.n; i++)
    watch.y[i] = watch.step.start[i]! + (probe / 2) * (watch.step.startRates[i]! + watch.rates[i]!);
  evaluate(watch, mode);
  watch.step.evaluations += 1;
  for (let i = 0; i < watch.count; i++) if (watch.first[i]! <= 0 && watch.here[i]! < watch.first[i]!) return i;
  return -1;
}

function anyBelow(values: Float64Array): boolean {
  for (let i = 0; i < values.length; i++) if (values[i]! <= 0) return true;
  return false;
}

/** Guards at `y` into `here`. */
function evaluate(watch: GuardWatch, mode: number): void {
  watch.system.rates(mode, watch.y, watch.rates);
  guardInto(watch.system, mode, watch.y, watch.here);
  watch.step.evaluations += 1;
}

export function evaluateAt(watch: GuardWatch, mode: number, dense: Float64Array, offset: number, x: number): void {
  if (watch.quintic.fitted) statesOnQuintic(watch.quintic, x, watch.y);
  else denseAt(watch.step, watch.n, dense, offset, x, watch.y);
  evaluate(watch, mode);
  watch.lastLook = x;
}

/** The guard that fires first in the step just tried, -1 if none does. Reads `dense` from `offset`. */
export function inspectGuards(watch: GuardWatch, mode: number, dense: Float64Array, offset: number): number {
  const { count, armed, previous, first, last } = watch;
  const unknown = Number.isNaN(watch.previousSize);
  guardInto(watch.system, mode, watch.step.end, last);
  watch.late = false;
  watch.lastLook = Number.NaN;
  const ratio = watch.step.size / (watch.step.size + watch.previousSize);
  const stretch = watch.step.size / watch.previousSize;
  let crossed = 0;
  let hidden = 0;
  let doubtful = 0;
  for (let i = 0; i < count; i++) {
    const a = first[i]!;
    const b = last[i]!;
    if (a === Infinity && b === Infinity) continue;
    if (Number.isNaN(b)) watch.invalid = i;
    if (armed[i] === 0) {
      if (b < 0) hidden++;
    } else if (b <= 0) {
      crossed++;
    } else {
      const change = b - a;
      const lowest = a < b ? a : b;
      if (unknown) {
        if (lowest < Math.abs(change) && !(watch.step.error < STRAIGHT)) doubtful++;
      } else {
        const bend = (change - (a - previous[i]!) * stretch) * ratio;
        if (lowest < bend && change - bend < 0.5 * bend && change + bend > -0.5 * bend) doubtful++;
      }
    }
  }
  if (crossed + hidden + doubtful === 0) return -1;
  return search(
    watch,
    mode,
    dense,
    offset,
    hidden > 0 ? (watch.fresh ? INSIDE_FIRST : INSIDE) : doubtful > 0 ? MIDDLE : [],
    crossed > 0,
  );
}

/**
 * Where in the step just tried a guard first passes zero, if all of them are straight lines; Infinity where none does. Right after the
 * rates at its end.
 */
export function roughlyPassed(watch: GuardWatch, mode: number): number {
  watch.left.set(watch.first);
  guardInto(watch.system, mode, watch.step.end, watch.right);
  const guard = earliestSecant(watch);
  return guard < 0 ? Infinity : watch.left[guard]! / (watch.left[guard]! - watch.right[guard]!);
}

/** Value of one guard at the end of the step just tried. */
export function guardAtEnd(watch: GuardWatch, mode: number, guard: number): number {
  guardInto(watch.system, mode, watch.step.end, watch.here);
  return watch.here[guard] ?? Number.NaN;
}

/** Makes the end of the step the start of the next one. */
export function advanceGuards(watch: GuardWatch): void {
  const { count, armed, previous, first, last } = watch;
  for (let i = 0; i < count; i++) if (last[i]! > 0) armed[i] = 1;
  watch.previous = first;
  watch.first = last;
  watch.last = previous;
  watch.previousSize = watch.step.size;
  watch.fresh = false;
}

function search(
  watch: GuardWatch,
  mode: number,
  dense: Float64Array,
  offset: number,
  points: readonly number[],
  crossed: boolean,
): number {
  let from = 0;
  let to = Number.NaN;
  watch.left.set(watch.first);
  for (const x of points) {
    evaluateAt(watch, mode, dense, offset, x);
    if (anyFired(watch, watch.here)) {
      to = x;
      watch.right.set(watch.here);
      break;
    }
    for (let i = 0; i < watch.count; i++) if (watch.here[i]! > 0) watch.armed[i] = 1;
    from = x;
    watch.left.set(watch.here);
  }
  if (Number.isNaN(to) && (crossed || anyFired(watch, watch.last))) {
    to = 1;
    watch.right.set(watch.last);
  }
  if (Number.isNaN(to) && points === MIDDLE) to = lowestPoint(watch, mode, dense, offset);
  if (!Number.isNaN(to)) {
    if (from >= to) {
      from = 0;
      watch.left.set(watch.first);
    }
    return locate(watch, mode, dense, offset, from, to);
  }
  return lateOne(watch);
}

function anyFired(watch: GuardWatch, values: Float64Array): boolean {
  for (let i = 0; i < watch.count; i++) if (watch.armed[i] === 1 && values[i]! <= 0) return true;
  return false;
}

/** Looks once where a parabola through the start, the middle (in `left`) and the end is lowest. */
function lowestPoint(watch: GuardWatch, mode: number, dense: Float64Array, offset: number): number {
  let best = Number.NaN;
  let depth = Infinity;
  for (let i = 0; i < watch.count; i++) {
    const a = watch.first[i]!;
    const m = watch.left[i]!;
    const b = watch.last[i]!;
    const bend = 2 * (a - 2 * m + b);
    const x = (3 * a - 4 * m + b) / (2 * bend);
    const value = a - bend * x * x;
    if (watch.armed[i] === 1 && bend > 0 && x > 0 && x < 1 && value < depth && value < 0.25 * Math.min(a, m, b)) {
      best = x;
      depth = value;
    }
  }
  if (Number.isNaN(best)) return best;
  evaluateAt(watch, mode, dense, offset, best);
  watch.right.set(watch.here);
  return anyFired(watch, watch.here) ? best : Number.NaN;
}

/** Negative at the end without ever having been armed: the mode does not hold. On a first step it may still recover. */
function lateOne(watch: GuardWatch): number {
  for (let i = 0; i < watch.count; i++) {
    if (watch.armed[i] === 0 && watch.last[i]! < 0 && (!watch.fresh || watch.last[i]! < watch.first[i]!)) {
      watch.x = 1;
      watch.slope = Number.NaN;
      watch.late = true;
      return i;
    }
  }
  return -1;
}

/**
 * The earliest root of any armed guard between `from`, where all of them are positive (`left`), and `to`, where at least
 * one is not (`right`). Illinois method on the guard with the earliest secant root, which may change on the way.
 */
function locate(
  watch: GuardWatch,
  mode: number,
  dense: Float64Array,
  offset: number,
  from: number,
  to: number,
): number {
  let chosen = -1;
  // A third point for the first guess: the start of this step or of the one before; then the end of the bracket that was left last.
  const inside = from > 0;
  let third = inside ? 0 : -watch.previousSize / watch.step.size;
  let before = Number.NaN;
  let side = 0;
  let leftWeight = 1;
  let rightWeight = 1;
  for (let round = 0; round < 100; round++) {
    const earliest = earliestSecant(watch);
    if (earliest !== chosen) {
      if (round > 0) third = Number.NaN;
      chosen = earliest;
      before = inside ? watch.first[chosen]! : watch.previous[chosen]!;
      side = 0;
      leftWeight = rightWeight = 1;
    }
    const a = watch.left[chosen]!;
    const b = watch.right[chosen]!;
    watch.slope = (b - a) / (to - from);
    watch.x = to;
    if (to - from <= ROOT_WIDTH || b === 0 || (to === 1 && -b <= AT_END * a && onlyFired(watch, chosen, watch.right)))
      break;
    const wa = a * leftWeight;
    const wb = b * rightWeight;
    // From here on along what the step is cut on, so that the last look is one at the very end of it.
    if (!watch.step.stiff) fitQuintic(watch.quintic, mode, dense, offset);
    const straight = round === 0 && watch.quintic.fitted ? (watch.system.straightIn?.(mode, chosen) ?? -1) : -1;
    let x = Number.NaN;
    if (straight >= 0) x = straightRoot(watch.quintic, straight, from, a, to, b);
    else if (round < PARABOLAS) x = parabolaRoot(third, before, from, a, to, b);
    if (!(x > from && x < to)) x = to - (wb * (to - from)) / (wb - wa);
    if (!(x > from && x < to)) x = from + (to - from) / 2;
    evaluateAt(watch, mode, dense, offset, x);
    const value = watch.here[chosen]!;
    const fired = anyFired(watch, watch.here);
    const small =
      Math.abs(value) <= ROOT_VALUE * Math.max(Math.abs(watch.first[chosen]!), Math.abs(watch.last[chosen]!));
    if (small && (!fired || onlyFired(watch, chosen, watch.here))) {
      watch.x = x;
      watch.slope = slopeInside(from, a, x, value, to, b);
      break;
    }
    third = fired ? to : from;
    before = fired ? b : a;
    if (fired) {
      to = x;
      watch.right.set(watch.here);
      rightWeight = 1;
      if (side === 1) leftWeight /= 2;
      side = 1;
    } else {
      from = x;
      watch.left.set(watch.here);
      leftWeight = 1;
      if (side === -1) rightWeight /= 2;
      side = -1;
    }
  }
  watch.late = false;
  return chosen;
}

function onlyFired(watch: GuardWatch, guard: number, values: Float64Array): boolean {
  for (let i = 0; i < watch.count; i++) if (i !== guard && watch.armed[i] === 1 && values[i]! <= 0) return false;
  return true;
}

function earliestSecant(watch: GuardWatch): number {
  let earliest = -1;
  let nearest = Infinity;
  for (let i = 0; i < watch.count; i++) {
    if (watch.armed[i] === 0 || !(watch.right[i]! <= 0)) continue;
    const x = watch.left[i]! / (watch.left[i]! - watch.right[i]!);
    if (earliest < 0 || x < nearest) {
      earliest = i;
      nearest = x;
    }
  }
  return earliest;
}
