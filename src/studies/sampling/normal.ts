/** The standard normal distribution: its quantile and its cumulative distribution, to the digits of a double. */
import { nth } from '../../columns.ts';
import * as elementary from '../../elementary.ts';

/** Rational approximations of AS 241, each a numerator and a denominator from the constant term up. */
const CENTRE = [
  [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
    33430.57558358813, 2509.0809287301227,
  ],
  [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
    28729.085735721943, 5226.495278852854,
  ],
] as const;
const SHOULDER = [
  [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
    0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
    0.0005475938084995345, 1.0507500716444169e-9,
  ],
] as const;
const TAIL = [
  [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
    0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 1.8463183175100548e-5,
    1.421511758316446e-7, 2.0442631033899397e-15,
  ],
] as const;

/** Hart's approximation 5666 of the tail, from the constant term up. */
const HART = [
  [
    220.206867912376, 221.213596169931, 112.079291497871, 33.912866078383, 6.37396220353165, 0.700383064443688,
    0.0352624965998911,
  ],
  [
    440.413735824752, 793.826512519948, 637.333633378831, 296.564248779674, 86.7807322029461, 16.064177579207,
    1.75566716318264, 0.0883883476483184,
  ],
] as const;

type Ratio = readonly [readonly number[], readonly number[]];

/** A loop: each of the inputs of each sample comes through here. */
function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let k = coefficients.length - 1; k >= 0; k--) sum = sum * x + nth(coefficients, k);
  return sum;
}

function ratio([above, below]: Ratio, x: number): number {
  return polynomial(above, x) / polynomial(below, x);
}

/**
 * Value below which a standard normal variable lies with probability `p`; minus and plus infinity at 0 and 1, NaN outside.
 * M. J. Wichura, Algorithm AS 241 (PPND16), Applied Statistics 37 (1988) 477-484: about 1 part in 10^16.
 */
export function normalQuantile(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) return q * ratio(CENTRE, 0.180625 - q * q);
  if (p === 0 || p === 1) return p === 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  const r = Math.sqrt(-elementary.log(q < 0 ? p : 1 - p));
  const x = r <= 5 ? ratio(SHOULDER, r - 1.6) : ratio(TAIL, r - 5);
  return q < 0 ? -x : x;
}

/** From here on the continued fraction is used, with as many terms: it converges the faster the farther out. */
const FAR = 3;
const TERMS = 40;

/**
 * Probability that a standard normal variable lies below `x`: about 1e-15, and 1e-12 of itself down to x = -38. J. F. Hart et al.,
 * Computer Approximations (1968), algorithm 5666, as given by G. West, Better approximations to cumulative normal functions,
 * Wilmott (May 2005); in the tails Laplace's continued fraction (M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions,
 * 26.2.14), because Hart's numbers keep few digits of a small probability.
 */
export function normalCumulative(x: number): number {
  const z = Math.abs(x);
  const density = elementary.exp((-z * z) / 2);
  const tail = z < FAR ? density * ratio(HART, z) : density / continued(z) / Math.sqrt(2 * Math.PI);
  return x < 0 ? tail : 1 - tail;
}

/** z + 1/(z + 2/(z + 3/(z + ...))). */
function continued(z: number): number {
  let sum = z;
  for (let k = TERMS; k > 0; k--) sum = z + k / sum;
  return sum;
}
