import type { Spread } from '../../../src/model/fields/input.ts';
import { drawOf } from '../../../src/studies/sampling/draw.ts';
import type { Draw } from '../../../src/studies/sampling/draw.ts';
import type { Evaluate } from '../../../src/studies/question/evaluate.ts';
import { monteCarlo } from '../../../src/studies/statistics/monte-carlo.ts';
import type { OutputSpread } from '../../../src/studies/statistics/monte-carlo.ts';
import { varianceShares } from '../../../src/studies/statistics/variance-shares.ts';
import { printed } from '../check.ts';
import type { Check, Tolerance, Topic } from '../check.ts';
import peer from '../peer/studies.json' with { type: 'json' };

const JCGM = 'JCGM 101:2008';
const QUADRATURE = `quadrature of the distribution in Python, SciPy ${peer.scipy}, script and results in tests/published/peer`;

function normal(value: number, standard: number): Draw {
  return drawOf(value, { kind: 'normal', standard });
}

function rectangular(low: number, high: number): Draw {
  const spread: Spread = { kind: 'rectangular', low, high };
  return drawOf((low + high) / 2, spread);
}

/** One worked example; carried out when first asked for. */
interface Example {
  readonly id: string;
  readonly what: string;
  readonly run: () => OutputSpread;
}

function example(
  id: string,
  what: string,
  draws: readonly Draw[],
  evaluate: Evaluate,
  options: { readonly probability?: number; readonly samples?: number } = {},
): Example {
  const { probability = 0.95, samples = 2 ** 17 } = options;
  let memory: OutputSpread | undefined;
  const run = (): OutputSpread =>
    (memory ??= monteCarlo(evaluate, { draws, outputs: 1, seed: 1, probability, samples: { fixed: samples } })
      .outputs[0]!);
  return { id, what, run };
}

const READ = {
  mean: ['estimate', run => run.mean],
  standard: ['standard uncertainty', run => run.standard],
  'symmetric.low': ['symmetric coverage interval, low end', run => run.symmetric?.low],
  'symmetric.high': ['symmetric coverage interval, high end', run => run.symmetric?.high],
  'shortest.low': ['shortest coverage interval, low end', run => run.shortest?.low],
  'shortest.high': ['shortest coverage interval, high end', run => run.shortest?.high],
  'shortest.width': ['shortest coverage interval, width', run => width(run)],
} as const satisfies { [key: string]: readonly [string, (run: OutputSpread) => number | null | undefined] };

/** The width of a shortest interval is sharp where its place is loose. */
function width({ shortest }: OutputSpread): number | null {
  return shortest === null ? null : shortest.high - shortest.low;
}

function check(
  { id, what, run }: Example,
  key: keyof typeof READ,
  expected: number,
  unit: string,
  tolerance: Tolerance,
  source: string,
): Check {
  const [words, read] = READ[key];
  return {
    id: `uncertainty.${id}.${key}`,
    what: `${what}: ${words}`,
    source,
    expected,
    computed: () => read(run()) ?? Number.NaN,
    unit,
    tolerance,
  };
}

const sum: Evaluate = (x, out) => {
  out[0] = x.reduce((total, value) => total + value, 0);
};
const four = <T>(value: T): T[] => [value, value, value, value];
const root = Math.sqrt(3);
/** For ends that are compared to the last digit printed. */
const LARGE = { samples: 2 ** 20 };

const gaussian = example('additive.gaussian', 'sum of four Gaussian quantities', four(normal(0, 1)), sum, LARGE);
const rectangles = example(
  'additive.rectangular',
  'sum of four rectangular quantities',
  four(rectangular(-root, root)),
  sum,
);
const unequal = example(
  'additive.unequal',
  'sum of four rectangular quantities, one of them ten times as wide',
  [rectangular(-10 * root, 10 * root), ...four(rectangular(-root, root)).slice(1)],
  sum,
);

/** kg/m3 of the air and the weights, mg of mass; deviation from 100 g. */
const mass = example(
  'mass',
  'mass calibration, deviation from 100 g',
  [normal(100_000, 0.05), normal(1.234, 0.02), rectangular(1.1, 1.3), rectangular(7000, 9000), rectangular(7950, 8050)],
  (x, out) => {
    const [reference, added, air, weight, standard] = x as unknown as [number, number, number, number, number];
    out[0] = (reference + added) * (1 + (air - 1.2) * (1 / weight - 1 / standard)) - 100_000;
  },
  LARGE,
);

/** In units of 1e-6. */
function loss(x1: number, r: number): Example {
  const u = 0.005;
  return example(
    `loss.${x1}.${r}`,
    `comparison loss in a power meter, x1 = ${x1}, correlation ${r}`,
    [normal(0, 1), normal(0, 1)],
    (z, out) => {
      const a = x1 + u * z[0]!;
      const b = u * (r * z[0]! + Math.sqrt(1 - r * r) * z[1]!);
      out[0] = 1e6 * (a * a + b * b);
    },
  );
}

