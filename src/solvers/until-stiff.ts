/** The integrator for systems of which nobody knows where they are stiff: explicit steps until they are held back, then implicit ones. */
import { Pair } from './explicit.ts';
import { createIntegrator } from './integrate.ts';
import { Rodas } from './rosenbrock.ts';
import type { Step } from './step.ts';
import type { Solution, Solve, SolveOptions, SwitchedSystem } from './system.ts';

/** Integrates once; the solution owns its arrays. */
export const solveUntilStiff: Solve = (system, options) => createUntilStiff(system)(options);

/** Makes an integrator for many runs of one system; a solution is valid until the next run, as with `createExplicit`. */
export function createUntilStiff(system: SwitchedSystem): (options: SolveOptions) => Solution {
  return createIntegrator(system, each => new UntilStiff(each));
}

/**
 * Step times the rate at which what is off dies away, from which on a mode counts as stiff. The explicit step grows unstable at 3.3; the
 * implicit one calls for twice the rates, so that from here on it pays. Found by trial over 150 random cars: 2.5 takes as many.
 */
const STIFF = 2;

/** Either step; both work on the same ends. Each mode begins with the explicit one. Doubles start as NaN to be kept unboxed. */
class UntilStiff implements Step {
  tolerance = Number.NaN;
  size = Number.NaN;
  until = Number.NaN;
  horizon = Number.NaN;
  error = Number.NaN;
  evaluations = 0;
  readonly explicit: Pair;
  readonly implicit: Rodas;
  readonly start: Float64Array;
  readonly end: Float64Array;
  readonly startRates: Float64Array;
  readonly endRates: Float64Array;
  readonly gained: Float64Array;
  readonly peaks: Float64Array;
  active: Pair | Rodas;

  constructor(system: SwitchedSystem) {
    const explicit = new Pair(system);
    this.explicit = explicit;
    this.implicit = new Rodas(system, explicit);
    this.start = explicit.start;
    this.end = explicit.end;
    this.startRates = explicit.startRates;
    this.endRates = explicit.endRates;
    this.gained = explicit.gained;
    this.peaks = explicit.peaks;
    this.active = explicit;
  }

  get power(): number {
    return this.active.power;
  }

  reset(): void {
    this.explicit.reset();
    this.implicit.reset();
    this.evaluations = 0;
  }

  get stiff(): boolean {
    return this.active.stiff;
  }

  begin(mode: number): void {
    this.active = this.explicit;
    this.explicit.begin(mode);
    this.evaluations += 1;
  }

  attempt(mode: number): void {
    this.attemptBy(this.active, mode);
    if (this.active === this.explicit || Number.isFinite(this.error)) return;
    // A stage of the implicit step may lead where a rate means nothing, as below rest: the other one is shorter.
    this.active = this.explicit;
    this.attemptBy(this.explicit, mode);
  }

  private attemptBy(active: Pair | Rodas, mode: number): void {
    const before = active.evaluations;
    active.tolerance = this.tolerance;
    active.size = this.size;
    active.until = this.until;
    active.horizon = this.horizon;
    active.attempt(mode);
    this.error = active.error;
    this.evaluations += active.evaluations - before;
  }

  advance(): void {
    // A step that was accepted tells: one that was refused may have led anywhere.
    if (this.active === this.explicit && isHeldBack(this.explicit)) this.active = this.implicit;
    this.active.advance();
  }

  dense(out: Float64Array, offset: number): void {
    this.active.size = this.size;
    this.active.dense(out, offset);
  }
}

/**
 * Whether the step just taken is about as long as it can be without growing unstable: from how the rates differ between its end and the
 * argument of its sixth stage, which lies at the same time. Hairer, Wanner II, 2nd ed., section IV.2.
 */
function isHeldBack({ system, n, size, end, y, k6, endRates }: Pair): boolean {
  let rates = 0;
  let states = 0;
  for (let i = 0; i < n; i++) {
    const scale = system.scales[i] ?? 1;
    rates = Math.max(rates, Math.abs((endRates[i] ?? 0) - (k6[i] ?? 0)) / scale);
    states = Math.max(states, Math.abs((end[i] ?? 0) - (y[i] ?? 0)) / scale);
  }
  return size * rates > STIFF * states;
}
