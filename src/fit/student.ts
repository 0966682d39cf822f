/** Student's t, for as many degrees of freedom as repeated drives leave. */
import * as elementary from '../elementary.ts';

/** Share of the distribution below `t` (Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4). */
function studentCumulative(t: number, freedom: number): number {
  const theta = elementary.atan(t / Math.sqrt(freedom));
  const [sine, cosine] = [elementary.sin(theta), elementary.cos(theta)];
  const odd = freedom % 2 === 1;
  let [term, sum] = [odd ? cosine : 1, odd ? (freedom > 1 ? cosine : 0) : 1];
  for (let k = odd ? 3 : 2; k <= freedom - 2; k += 2) {
    term *= ((k - 1) / k) * cosine * cosine;
    sum += term;
  }
  const within = odd ? (2 / Math.PI) * (theta + sine * sum) : sine * sum;
  return 0.5 + within / 2;
}

/** Above so many the distribution is told from the normal one by nobody. */
const MANY = 400;

/**
 * The t below which `share` of the distribution lies.
 * @param freedom degrees, 1 or more. @throws RangeError for less, or for a share that is none.
 */
export function studentQuantile(share: number, freedom: number): number {
  if (!(freedom >= 1 && share > 0 && share < 1))
    throw new RangeError(`no quantile at ${share} with ${freedom} degrees of freedom`);
  const whole = Math.min(MANY, Math.floor(freedom));
  let [low, high] = [-1, 1];
  while (studentCumulative(low, whole) > share) low *= 2;
  while (studentCumulative(high, whole) < share) high *= 2;
  for (let k = 0; k < 200 && high - low > 1e-14 * Math.max(1, Math.abs(low)); k++) {
    const middle = (low + high) / 2;
    if (studentCumulative(middle, whole) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The same quantile of the normal distribution at 97.5 %. */
const NORMAL_95 = 1.959963984540054;

/**
 * What the standard uncertainty of a mean of few is multiplied by, so that a normal distribution of that width has the 95 % interval of
 * Student's t.
 */
export function widening(freedom: number): number {
  return studentQuantile(0.975, freedom) / NORMAL_95;
}
