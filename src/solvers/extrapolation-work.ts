/** What the second method keeps while it works, and its strides: odex run from a point to a time. */
import { item, nth } from '../columns.ts';
import { Solver } from 'odex';
import { CHEBYSHEV, chebyshev } from './chebyshev.ts';
import { checkSystem, readSettings } from './settings.ts';
import type { Settings } from './settings.ts';
import type { SolveEvent, SolveOptions, SolveStatus, SwitchedSystem } from './system.ts';

/** Evaluations that one step may cost on average before the run is given up; odex itself can go on for ever. */
const EVALUATIONS_PER_STEP = 50;
/** Shorter than this share of the span a retry is pointless. */
export const SMALLEST = 1e-13;

/** Thrown inside odex, which has no other way of being stopped, and caught around it. */
export class BadRate extends Error {}
export class TooLong extends Error {}

/** A step accepted by odex, read at the Chebyshev points; first and last are its ends. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  /** `CHEBYSHEV.length` rows of states and integrals; the last of them alone where nobody asks for more. */
  readonly rows: readonly Float64Array[];
}

interface Node {
  time: number;
  readonly row: Float64Array;
  mode: number;
  stretch: Stretch | null;
}

/** One run. */
export class Work {
  readonly system: SwitchedSystem;
  readonly settings: Settings;
  /** States; states and quadratures. */
  readonly n: number;
  readonly all: number;
  /** s. */
  readonly span: number;
  /** Evaluations that it may take. */
  readonly budget: number;
  readonly guards: Float64Array;
  readonly armed: Uint8Array;
  /** States and time; rates. */
  readonly point: Float64Array;
  readonly out: Float64Array;
  readonly nodes: Node[] = [];
  readonly events: SolveEvent[] = [];
  readonly openLevels: Set<number>;
  readonly count = { steps: 0, rejected: 0, evaluations: 0, switches: 0, lateSwitches: 0 };
  readonly chatter: { count: number; start: number };
  status: SolveStatus | 'running' = 'running';
  reason = '';
  mode: number;
  time: number;
  /** States and integrals. */
  row: Float64Array;
  /** Whether the mode has just begun. */
  fresh = true;
  /** Longest step, s; greatest rate of any quadrature. */
  longest: number;
  peak = 0;

  constructor(system: SwitchedSystem, options: SolveOptions) {
    checkSystem(system);
    const settings = readSettings(system, options);
    this.system = system;
    this.settings = settings;
    this.n = system.states;
    this.all = system.states + system.quadratures;
    this.span = settings.end - settings.start;
    this.budget = settings.maxSteps * EVALUATIONS_PER_STEP;
    this.guards = new Float64Array(system.guards);
    this.armed = new Uint8Array(system.guards);
    this.point = new Float64Array(this.n + 1);
    this.out = new Float64Array(this.all);
    this.openLevels = new Set(settings.levels.keys());
    this.chatter = { count: 0, start: settings.start };
    this.mode = options.mode;
    this.time = settings.start;
    this.row = new Float64Array(this.all);
    for (let i = 0; i < this.n; i++) this.row[i] = nth(options.initial, i);
    this.longest = Math.min(settings.maxStep, this.span);
    store(this, null);
  }
}

/** Runs odex from a point to `target`, handing over each accepted step until `visit` says false. */
export function integrate(
  work: Work,
  from: number,
  start: Float64Array,
  target: number,
  visit: (stretch: Stretch) => boolean,
): void {
  const solver = new Solver(work.all);
  ratesAt(work, from, start);
  const tolerance = work.settings.tolerance;
  for (let i = work.n; i < work.all; i++) work.peak = Math.max(work.peak, Math.abs(nth(work.out, i)));
  solver.relativeTolerance = Array.from({ length: work.all }, () => tolerance);
  // A quadrature has no scale of its own: what it gathers over the segment at its present or typical rate, or a millionth of
  // what the busiest one does, so that it is never weighed against nothing.
  solver.absoluteTolerance = Array.from({ length: work.all }, (_, i) =>
    i < work.n
      ? tolerance * nth(work.system.scales, i)
      : tolerance *
        (1e-3 * Math.max(Math.abs(nth(work.out, i)), work.system.scales[i] ?? 0) * (target - from) +
          1e-6 * work.peak * work.span +
          1e-9),
  );
  const longest = Math.min(target - from, work.longest);
  const { firstStep, nodesAlone } = work.settings;
  solver.initialStepSize = firstStep > 0 ? Math.min(firstStep, longest) : longest / 10;
  solver.maxStepSize = longest;
  solver.maxSteps = work.settings.maxSteps;
  solver.denseOutput = !nodesAlone;
  if (standsStill(work, start)) solver.stabilityCheckCount = 0;
  const derivative = (t: number, y: number[]): number[] => {
    ratesAt(work, Math.min(t, target), y);
    return Array.from(work.out);
  };
  const result = solver.solve(derivative, from, Array.from(start), target, (step, tOld, t, y, dense) => {
    if (step === 1) return true;
    const last = Math.abs(target - t) <= SMALLEST * work.span;
    const to = last ? target : t;
    if (typeof dense !== 'function') return visit({ from: tOld, to, rows: [Float64Array.from(y)] });
    const rows = CHEBYSHEV.map((x, p) => {
      if (p === CHEBYSHEV.length - 1) return Float64Array.from(y);
      return Float64Array.from(y, (_, i) => dense(i, tOld + x * (t - tOld)));
    });
    return visit({ from: tOld, to, rows });
  });
  work.count.rejected += result.nReject;
  if (result.outcome === 1)
    throw new TooLong(`${work.settings.maxSteps} steps were not enough: gave up at t = ${work.time}`);
}

