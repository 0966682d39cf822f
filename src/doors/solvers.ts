/** `axlewatt/solvers`: integration of switched systems, which knows nothing of cars. */
export { createExplicit, solveExplicit } from '../solvers/explicit.ts';
export { solveExtrapolation } from '../solvers/extrapolation.ts';
export type {
  Level,
  Solution,
  Solve,
  SolveEvent,
  SolveOptions,
  SolveStatistics,
  SolveStatus,
  SwitchedSystem,
} from '../solvers/system.ts';
