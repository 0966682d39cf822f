/** The memory of whoever watches the guards of a system. */
import type { Quintic } from './quintic.ts';
import type { Step } from './step.ts';
import type { SwitchedSystem } from './system.ts';

/** What is known of the guards of a step. Doubles start as NaN to be kept unboxed. */
export class GuardWatch {
  /** After `inspect` found one: where in the step (0..1), and the slope of the guard over the step. */
  x = Number.NaN;
  slope = Number.NaN;
  /** Where in the step `y`, `rates` and `here` were found. */
  lastLook = Number.NaN;
  /** Whether it was found late, at the end of the step. */
  late = false;
  /** A guard found to be not a number by `begin` or `inspect`, else -1. */
  invalid = -1;
  /** How far before the start of this step `previous` was found; below 0: behind it. NaN: nowhere, the mode has just begun. */
  previousSize = Number.NaN;
  /** Whether the mode has just begun. */
  fresh = true;
  readonly system: SwitchedSystem;
  readonly step: Step;
  readonly quintic: Quintic;
  readonly n: number;
  readonly count: number;
  readonly armed: Uint8Array;
  /** Guards at the start of the step before (or a little ahead), and at both ends of this one. */
  previous: Float64Array;
  first: Float64Array;
  last: Float64Array;
  /** Bracket of the search: all guards at its left and right end and at the newest point. */
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly here: Float64Array;
  readonly y: Float64Array;
  readonly rates: Float64Array;

  constructor(system: SwitchedSystem, step: Step, quintic: Quintic) {
    const count = system.guards;
    this.system = system;
    this.step = step;
    this.quintic = quintic;
    this.n = system.states;
    this.count = count;
    this.armed = new Uint8Array(count);
    this.previous = new Float64Array(count);
    this.first = new Float64Array(count);
    this.last = new Float64Array(count);
    this.left = new Float64Array(count);
    this.right = new Float64Array(count);
    this.here = new Float64Array(count);
    this.y = new Float64Array(this.n + 1);
    this.rates = new Float64Array(this.n + system.quadratures);
  }
}
