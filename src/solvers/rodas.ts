/**
 * Rodas5P, a stiffly accurate Rosenbrock method 5(4) of eight stages: numbers only. Steinebach, Construction of Rosenbrock-Wanner
 * method Rodas5P and numerical benchmarks within the Julia Differential Equations package, BIT Numerical Mathematics 63, 27 (2023), in
 * the form for the vectors u of Hairer, Wanner, Solving Ordinary Differential Equations II, 2nd ed., section IV.7: no product with the
 * Jacobian. Entered from memory: the identities are checked in the tests, and they leave no other numbers.
 */

/** Weights of u of the first five stages in the arguments of the sixth and later ones. */
const LATE = [-7.502846399306121, 2.561846144803919, -11.627539656261098, -0.18268767659942256, 0.030198172008377946];

/** Dense output: y0 + x (y1 - y0 + (1 - x) (H2 + x (H3 + x H4))). */
const H2 = [
  25.948786856663858, -2.5579724845846235, 10.433815404888879, -2.3679251022685204, 0.524948541321073,
  1.1241088310450404, 0.4272876194431874, -0.17202221070155493,
];
const H3 = [
  -9.91568850695171, -0.9689944594115154, 3.0438037242978453, -24.495224566215796, 20.176138334709044,
  15.98066361424651, -6.789040303419874, -6.710236069923372,
];
const H4 = [
  11.419903575922262, 2.8879645146136994, 72.92137995996029, 80.12511834622643, -52.072871366152654, -59.78993625266729,
  -0.15582684282751913, 4.883087185713722,
];

export const RODAS = {
  GAMMA: 0.21193756319429014,
  /** Nodes of the stages. */
  ALPHA: [0, 0.6358126895828704, 0.4095798393397535, 0.9769306725060716, 0.4288403609558664, 1, 1, 1],
  /** Weights of h^2 times the derivative of the rates with time, by stage. */
  TIME: [
    0.21193756319429014, -0.42387512638858027, -0.3384627126235924, 1.8046452872882734, 2.325825639765069, 0, 0, 0,
  ],
  /** Row i: weights of u of the stages before it. The solution is the argument of the eighth stage plus its u, which is the estimate of its error. */
  A: [
    [],
    [3],
    [2.849394379747939, 0.45842242204463923],
    [-6.954028509809101, 2.489845061869568, -10.358996098473584],
    [2.8029986275628964, 0.5072464736228206, -0.3988312541770524, -0.04721187230404641],
    LATE,
    [...LATE, 1],
    [...LATE, 1, 1],
  ],
  C: [
    [],
    [-14.155112264123755],
    [-17.97296035885952, -2.859693295451294],
    [147.12150275711716, -1.41221402718213, 71.68940251302358],
    [165.43517024871676, -0.4592823456491126, 42.90938336958603, -5.961986721573306],
    [24.854864614690072, -3.0009227002832186, 47.4931110020768, 5.5814197821558125, -0.6610691825249471],
    [
      30.91273214028599, -3.1208243349937974, 77.79954646070892, 34.28646028294783, -19.097331116725623,
      -28.087943162872662,
    ],
    [
      37.80277123390563, -3.2571969029072276, 112.26918849496327, 66.9347231244047, -40.06618937091002,
      -54.66780262877968, -9.48861652309627,
    ],
  ],
  /** The same dense output in the terms of `Step.dense`: weights of u in a2, a3 and a4. */
  D2: H2,
  D3: H3.map((weight, i) => weight + (H4[i] ?? Number.NaN)),
  D4: H4.map(weight => -weight),
} as const;
