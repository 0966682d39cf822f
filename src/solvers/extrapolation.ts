/**
 * The second opinion: odex 2.0.4, the extrapolation method of Hairer and Wanner (Solving Ordinary Differential Equations
 * I, section II.9), another method by other hands. States and quadratures are one system here and both steer the step.
 * It shares no code with the fast integrator but the options, the root finder and the search in a list of times. Slow and careful: every step
 * is looked at in many places, and every event is finished by integrating once more to its time.
 */
import { Solver } from 'odex';
import { findRoot } from './bracket.ts';
import { CHEBYSHEV, chebyshev } from './chebyshev.ts';
import { CHATTER_COUNT, CHATTER_SPAN, justBefore, readSettings } from './settings.ts';
import type { Solution, Solve, SolveEvent, SolveStatus } from './system.ts';
import { nodeBefore } from './track.ts';

/** Evaluations that one step may cost on average before the run is given up; odex itself can go on for ever. */
const EVALUATIONS_PER_STEP = 50;
/** Shorter than this share of the span a retry is pointless. */
const SMALLEST = 1e-13;

/** Thrown inside odex, which has no other way of being stopped, and caught around it. */
class BadRate extends Error {}
class TooLong extends Error {}

/** A step accepted by odex, read at the Chebyshev points; first and last are its ends. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  /** `CHEBYSHEV.length` rows of states and integrals. */
  readonly rows: readonly Float64Array[];
}

/** Where something happens in a stretch. */
interface Find {
  readonly kind: 'level' | 'switch' | 'late';
  readonly index: number;
  readonly time: number;
}

