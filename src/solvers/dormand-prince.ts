/**
 * Dormand-Prince 5(4), seven stages, first same as last: numbers only. Hairer, Norsett, Wanner, Solving Ordinary
 * Differential Equations I, 2nd ed., table II.5.2; dense output of order 4 from section II.6 (same names as there).
 */

export const PAIR = {
  /** Row i: weights of the stages before it. */
  A21: 1 / 5,
  A31: 3 / 40,
  A32: 9 / 40,
  A41: 44 / 45,
  A42: -56 / 15,
  A43: 32 / 9,
  A51: 19372 / 6561,
  A52: -25360 / 2187,
  A53: 64448 / 6561,
  A54: -212 / 729,
  A61: 9017 / 3168,
  A62: -355 / 33,
  A63: 46732 / 5247,
  A64: 49 / 176,
  A65: -5103 / 18656,

  /** Nodes; stages 6 and 7 lie at 1. */
  C2: 1 / 5,
  C3: 3 / 10,
  C4: 4 / 5,
  C5: 8 / 9,

  /** Weights of order 5; the second and the seventh are 0. */
  B1: 35 / 384,
  B3: 500 / 1113,
  B4: 125 / 192,
  B5: -2187 / 6784,
  B6: 11 / 84,

  /** Weights of order 5 minus weights of order 4; the second is 0. */
  E1: 71 / 57600,
  E3: -71 / 16695,
  E4: 71 / 1920,
  E5: -17253 / 339200,
  E6: 22 / 525,
  E7: -1 / 40,

  /** Weights of the last coefficient of the dense output; the second is 0. */
  D1: -12715105075 / 11282082432,
  D3: 87487479700 / 32700410799,
  D4: -10690763975 / 1880347072,
  D5: 701980252875 / 199316789632,
  D6: -1453857185 / 822651844,
  D7: 69997945 / 29380423,
} as const;
