/**
 * Types of odex 2.0.4, written by hand: the package ships its raw source beside the JavaScript, which the compiler would
 * otherwise check with this project's flags. `paths` in tsconfig.json points here.
 */
export declare class Solver {
  constructor(n: number);
  relativeTolerance: number | number[];
  absoluteTolerance: number | number[];
  initialStepSize: number;
  maxStepSize: number;
  maxSteps: number;
  stabilityCheckCount: number;
  denseOutput: boolean;
  denseComponents: number[] | undefined;
  maxExtrapolationColumns: number;
  solve(
    f: (t: number, y: number[]) => number[],
    t0: number,
    y0: number[],
    tEnd: number,
    solOut?: (
      step: number,
      tOld: number,
      t: number,
      y: number[],
      dense: ((component: number, t: number) => number) | false | undefined,
    ) => boolean | void,
  ): { y: number[]; outcome: number; nStep: number; xEnd: number; nAccept: number; nReject: number; nEval: number };
}
export declare const Outcome: { Converged: 0; MaxStepsExceeded: 1; EarlyReturn: 2 };
