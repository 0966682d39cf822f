/**
 * What a solver is given: a system of ordinary differential equations that is smooth inside a mode and changes its
 * equations at a switch. Nothing here knows what the states mean.
 */

/**
 * A switched system. One object serves many integrations: it may keep parameters and scratch memory inside, but its
 * functions depend on nothing except their arguments and those parameters.
 *
 * `y` always has `states + 1` entries: the differential states, then the time. `out` has `states + quadratures`
 * entries: the derivatives of the states, then the rates of the quadratures. A quadrature is an integral that does not
 * feed back into any rate. Passing time inside the array keeps the innermost call free of memory allocation.
 */
export interface SwitchedSystem {
  readonly states: number;
  readonly quadratures: number;
  /** Number of guard values that `guard` writes; 0 for a system without switches. */
  readonly guards: number;
  /** Writes the derivatives and the quadrature rates at `y` in `mode`. Smooth in `y` for a fixed mode. */
  rates(mode: number, y: Float64Array, out: Float64Array): void;
  /**
   * Writes `guards` values at `y`: the mode holds while every one is positive. A slot that is not in use in this mode is
   * set to +Infinity. The solver calls it only right after `rates` was called with the same mode and state.
   */
  guard?(mode: number, y: Float64Array, out: Float64Array): void;
  /** The state that a guard is a straight line in, whatever the rest: it is zero where that state is known to pass a value; -1 for none. */
  straightIn?(mode: number, guard: number): number;
  /**
   * Called at a switching instant, with `y` just past the crossing of guard `fired`. May change the states in place (a
   * jump) and returns the mode to go on with, which may be the same one; a negative number ends the run.
   */
  switched?(mode: number, fired: number, y: Float64Array): number;
  /** How many numbers `look` writes: they are kept of every node, so that nobody has to evaluate the nodes again; none if left out. */
  readonly looks?: number;
  /** Writes what of the last call of `rates` is to be kept, from `offset` on. */
  look?(out: Float64Array, offset: number): void;
  /** Whether all states go on in one mode as they would have in another, so that the two differ in what is integrated beside them; left out: no. */
  alike?(from: number, to: number): boolean;
  /** Whether a rate depends on the time itself in a mode; left out: it may in each. */
  timed?(mode: number): boolean;
  /**
   * Whether a mode goes on evenly from the state on at which `rates` was called last, so that the first step in it may be long; left out:
   * what changes fast may hide there.
   */
  smooth?(mode: number): boolean;
  /** A time at which a mode is known to end, if not before, or to change how it goes on: no step goes past it; Infinity for none. */
  until?(mode: number): number;
  /** States that no rate depends on, as sums of others are; none if left out. */
  readonly unfelt?: readonly number[];
  /**
   * Typical sizes of the states, used with the relative tolerance as absolute tolerance: a state counts as exact when its
   * error is below `tolerance * max(|y|, scale)`. Length `states`, or `states + quadratures`: then the rest are typical
   * rates of the quadratures, below which a rate is noise (0 where left out).
   */
  readonly scales: Float64Array;
}

/** A level to be watched: the instant at which one state passes a value. */
export interface Level {
  readonly name: string;
  /** Index of the state. */
  readonly state: number;
  readonly value: number;
  readonly direction: 'rising' | 'falling' | 'either';
  /** `record` notes the first passing and goes on; `stop` ends the run there. */
  readonly action: 'record' | 'stop';
}

export interface SolveOptions {
  readonly start: number;
  readonly end: number;
  /** Initial states; a time behind them, as in `y`, is not read. */
  readonly initial: ArrayLike<number>;
  /** Mode at the start. */
  readonly mode: number;
  /** Relative tolerance of one step; default 1e-6. */
  readonly tolerance?: number;
  /** Longest step; default: no limit. Switches that come and go inside one step are the reason to set it. */
  readonly maxStep?: number;
  /** First step to try; default: estimated from the derivatives. */
  readonly firstStep?: number;
  /** How much longer than estimated the first step is, where none is given; default 1. Above it for what is known to begin smoothly. */
  readonly firstLength?: number;
  readonly levels?: readonly Level[];
  /** Times the integration must stop at and restart from, ascending (corners of tabulated inputs). */
  readonly breakpoints?: ArrayLike<number>;
  /** Bound on accepted plus rejected steps; default 100,000. */
  readonly maxSteps?: number;
  /**
   * Nobody asks for what lies between nodes, and nothing is watched: a method may spare what it takes to know it, and `at` then gives the
   * node before. Not for a system with guards, nor with levels. Default false.
   */
  readonly nodesAlone?: boolean;
}

/** One instant worth noting. */
export interface SolveEvent {
  /** `level`, `switch` (a guard fired), or `break`. */
  readonly kind: 'level' | 'switch' | 'break';
  /** Index into the levels, index of the guard, or index of the breakpoint. */
  readonly index: number;
  readonly time: number;
  /** States just before the instant, length `states`. */
  readonly states: Float64Array;
  /** Integrals at the instant, length `quadratures`. */
  readonly integrals: Float64Array;
  /** Mode before and after. */
  readonly from: number;
  readonly to: number;
}

export type SolveStatus =
  | 'end' // reached the end time
  | 'level' // a level with action `stop` was passed
  | 'switched' // `switched` asked to end
  | 'failed'; // see `reason`

/** What comes back. Node k spans columns k of each array; nodes are the ends of accepted steps, the start included. */
export interface Solution {
  readonly status: SolveStatus;
  /** Why it failed, in one sentence with the time; empty otherwise. */
  readonly reason: string;
  readonly nodes: number;
  readonly times: Float64Array;
  /** `nodes * states` numbers, node by node. Where states jump, the node is stored twice: before and after. */
  readonly states: Float64Array;
  /** `nodes * quadratures` numbers, node by node. */
  readonly integrals: Float64Array;
  /** `nodes * looks` numbers, node by node: what `look` found there, in the mode in force from the node on. */
  readonly looks: Float64Array;
  /** Mode in force from this node on. */
  readonly modes: Int32Array;
  readonly events: readonly SolveEvent[];
  readonly statistics: SolveStatistics;
  /**
   * Dense output: writes the states, then the integrals, at time `t` (clamped into the span) into `out`, length
   * `states + quadratures` (a shorter one takes the first of them); the node that starts the step is returned. Right at a double node the value after the jump.
   */
  at(t: number, out: Float64Array): number;
}

export interface SolveStatistics {
  readonly steps: number;
  readonly rejected: number;
  /** Calls of `rates`. */
  readonly evaluations: number;
  readonly switches: number;
  /**
   * Switches that were found only because a guard was already negative at the end of a step without having been seen to
   * cross. The instant of such a switch is off by up to one step. 0 in a healthy run.
   */
  readonly lateSwitches: number;
}

/** A method of integration. Every solver in this folder has this type, so that one can check another. */
export type Solve = (system: SwitchedSystem, options: SolveOptions) => Solution;
