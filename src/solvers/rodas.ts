/**
 * RODAS, a stiffly accurate Rosenbrock method 4(3) of six stages: numbers only. Hairer, Wanner, Solving Ordinary
 * Differential Equations II, 2nd ed., section VI.4 (table 4.2 and the code RODAS, whose form for the vectors u is used
 * here: no product with the Jacobian). The identities are checked in the tests.
 */
export const RODAS = {
  GAMMA: 0.25,
  /** Nodes of stages 2 to 4; stages 5 and 6 lie at 1. */
  ALPHA: [0, 0.386, 0.21, 0.63, 1, 1],
  /** Weights of h^2 times the derivative of the rates with time, by stage. */
  TIME: [0.25, -0.1043, 0.1035, -0.0362, 0, 0],
  /** Row i: weights of u of the stages before it. The solution is the argument of the sixth stage plus its u. */
  A: [
    [],
    [1.544],
    [0.9466785280815826, 0.2557011698983284],
    [3.314825187068521, 2.896124015972201, 0.9986419139977817],
    [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895],
    [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895, 1],
  ],
  C: [
    [],
    [-5.6688],
    [-2.430093356833875, -0.2063599157091915],
    [-0.1073529058151375, -9.594562251023355, -20.47028614809616],
    [7.496443313967647, -10.24680431464352, -33.99990352819905, 11.7089089320616],
    [8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054],
  ],
  /** Dense output. */
  D2: [10.12623508344586, -7.487995877610167, -34.80091861555747, -7.992771707568823, 1.025137723295662],
  D3: [-0.6762803392806898, 6.087714651680015, 16.43084320892478, 24.76722511418386, -6.594389125716872],
} as const;
