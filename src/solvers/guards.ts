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
import type { Step } from './step.ts';
import { interpolate } from './step.ts';
import type { SwitchedSystem } from './system.ts';

export interface GuardWatch {
  /** After `inspect` found one: where in the step (0..1), and the slope of the guard over the step. */
  x: number;
  slope: number;
  /** Whether it was found late, at the end of the step. */
  late: boolean;
  /** A guard found to be not a number by `begin` or `inspect`, else -1. */
  invalid: number;
  /** Starts a mode: reads the guards at the start (the rates have just been evaluated there) and arms the positive ones. */
  begin(mode: number): void;
  /**
   * At the start of a mode, a guard that is not positive there and falls, -1 if there is none. Two guards that cross at
   * the same instant fire one after the other this way. Up to two calls of `rates`.
   */
  falling(mode: number, probe: number): number;
  /** An armed guard that `begin` found no longer positive, because the rates jumped at a breakpoint; -1 if none. */
  broken(mode: number): number;
  /** The guard that fires first in the step just tried, -1 if none does. Reads `dense` from `offset`. */
  inspect(mode: number, dense: Float64Array, offset: number): number;
  /** Value of one guard at the end of the step just tried. */
  atEnd(mode: number, guard: number): number;
  advance(): void;
}

/** Where to look inside a step; on the first one of a mode, a guard that starts from zero may be back below it early. */
const INSIDE = [0.25, 0.5, 0.75] as const;
const INSIDE_FIRST = [1e-6, 1e-5, 1e-4, 1e-3, 0.01, 0.05, 0.25, 0.5, 0.75] as const;
const MIDDLE = [0.5] as const;
/** A root is good enough when the guard is this small against its values at the ends: the driver corrects it once more. */
const ROOT_VALUE = 1e-7;
const ROOT_WIDTH = 1e-13;