/** Degrees of freedom of the gauge block's four t-distributions, with their means and scales in nm. */
const STUDENT = [
  [50_000_623, 25, 18],
  [215, 6, 24],
  [0, 4, 5],
  [0, 7, 8],
] as const;

/** Chi-square by 6.4.9.4: each pair of degrees of freedom is minus twice the logarithm of a uniform number, an odd one a square. */
function student(z: () => number, uniform: () => number, freedom: number): number {
  const above = z();
  let chi = freedom % 2 === 1 ? z() ** 2 : 0;
  for (let k = 0; k < Math.floor(freedom / 2); k++) chi -= 2 * Math.log(uniform());
  return above / Math.sqrt(chi / freedom);
}

/** Curvilinear trapezoid by 6.4.3.4. */
function trapezoid(low: number, high: number, d: number, u1: number, u2: number): number {
  const start = low - d + 2 * d * u1;
  return start + (low + high - 2 * start) * u2;
}

const NORMALS = 6;
const UNIFORMS = 34;
const gauge = example(
  'gauge',
  'gauge block calibration, deviation from 50 mm',
  [
    ...Array.from({ length: NORMALS }, () => normal(0, 1)),
    ...Array.from({ length: UNIFORMS }, () => rectangular(0, 1)),
  ],
  (x, out) => {
    let [n, u] = [0, NORMALS];
    const z = (): number => x[n++]!;
    const uniform = (): number => x[u++]!;
    const deltaAlpha = trapezoid(-1e-6, 1e-6, 1e-7, uniform(), uniform());
    const deltaTheta = trapezoid(-0.05, 0.05, 0.025, uniform(), uniform());
    const alpha = 9.5e-6 + 4e-6 * uniform();
    const theta = -0.1 + 0.2 * z() + 0.5 * Math.sin(2 * Math.PI * uniform());
    const [length, ...added] = STUDENT.map(([mean, scale, freedom]) => mean + scale * student(z, uniform, freedom));
    const difference = added.reduce((total, value) => total + value, 0);
    out[0] = length! + difference - length! * (deltaAlpha * theta + alpha * deltaTheta) - 50_000_000;
  },
  { probability: 0.99 },
);

/** 1.959964: the quantile of 97.5 % in any table of the normal distribution. */
const NORMAL = `closed form: 1.959964 × √4; ${JCGM}, 9.2.2 (from memory)`;

const NOISE = 'the source is a random sample itself, and the ends of a shortest interval are loose';

function additive(): Check[] {
  const quartic = 2 * root * (2 - 0.6 ** 0.25);
  return [
    check(gaussian, 'mean', 0, '1', printed(2), `sum of the means; ${JCGM}, 9.2.2 (from memory)`),
    check(gaussian, 'standard', 2, '1', printed(2), `closed form: √4; ${JCGM}, 9.2.2 (from memory)`),
    check(gaussian, 'symmetric.low', -3.92, '1', printed(2), NORMAL),
    check(gaussian, 'symmetric.high', 3.92, '1', printed(2), NORMAL),
    check(rectangles, 'standard', 2, '1', printed(2), `closed form: √4; ${JCGM}, 9.2.3 (from memory)`),
    check(
      rectangles,
      'symmetric.low',
      -3.88,
      '1',
      printed(2),
      `${JCGM}, 9.2.3 (from memory): closed form, ends ±2 √3 (2 - (3/5)^(1/4))`,
    ),
    check(
      rectangles,
      'symmetric.high',
      quartic,
      '1',
      { absolute: 0.004 },
      `${JCGM}, 9.2.3 (from memory): in closed form`,
    ),
    check(unequal, 'standard', 10.1, '1', printed(1), `closed form: √103; ${JCGM}, 9.2.4 (from memory)`),
    check(unequal, 'symmetric.low', -17, '1', printed(1), `${JCGM}, 9.2.4 (from memory)`),
    check(unequal, 'symmetric.high', 17, '1', printed(1), `${JCGM}, 9.2.4 (from memory)`),
  ];
}

function calibration(): Check[] {
  const { mean, standard, shortest } = peer.mass;
  const table = `${JCGM}, 9.3, table 6, Monte Carlo (from memory)`;
  return [
    check(mass, 'mean', 1.2341, 'mg', { absolute: 0.0002 }, table),
    check(mass, 'standard', 0.0754, 'mg', { absolute: 0.0002 }, table),
    check(mass, 'shortest.low', 1.0834, 'mg', { absolute: 0.002 }, `${table}; ${NOISE}`),
    check(mass, 'shortest.high', 1.3825, 'mg', { absolute: 0.002 }, `${table}; ${NOISE}`),
    check(mass, 'mean', mean, 'mg', { absolute: 2e-5 }, QUADRATURE),
    check(mass, 'standard', standard, 'mg', { absolute: 2e-5 }, QUADRATURE),
    check(mass, 'shortest.low', shortest[0]!, 'mg', { absolute: 0.002 }, QUADRATURE),
    check(mass, 'shortest.high', shortest[1]!, 'mg', { absolute: 0.002 }, QUADRATURE),
    check(mass, 'shortest.width', shortest[1]! - shortest[0]!, 'mg', { relative: 1e-3 }, QUADRATURE),
  ].map((made, k) => (k < 4 ? made : { ...made, id: `${made.id}.quadrature` }));
}