/** Integrates once with odex. The relative tolerance holds for integrals as well. */
export const solveExtrapolation: Solve = (system, options) => {
  const settings = readSettings(system, options);
  const n = system.states;
  const all = n + system.quadratures;
  const span = settings.end - settings.start;
  const guards = new Float64Array(system.guards);
  const armed = new Uint8Array(system.guards);
  const point = new Float64Array(n + 1);
  const out = new Float64Array(all);
  const nodes: { time: number; row: Float64Array; mode: number; stretch: Stretch | null }[] = [];
  const events: SolveEvent[] = [];
  const openLevels = new Set(settings.levels.keys());
  const budget = settings.maxSteps * EVALUATIONS_PER_STEP;
  const count = { steps: 0, rejected: 0, evaluations: 0, switches: 0, lateSwitches: 0 };
  const chatter = { count: 0, start: settings.start };
  let status: SolveStatus | 'running' = 'running';
  let reason = '';
  let mode = options.mode;
  let time = settings.start;
  let row = new Float64Array(all);
  let fresh = true;
  let longest = Math.min(settings.maxStep, span);
  let peak = 0;

  row.set(Array.from(options.initial));
  store(null);
  try {
    run();
  } catch (error) {
    if (!(error instanceof BadRate || error instanceof TooLong)) throw error;
    fail(error.message);
  }
  return finish();

  function run(): void {
    ratesAt(time, row);
    if (row.some(value => !Number.isFinite(value))) return fail(`a state is not finite at t = ${time}`);
    if (system.guards > 0) restart(-1);
    const stops = Array.from(settings.breakpoints, (at, index) => ({ at, index }));
    for (const { at, index } of stops.filter(stop => stop.at > settings.start && stop.at < settings.end)) {
      segment(justBefore(at));
      if (status !== 'running') return;
      time = at;
      nodes.at(-1)!.time = at;
      note('break', index, at, row, mode);
      ratesAt(time, row);
      if (system.guards > 0) restart(brokenGuard());
      if (status !== 'running') return;
    }
    segment(settings.end);
    if (status === 'running') status = 'end';
  }

  /** Integrates to `target` through any number of switches. */
  function segment(target: number): void {
    while (status === 'running' && target - time > SMALLEST * Math.max(span, Math.abs(target))) {
      let find = null as Find | null;
      const from = time;
      try {
        integrate(time, row, target, stretch => {
          find = inspect(stretch);
          if (find !== null) return false;
          take(stretch);
          return true;
        });
      } catch (error) {
        if (!(error instanceof BadRate)) throw error;
        // The frozen mode may have been followed too far ahead: odex can not reject such a step, so try shorter ones.
        count.rejected++;
        if (time === from) longest = Math.min(longest, target - time) / 8;
        if (longest < SMALLEST * span) return fail(`the step became too small at t = ${time}: ${error.message}`);
        continue;
      }
      longest = Math.min(settings.maxStep, span);
      if (find !== null) settle(find);
    }
  }

  /** Runs odex from a point to `target`, handing over each accepted step until `visit` says false. */
  function integrate(from: number, start: Float64Array, target: number, visit: (stretch: Stretch) => boolean): void {
    const solver = new Solver(all);
    ratesAt(from, start);
    const tolerance = settings.tolerance;
    for (let i = n; i < all; i++) peak = Math.max(peak, Math.abs(out[i]!));
    solver.relativeTolerance = Array.from({ length: all }, () => tolerance);
    // A quadrature has no scale of its own: what it gathers over the segment at its present or typical rate, or a millionth of
    // what the busiest one does, so that it is never weighed against nothing.
    solver.absoluteTolerance = Array.from({ length: all }, (_, i) =>
      i < n
        ? tolerance * system.scales[i]!
        : tolerance *
          (1e-3 * Math.max(Math.abs(out[i]!), system.scales[i] ?? 0) * (target - from) + 1e-6 * peak * span + 1e-9),
    );
    solver.initialStepSize = Math.min(target - from, longest) / 10;
    solver.maxStepSize = Math.min(target - from, longest);
    solver.maxSteps = settings.maxSteps;
    solver.denseOutput = true;
    const derivative = (t: number, y: number[]): number[] => {
      ratesAt(Math.min(t, target), y);
      return Array.from(out);
    };
    const result = solver.solve(derivative, from, Array.from(start), target, (step, tOld, t, y, dense) => {
      if (step === 1 || typeof dense !== 'function') return true;
      const last = Math.abs(target - t) <= SMALLEST * span;
      const to = last ? target : t;
      const rows = CHEBYSHEV.map((x, p) => {
        if (p === CHEBYSHEV.length - 1) return Float64Array.from(y);
        return Float64Array.from(y, (_, i) => dense(i, tOld + x * (t - tOld)));
      });
      return visit({ from: tOld, to, rows });
    });
    count.rejected += result.nReject;
    if (result.outcome === 1) throw new TooLong(`${settings.maxSteps} steps were not enough: gave up at t = ${time}`);
  }

  /** Rates at a point into `out`. Throws BadRate for a rate that is not finite: odex would accept it. */
  function ratesAt(t: number, y: ArrayLike<number>): void {
    if (++count.evaluations > budget)
      throw new TooLong(`${budget} evaluations were not enough: gave up at t = ${time}`);
    for (let i = 0; i < n; i++) point[i] = y[i]!;
    point[n] = t;
    system.rates(mode, point, out);
    const bad = out.findIndex(rate => !Number.isFinite(rate));
    if (bad >= 0) throw new BadRate(`rate ${bad} is ${out[bad]} at t = ${t}`);
  }

  function guardsAt(t: number, y: ArrayLike<number>): void {
    ratesAt(t, y);
    system.guard!(mode, point, guards);
    const bad = guards.findIndex(value => Number.isNaN(value));
    if (bad >= 0) throw new TooLong(`guard ${bad} is not a number at t = ${t}`);
  }

  /** The first thing that happens in a stretch: a switch, or a level that is passed. Levels that only record are noted. */
  function inspect(stretch: Stretch): Find | null {
    const fired = system.guards > 0 ? firstGuard(stretch) : null;
    const passes = [...openLevels]
      .map(index => ({ index, time: levelTime(stretch, index) }))
      .filter(pass => !Number.isNaN(pass.time) && (fired === null || pass.time <= fired.time))
      .toSorted((a, b) => a.time - b.time || a.index - b.index);
    for (const pass of passes) {
      openLevels.delete(pass.index);
      const polished = polish(stretch, pass);
      if (settings.levels[pass.index]!.action === 'stop') {
        step(stretch, polished.time, polished.row);
        note('level', pass.index, time, row, mode);
        status = 'level';
        return { kind: 'level', index: pass.index, time };
      }
      note('level', pass.index, polished.time, polished.row, mode);
    }
    if (fired === null) return null;
    if (fired.kind === 'late') step(stretch, fired.time, null);
    else {
      const switching = polishSwitch(stretch, fired);
      step(stretch, switching.time, switching.row);
    }
    return fired;
  }

  /** When a level is first passed in a stretch, NaN if it is not. */
  function levelTime(stretch: Stretch, index: number): number {
    const { state, value, direction } = settings.levels[index]!;
    const wanted = (a: number, b: number): boolean =>
      (a < 0 && b >= 0 && direction !== 'falling') || (a > 0 && b <= 0 && direction !== 'rising');
    const above = (x: number): number => chebyshev(stretch.rows, state, x) - value;
    let before = stretch.rows[0]![state]! - value;
    if (before === 0) {
      ratesAt(stretch.from, stretch.rows[0]!);
      const heading = out[state] !== 0 ? out[state]! : stretch.rows[1]![state]! - value;
      if (wanted(-heading, heading)) return stretch.from;
      before = heading;
    }
    for (let p = 1; p < CHEBYSHEV.length; p++) {
      const now = stretch.rows[p]![state]! - value;
      if (wanted(before, now)) {
        const x = findRoot(above, CHEBYSHEV[p - 1]!, before, CHEBYSHEV[p]!, now, 1e-14);
        return stretch.from + x * (stretch.to - stretch.from);
      }
      if (now !== 0) before = now;
    }
    return Number.NaN;
  }

  /** Integrates to the time of a level again and corrects it by Newton's method, as odex knows its nodes better. */
  function polish(stretch: Stretch, pass: { index: number; time: number }): { time: number; row: Float64Array } {
    const { state, value } = settings.levels[pass.index]!;
    let at = pass.time;
    for (let round = 0; round < 3; round++) {
      const reached = exactly(stretch, at);
      ratesAt(at, reached);
      const shift = out[state] === 0 ? 0 : (value - reached[state]!) / out[state]!;
      const small = Math.abs(shift) < 1e-6 * (stretch.to - stretch.from);
      if (small || at + shift < stretch.from || at + shift > stretch.to) {
        return small
          ? { time: at + shift, row: reached.map((y, i) => y + shift * out[i]!) }
          : { time: at, row: reached };
      }
      at += shift;
    }
    return { time: at, row: exactly(stretch, at) };
  }

  /** The same for a guard, whose slope is taken from the stretch; it is aimed a little past zero. */
  function polishSwitch(stretch: Stretch, find: Find): { time: number; row: Float64Array } {
    const apart = 1e-4 * (stretch.to - stretch.from);
    const x = (find.time - stretch.from) / (stretch.to - stretch.from);
    guardsAt(find.time, rowAt(stretch, x));
    const onDense = guards[find.index]!;
    guardsAt(find.time - apart, rowAt(stretch, x - 1e-4));
    const slope = (onDense - guards[find.index]!) / apart;
    const reached = exactly(stretch, find.time);
    guardsAt(find.time, reached);
    const shift = (guards[find.index]! - 1e-10 * slope * apart) / -slope;
    if (!(Math.abs(shift) < apart) || find.time + shift < stretch.from) return { time: find.time, row: reached };
    return { time: find.time + shift, row: reached.map((y, i) => y + shift * out[i]!) };
  }

  /** States and integrals at a time inside a stretch, by a run of odex from its start. */
  function exactly(stretch: Stretch, t: number): Float64Array {
    let reached = stretch.rows[0]!;
    if (t - stretch.from <= SMALLEST * span) return reached;
    integrate(stretch.from, reached, t, part => {
      reached = part.rows.at(-1)!;
      return true;
    });
    return reached;
  }

  /** The earliest armed guard to become zero in a stretch, or one that never was positive in it. */
  function firstGuard(stretch: Stretch): Find | null {
    const at = (x: number): Float64Array => {
      guardsAt(stretch.from + x * (stretch.to - stretch.from), rowAt(stretch, x));
      return guards.slice();
    };
    let before = at(0);
    const begun = before;
    for (let p = 1; p < CHEBYSHEV.length; p++) {
      const now = at(CHEBYSHEV[p]!);
      let best: Find | null = null;
      for (let g = 0; g < guards.length; g++) {
        if (armed[g] === 0 || now[g]! > 0) continue;
        const x = findRoot(x => at(x)[g]!, CHEBYSHEV[p - 1]!, before[g]!, CHEBYSHEV[p]!, now[g]!, 1e-13);
        const t = stretch.from + x * (stretch.to - stretch.from);
        if (best === null || t < best.time) best = { kind: 'switch', index: g, time: t };
      }
      if (best !== null) return best;
      now.forEach((value, g) => {
        if (value > 0) armed[g] = 1;
      });
      before = now;
    }
    const late = before.findIndex((value, g) => armed[g] === 0 && value < 0 && (!fresh || value < begun[g]!));
    return late < 0 ? null : { kind: 'late', index: late, time: stretch.to };
  }

  function rowAt(stretch: Stretch, x: number): Float64Array {
    return Float64Array.from({ length: all }, (_, i) => chebyshev(stretch.rows, i, x));
  }

  /** Takes a stretch as it is. */
  function take(stretch: Stretch): void {
    step(stretch, stretch.to, null);
  }

  /** Moves on to a time in a stretch, with the states `reached` there or those of its end. */
  function step(stretch: Stretch, to: number, reached: Float64Array | null): void {
    const whole = to >= stretch.to;
    time = to;
    row = Float64Array.from(reached ?? stretch.rows.at(-1)!);
    fresh = false;
    if (to <= stretch.from) return;
    count.steps++;
    const rows = whole
      ? stretch.rows
      : CHEBYSHEV.map(x => rowAt(stretch, (x * (to - stretch.from)) / (stretch.to - stretch.from)));
    nodes.at(-1)!.stretch = { from: stretch.from, to, rows: rows.with(CHEBYSHEV.length - 1, row.slice()) };
    store(null);
  }

  function settle(find: Find): void {
    if (find.kind === 'level') return;
    if (find.kind === 'late') count.lateSwitches++;
    restart(find.index);
  }

  /** Switches for a guard that fired (-1: none), then for those that are not positive and falling at the same instant. */
  function restart(fired: number): void {
    for (let chain = 0; status === 'running'; chain++) {
      if (fired >= 0) switchOver(fired);
      if (status !== 'running') return;
      guardsAt(time, row);
      const begun = guards.slice();
      begun.forEach((value, g) => {
        armed[g] = value > 0 ? 1 : 0;
      });
      fresh = true;
      if (chain > system.guards || begun.every(value => value > 0)) return;
      const probe = 1e-6 * (settings.end - time);
      ratesAt(time, row);
      const slope = out.slice();
      ratesAt(
        time + probe,
        row.map((y, i) => y + probe * slope[i]!),
      );
      guardsAt(
        time + probe,
        row.map((y, i) => y + (probe / 2) * (slope[i]! + out[i]!)),
      );
      fired = begun.findIndex((value, g) => value <= 0 && guards[g]! < value);
      if (fired < 0) return;
    }
  }

  function brokenGuard(): number {
    guardsAt(time, row);
    return guards.findIndex((value, g) => armed[g] === 1 && value <= 0);
  }

  function switchOver(fired: number): void {
    const before = row.slice();
    for (let i = 0; i < n; i++) point[i] = row[i]!;
    point[n] = time;
    const next = system.switched === undefined ? mode : system.switched(mode, fired, point);
    count.switches++;
    note('switch', fired, time, before, next);
    if (next >= 0) mode = next;
    else status = 'switched';
    row.set(point.subarray(0, n));
    if (row.some(value => !Number.isFinite(value)))
      fail(`guard ${fired} set a state that is not finite at t = ${time}`);
    if (before.some((value, i) => value !== row[i])) {
      store(null);
      jumpLevels(before);
    } else nodes.at(-1)!.mode = mode;
    if (++chatter.count < CHATTER_COUNT) return;
    const since = time - chatter.start;
    if (since < CHATTER_SPAN * span) {
      fail(`${CHATTER_COUNT} switches within ${since} of time up to t = ${time}, the last by guard ${fired}`);
    }
    chatter.count = 0;
    chatter.start = time;
  }

  function jumpLevels(before: Float64Array): void {
    for (const index of openLevels) {
      const level = settings.levels[index]!;
      const [a, b] = [before[level.state]! - level.value, row[level.state]! - level.value];
      const rises = a < 0 && b >= 0 && level.direction !== 'falling';
      if (!rises && !(a > 0 && b <= 0 && level.direction !== 'rising')) continue;
      openLevels.delete(index);
      note('level', index, time, before, mode);
      if (level.action === 'stop') {
        status = 'level';
        return;
      }
    }
  }

  function note(kind: SolveEvent['kind'], index: number, at: number, values: Float64Array, to: number): void {
    events.push({ kind, index, time: at, states: values.slice(0, n), integrals: values.slice(n), from: mode, to });
  }

  function store(stretch: Stretch | null): void {
    nodes.push({ time, row: row.slice(), mode, stretch });
  }

  function fail(because: string): void {
    status = 'failed';
    reason = because;
  }

  function finish(): Solution {
    const times = Float64Array.from(nodes, node => node.time);
    const states = new Float64Array(nodes.length * n);
    const integrals = new Float64Array(nodes.length * (all - n));
    nodes.forEach((node, k) => {
      states.set(node.row.subarray(0, n), k * n);
      integrals.set(node.row.subarray(n), k * (all - n));
    });
    return {
      status: status === 'running' ? 'end' : status,
      reason,
      nodes: nodes.length,
      times,
      states,
      integrals,
      modes: Int32Array.from(nodes, node => node.mode),
      events,
      statistics: count,
      at(t, into) {
        const k = nodeBefore(times, t);
        const { stretch, row: values, time: from } = nodes[k]!;
        if (stretch === null || t <= from) into.set(values);
        else for (let i = 0; i < all; i++) into[i] = chebyshev(stretch.rows, i, (t - from) / (stretch.to - from));
        return k;
      },
    };
  }
};