export function createGuardWatch(system: SwitchedSystem, step: Step): GuardWatch {
  const n = system.states;
  const count = system.guards;
  const armed = new Uint8Array(count);
  const previous = new Float64Array(count);
  const first = new Float64Array(count);
  const last = new Float64Array(count);
  // For the functions that run in every step: they take local names from here, which loops read faster.
  const memory = { count, armed, previous, first, last };
  // Bracket of the search: all guards at its left and right end and at the newest point.
  const left = new Float64Array(count);
  const right = new Float64Array(count);
  const here = new Float64Array(count);
  const y = new Float64Array(n + 1);
  const rates = new Float64Array(n + system.quadratures);
  // In an object, not in variables: a double that a closure changes would be boxed anew each time.
  const state = { previousSize: Number.NaN, fresh: true };

  function begin(mode: number): void {
    system.guard!(mode, step.start, first);
    watch.invalid = -1;
    for (let i = 0; i < count; i++) {
      armed[i] = first[i]! > 0 ? 1 : 0;
      if (Number.isNaN(first[i]!)) watch.invalid = i;
    }
    state.fresh = true;
  }

  function broken(mode: number): number {
    system.guard!(mode, step.start, here);
    for (let i = 0; i < count; i++) if (armed[i] === 1 && here[i]! <= 0) return i;
    return -1;
  }

  function falling(mode: number, probe: number): number {
    if (!first.some(value => value <= 0)) return -1;
    // Heun's step, so that a guard that only begins to move is seen as well.
    for (let i = 0; i < n; i++) y[i] = step.start[i]! + probe * step.startRates[i]!;
    y[n] = step.start[n]! + probe;
    system.rates(mode, y, rates);
    for (let i = 0; i < n; i++) y[i] = step.start[i]! + (probe / 2) * (step.startRates[i]! + rates[i]!);
    evaluate(mode);
    step.evaluations += 1;
    for (let i = 0; i < count; i++) if (first[i]! <= 0 && here[i]! < first[i]!) return i;
    return -1;
  }

  /** Guards at `y` into `here`. */
  function evaluate(mode: number): void {
    system.rates(mode, y, rates);
    system.guard!(mode, y, here);
    step.evaluations += 1;
  }

  function evaluateAt(mode: number, dense: Float64Array, offset: number, x: number): void {
    for (let i = 0, o = offset; i < n; i++, o += 3) {
      y[i] = interpolate(step.start[i]!, step.end[i]!, dense[o]!, dense[o + 1]!, dense[o + 2]!, x);
    }
    y[n] = step.start[n]! + x * step.size;
    evaluate(mode);
  }

  function inspect(mode: number, dense: Float64Array, offset: number): number {
    const { count, armed, previous, first, last } = memory;
    const fresh = state.fresh;
    system.guard!(mode, step.end, last);
    watch.late = false;
    const ratio = step.size / (step.size + state.previousSize);
    const stretch = step.size / state.previousSize;
    let crossed = 0;
    let hidden = 0;
    let doubtful = 0;
    for (let i = 0; i < count; i++) {
      const a = first[i]!;
      const b = last[i]!;
      if (Number.isNaN(b)) watch.invalid = i;
      if (armed[i] === 0) {
        if (b < 0) hidden++;
      } else if (b <= 0) {
        crossed++;
      } else {
        const change = b - a;
        const lowest = a < b ? a : b;
        if (fresh) {
          if (lowest < Math.abs(change)) doubtful++;
        } else {
          const bend = (change - (a - previous[i]!) * stretch) * ratio;
          if (lowest < bend && change - bend < 0.5 * bend && change + bend > -0.5 * bend) doubtful++;
        }
      }
    }
    if (crossed + hidden + doubtful === 0) return -1;
    return search(
      mode,
      dense,
      offset,
      hidden > 0 ? (state.fresh ? INSIDE_FIRST : INSIDE) : doubtful > 0 ? MIDDLE : [],
      crossed > 0,
    );
  }

  function search(
    mode: number,
    dense: Float64Array,
    offset: number,
    points: readonly number[],
    crossed: boolean,
  ): number {
    let from = 0;
    let to = Number.NaN;
    left.set(first);
    for (const x of points) {
      evaluateAt(mode, dense, offset, x);
      if (anyFired(here)) {
        to = x;
        right.set(here);
        break;
      }
      for (let i = 0; i < count; i++) if (here[i]! > 0) armed[i] = 1;
      from = x;
      left.set(here);
    }
    if (Number.isNaN(to) && (crossed || anyFired(last))) {
      to = 1;
      right.set(last);
    }
    if (Number.isNaN(to) && points === MIDDLE) to = lowestPoint(mode, dense, offset);
    if (!Number.isNaN(to)) {
      if (from >= to) {
        from = 0;
        left.set(first);
      }
      return locate(mode, dense, offset, from, to);
    }
    return lateOne();
  }

  function anyFired(values: Float64Array): boolean {
    for (let i = 0; i < count; i++) if (armed[i] === 1 && values[i]! <= 0) return true;
    return false;
  }

  /** Looks once where a parabola through the start, the middle (in `left`) and the end is lowest. */
  function lowestPoint(mode: number, dense: Float64Array, offset: number): number {
    let best = Number.NaN;
    let depth = Infinity;
    for (let i = 0; i < count; i++) {
      const [a, m, b] = [first[i]!, left[i]!, last[i]!];
      const bend = 2 * (a - 2 * m + b);
      const x = (3 * a - 4 * m + b) / (2 * bend);
      const value = a - bend * x * x;
      if (armed[i] === 1 && bend > 0 && x > 0 && x < 1 && value < depth && value < 0.25 * Math.min(a, m, b)) {
        best = x;
        depth = value;
      }
    }
    if (Number.isNaN(best)) return best;
    evaluateAt(mode, dense, offset, best);
    right.set(here);
    return anyFired(here) ? best : Number.NaN;
  }

  /** Negative at the end without ever having been armed: the mode does not hold. On a first step it may still recover. */
  function lateOne(): number {
    for (let i = 0; i < count; i++) {
      if (armed[i] === 0 && last[i]! < 0 && (!state.fresh || last[i]! < first[i]!)) {
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
  function locate(mode: number, dense: Float64Array, offset: number, from: number, to: number): number {
    let chosen = -1;
    let side = 0;
    let leftWeight = 1;
    let rightWeight = 1;
    for (let round = 0; round < 100; round++) {
      const earliest = earliestSecant();
      if (earliest !== chosen) {
        chosen = earliest;
        side = 0;
        leftWeight = rightWeight = 1;
      }
      const a = left[chosen]!;
      const b = right[chosen]!;
      watch.slope = (b - a) / (to - from);
      watch.x = to;
      if (to - from <= ROOT_WIDTH || b === 0) break;
      const [wa, wb] = [a * leftWeight, b * rightWeight];
      let x = to - (wb * (to - from)) / (wb - wa);
      if (!(x > from && x < to)) x = from + (to - from) / 2;
      evaluateAt(mode, dense, offset, x);
      const value = here[chosen]!;
      const fired = anyFired(here);
      const small = Math.abs(value) <= ROOT_VALUE * Math.max(Math.abs(first[chosen]!), Math.abs(last[chosen]!));
      if (small && (!fired || onlyFired(chosen))) {
        watch.x = x;
        // The other end of the bracket may be far off, where the slope is another.
        watch.slope = x - from < to - x ? (value - a) / (x - from) : (b - value) / (to - x);
        break;
      }
      if (fired) {
        to = x;
        right.set(here);
        rightWeight = 1;
        if (side === 1) leftWeight /= 2;
        side = 1;
      } else {
        from = x;
        left.set(here);
        leftWeight = 1;
        if (side === -1) rightWeight /= 2;
        side = -1;
      }
    }
    watch.late = false;
    return chosen;
  }

  function onlyFired(guard: number): boolean {
    for (let i = 0; i < count; i++) if (i !== guard && armed[i] === 1 && here[i]! <= 0) return false;
    return true;
  }

  function earliestSecant(): number {
    let earliest = -1;
    let nearest = Infinity;
    for (let i = 0; i < count; i++) {
      if (armed[i] === 0 || !(right[i]! <= 0)) continue;
      const x = left[i]! / (left[i]! - right[i]!);
      if (earliest < 0 || x < nearest) {
        earliest = i;
        nearest = x;
      }
    }
    return earliest;
  }

  const watch: GuardWatch = {
    x: Number.NaN,
    slope: Number.NaN,
    late: false,
    invalid: -1,
    begin,
    broken,
    falling,
    inspect,
    atEnd(mode, guard) {
      system.guard!(mode, step.end, here);
      return here[guard]!;
    },
    advance() {
      const { count, armed, previous, first, last } = memory;
      for (let i = 0; i < count; i++) {
        previous[i] = first[i]!;
        first[i] = last[i]!;
        if (last[i]! > 0) armed[i] = 1;
      }
      state.previousSize = step.size;
      state.fresh = false;
    },
  };
  return watch;
}