/** Standard uncertainties as printed, by x1, then by correlation; and the high end of the interval where it starts at 0. */
const PRINTED_LOSS: { readonly [key: string]: readonly [standard: number, high?: number] } = {
  '0 0': [50, 150],
  '0.01 0': [112],
  '0.05 0': [502],
  '0 0.9': [67, 185],
  '0.01 0.9': [121],
  '0.05 0.9': [505],
};

function losses(): Check[] {
  return peer.loss.flatMap(({ x1, r, mean, standard, shortest }) => {
    const made = loss(x1, r);
    const [u, high] = PRINTED_LOSS[`${x1} ${r}`]!;
    const table = `${JCGM}, 9.4, tables 8 and 9 (from memory)`;
    const asPrinted = [
      // Half a unit of the last digit, and a little for what a sample of this size misses.
      check(made, 'standard', u, '1e-6', { absolute: 0.52 }, table),
      ...(high === undefined ? [] : [check(made, 'shortest.high', high, '1e-6', printed(0), table)]),
    ].map(one => ({ ...one, id: `${one.id}.printed` }));
    const exact = `${JCGM}, 9.4: moments in closed form`;
    return [
      ...asPrinted,
      check(made, 'mean', mean, '1e-6', { relative: 1e-4 }, exact),
      check(made, 'standard', standard, '1e-6', { relative: 1e-3 }, exact),
      check(made, 'shortest.low', shortest[0]!, '1e-6', { absolute: 0.02 * standard }, QUADRATURE),
      check(made, 'shortest.high', shortest[1]!, '1e-6', { absolute: 0.02 * standard }, QUADRATURE),
      check(made, 'shortest.width', shortest[1]! - shortest[0]!, '1e-6', { relative: 3e-3 }, QUADRATURE),
    ];
  });
}

function gaugeBlock(): Check[] {
  const table = `${JCGM}, 9.5, table 11, Monte Carlo (from memory)`;
  const python = `4e7 random samples in Python, NumPy; script and results in tests/published/peer`;
  return [
    check(gauge, 'mean', 838, 'nm', printed(0), table),
    check(gauge, 'standard', 36, 'nm', printed(0), table),
    check(gauge, 'shortest.low', 745, 'nm', { absolute: 1 }, `${table}; ${NOISE}`),
    check(gauge, 'shortest.high', 932, 'nm', { absolute: 1 }, `${table}; ${NOISE}`),
    check(gauge, 'symmetric.low', peer.gauge.symmetric[0]!, 'nm', { absolute: 0.5 }, python),
    check(gauge, 'symmetric.high', peer.gauge.symmetric[1]!, 'nm', { absolute: 0.5 }, python),
  ];
}

/** T. Ishigami, T. Homma, Proc. ISUMA '90 (1990) 398-403, a = 7, b = 0.1; indices worked out by hand. */
function ishigami(): Check[] {
  const [a, b] = [7, 0.1];
  const v1 = (1 + (b * Math.PI ** 4) / 5) ** 2 / 2;
  const v2 = a ** 2 / 8;
  const v13 = (8 * b ** 2 * Math.PI ** 8) / 225;
  const v = v1 + v2 + v13;
  const model: Evaluate = (x, out) => {
    out[0] = Math.sin(x[0]!) + a * Math.sin(x[1]!) ** 2 + b * x[2]! ** 4 * Math.sin(x[0]!);
  };
  let memory: ReturnType<typeof varianceShares> | undefined;
  const draws = Array.from({ length: 3 }, () => rectangular(-Math.PI, Math.PI));
  const shares = () => (memory ??= varianceShares(model, { draws, outputs: 1, seed: 1, block: 8192 }))[0]!.shares!;
  const source = "Ishigami and Homma's function (1990), a = 7, b = 0.1: indices in closed form";
  return [v1 / v, v2 / v, 0].flatMap((first, k) => {
    const total = first + (k === 1 ? 0 : v13 / v);
    const made = { source, unit: '1' };
    return [
      {
        ...made,
        id: `uncertainty.ishigami.first.${k + 1}`,
        what: `first-order index of input ${k + 1}`,
        expected: first,
        computed: () => shares()[k]!.first,
        tolerance: first === 0 ? { absolute: 0.003 } : { relative: 0.01 },
      },
      {
        ...made,
        id: `uncertainty.ishigami.total.${k + 1}`,
        what: `total index of input ${k + 1}`,
        expected: total,
        computed: () => shares()[k]!.total,
        tolerance: { relative: 0.01 },
      },
    ];
  });
}

export const uncertainty: Topic = {
  title: 'Uncertainty',
  checks: [...additive(), ...calibration(), ...losses(), ...gaugeBlock(), ...ishigami()],
};
