/** The integrator for systems that are stiff in some of their modes only: the implicit step there, the explicit one elsewhere. */
import { Pair } from './explicit.ts';
import { createIntegrator } from './integrate.ts';
import { Rodas } from './rosenbrock.ts';
import type { Step } from './step.ts';
import type { Solution, Solve, SolveOptions, SwitchedSystem } from './system.ts';

/** Integrates once; the solution owns its arrays. */
export const solveByMode: Solve = (system, options) => createByMode(system)(options);

/** Makes an integrator for many runs of one system; a solution is valid until the next run, as with `createExplicit`. */
export function createByMode(system: SwitchedSystem): (options: SolveOptions) => Solution {
  return createIntegrator(system, each => new ByMode(each));
}

/** Either step, as the mode wants; both work on the same ends. Doubles start as NaN to be kept unboxed. */
class ByMode implements Step {
  tolerance = Number.NaN;
  size = Number.NaN;
  until = Number.NaN;
  horizon = Number.NaN;
  error = Number.NaN;
  evaluations = 0;
  readonly system: SwitchedSystem;
  readonly explicit: Pair;
  readonly implicit: Rodas;
  readonly start: Float64Array;
  readonly end: Float64Array;
  readonly startRates: Float64Array;
  readonly endRates: Float64Array;
  readonly gained: Float64Array;
  active: Pair | Rodas;

  constructor(system: SwitchedSystem) {
    const explicit = new Pair(system);
    this.system = system;
    this.explicit = explicit;
    this.implicit = new Rodas(system, explicit);
    this.start = explicit.start;
    this.end = explicit.end;
    this.startRates = explicit.startRates;
    this.endRates = explicit.endRates;
    this.gained = explicit.gained;
    this.active = this.implicit;
  }

  get power(): number {
    return this.active.power;
  }

  reset(): void {
    this.explicit.reset();
    this.implicit.reset();
    this.evaluations = 0;
  }

  begin(mode: number): void {
    this.active = this.system.stiff?.(mode) === false ? this.explicit : this.implicit;
    const before = this.active.evaluations;
    this.active.begin(mode);
    this.evaluations += this.active.evaluations - before;
  }

  attempt(mode: number): void {
    const { active } = this;
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
    this.active.advance();
  }

  dense(out: Float64Array, offset: number): void {
    this.active.size = this.size;
    this.active.dense(out, offset);
  }
}