/**
 * Whether nothing changes by its tolerance in a second, as at the instant at which a torque has built up to what resists. odex compares the
 * rates in its step with those before it, and takes any growth out of nothing for a step that is too long.
 */
function standsStill(work: Work, row: Float64Array): boolean {
  const { n, system, settings, out } = work;
  for (let i = 0; i < n; i++) {
    const size = Math.max(Math.abs(nth(row, i)), nth(system.scales, i));
    if (Math.abs(nth(out, i)) > settings.tolerance * size) return false;
  }
  return true;
}

/** Rates at a point into `out`. Throws BadRate for a rate that is not finite: odex would accept it. */
export function ratesAt(work: Work, t: number, y: ArrayLike<number>): void {
  if (++work.count.evaluations > work.budget)
    throw new TooLong(`${work.budget} evaluations were not enough: gave up at t = ${work.time}`);
  for (let i = 0; i < work.n; i++) work.point[i] = nth(y, i);
  work.point[work.n] = t;
  work.system.rates(work.mode, work.point, work.out);
  const bad = work.out.findIndex(rate => !Number.isFinite(rate));
  if (bad >= 0) throw new BadRate(`rate ${bad} is ${work.out[bad]} at t = ${t}`);
}

export function guardsAt(work: Work, t: number, y: ArrayLike<number>): void {
  ratesAt(work, t, y);
  work.system.guard!(work.mode, work.point, work.guards);
  const bad = work.guards.findIndex(value => Number.isNaN(value));
  if (bad >= 0) throw new TooLong(`guard ${bad} is not a number at t = ${t}`);
}

export function rowAt(work: Work, stretch: Stretch, x: number): Float64Array {
  return Float64Array.from({ length: work.all }, (_, i) => chebyshev(stretch.rows, i, x));
}

/** Moves on to a time in a stretch, with the states `reached` there or those of its end. */
export function step(work: Work, stretch: Stretch, to: number, reached: Float64Array | null): void {
  const whole = to >= stretch.to;
  work.time = to;
  work.row = Float64Array.from(reached ?? item(stretch.rows, stretch.rows.length - 1));
  work.fresh = false;
  if (to <= stretch.from) return;
  work.count.steps++;
  if (stretch.rows.length === 1) return store(work, null);
  const rows = whole
    ? stretch.rows
    : CHEBYSHEV.map(x => rowAt(work, stretch, (x * (to - stretch.from)) / (stretch.to - stretch.from)));
  lastNode(work).stretch = { from: stretch.from, to, rows: rows.with(CHEBYSHEV.length - 1, work.row.slice()) };
  store(work, null);
}

export function note(
  work: Work,
  kind: SolveEvent['kind'],
  index: number,
  at: number,
  values: Float64Array,
  to: number,
): void {
  work.events.push({
    kind,
    index,
    time: at,
    states: values.slice(0, work.n),
    integrals: values.slice(work.n),
    from: work.mode,
    to,
  });
}

export function store(work: Work, stretch: Stretch | null): void {
  work.nodes.push({ time: work.time, row: work.row.slice(), mode: work.mode, stretch });
}

export function lastNode({ nodes }: Work): Node {
  const node = nodes.at(-1);
  if (node === undefined) throw new Error('a run has a first node');
  return node;
}

export function fail(work: Work, because: string): void {
  work.status = 'failed';
  work.reason = because;
}
