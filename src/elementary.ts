/**
 * The elementary functions of the model, the same to the last bit wherever it runs: those of `Math` are each engine's own, and a page and the
 * command differed by them. All are made of + - * / and the square root, which IEEE 754 rounds alike everywhere. The reductions and the
 * coefficients are those of FDLIBM 5.3 (Copyright (C) 1993 by Sun Microsystems, Inc.; free to use, copy, modify and distribute while this notice
 * is preserved), which promises less than one unit in the last place; `pow` goes by way of `exp` and `log`.
 */

const LN2_HIGH = 6.93147180369123816e-1;
const LN2_LOW = 1.90821492927058770002e-10;
const PER_LN2 = Math.LOG2E;

/** Powers of two from 2^-1022 to 2^1023. */
const LEAST_POWER = -1022;
const POWERS = powersOfTwo();

function powersOfTwo(): Float64Array {
  const powers = new Float64Array(2046);
  let [up, down] = [1, 1];
  for (let k = 0; k <= 1023; k++, up *= 2) powers[k - LEAST_POWER] = up;
  for (let k = 0; k >= LEAST_POWER; k--, down /= 2) powers[k - LEAST_POWER] = down;
  return powers;
}

/** `y` times 2^`k`. */
function scaled(y: number, k: number): number {
  if (k >= LEAST_POWER && k <= 1023) return y * (POWERS[k - LEAST_POWER] ?? Number.NaN);
  if (k > 1023) return y * 2 * (POWERS[k - 1 - LEAST_POWER] ?? Infinity);
  return y * (POWERS[k + 1000 - LEAST_POWER] ?? 0) * (POWERS[-1000 - LEAST_POWER] ?? 0);
}

export function exp(x: number): number {
  if (!(x < 709.782712893384)) return x === x ? Infinity : Number.NaN;
  if (x < -745.1332191019411) return 0;
  const k = x > -0.34657359027997264 && x < 0.34657359027997264 ? 0 : Math.floor(PER_LN2 * x + 0.5);
  const high = x - k * LN2_HIGH;
  const low = k * LN2_LOW;
  const r = high - low;
  const t = r * r;
  const c =
    r -
    t *
      (1.66666666666666019037e-1 +
        t *
          (-2.77777777770155933842e-3 +
            t * (6.61375632143793436117e-5 + t * (-1.6533902205465251539e-6 + t * 4.13813679705723846039e-8))));
  if (k === 0) return 1 - ((r * c) / (c - 2) - r);
  return scaled(1 - (low - (r * c) / (2 - c) - high), k);
}

/** e to the power of `x`, less 1. */
export function expm1(x: number): number {
  if (!(x < 709.782712893384)) return x === x ? Infinity : Number.NaN;
  if (x < -38.816242) return -1;
  const k = x > -0.34657359027997264 && x < 0.34657359027997264 ? 0 : Math.floor(PER_LN2 * x + 0.5);
  const high = x - k * LN2_HIGH;
  const low = k * LN2_LOW;
  const r = high - low;
  const c = high - r - low;
  const half = 0.5 * r;
  const z = r * half;
  const r1 =
    1 +
    z *
      (-3.33333333333331316428e-2 +
        z *
          (1.58730158725481460165e-3 +
            z * (-7.93650757867487942473e-5 + z * (4.00821782732936239552e-6 + z * -2.01099218183624371326e-7))));
  const t = 3 - r1 * half;
  const e = z * ((r1 - t) / (6 - r * t));
  if (k === 0) return r - (r * e - z);
  const rest = r * (e - c) - c - z;
  if (k === -1) return 0.5 * (r - rest) - 0.5;
  if (k === 1) return r < -0.25 ? -2 * (rest - (r + 0.5)) : 1 + 2 * (r - rest);
  if (k <= -2 || k > 56) return scaled(1 - (rest - r), k) - 1;
  const inverse = scaled(1, -k);
  return k < 20 ? scaled(1 - inverse - (rest - r), k) : scaled(r - (rest + inverse) + 1, k);
}

/** The two halves of a number. */
const NUMBER = new Float64Array(1);
const HALVES = new Uint32Array(NUMBER.buffer);
NUMBER[0] = 1;
/** Which of them has sign and exponent. */
const UPPER = HALVES[1] === 0 ? 0 : 1;

/** The natural logarithm. */
export function log(x: number): number {
  // Between half of the root of two and the root of two there is no power of two to be taken out.
  if (x > Math.SQRT1_2 && x < Math.SQRT2) return logNear(x - 1, 0);
  if (!(x > 0)) return x === 0 ? -Infinity : Number.NaN;
  if (x === Infinity) return x;
  let k = -1023;
  NUMBER[0] = x;
  if (x < 2.2250738585072014e-308) {
    NUMBER[0] = x * 18014398509481984;
    k -= 54;
  }
  const upper = HALVES[UPPER] ?? 0;
  const fraction = upper & 0xfffff;
  // Whether the fraction lies above the square root of two.
  const above = (fraction + 0x95f64) & 0x100000;
  HALVES[UPPER] = fraction | (above ^ 0x3ff00000);
  return logNear((NUMBER[0] ?? Number.NaN) - 1, k + (upper >> 20) + (above >> 20));
}

/** The logarithm of 2^`k` times 1 + `f`. */
function logNear(f: number, k: number): number {
  const s = f / (2 + f);
  const z = s * s;
  const w = z * z;
  const R =
    z *
      (6.66666666666673513e-1 +
        w * (2.857142874366239149e-1 + w * (1.818357216161805012e-1 + w * 1.479819860511658591e-1))) +
    w * (3.999999999940941908e-1 + w * (2.222219843214978396e-1 + w * 1.531383769920937332e-1));
  const half = 0.5 * f * f;
  return k * LN2_HIGH - (half - (s * (half + R) + k * LN2_LOW) - f);
}

/** `x` to the power of `y`; of a negative `x` for whole `y` alone. */
export function pow(x: number, y: number): number {
  if (y === 2) return x * x;
  if (y === 3) return x * x * x;
  if (y === 4) return x * x * (x * x);
  if (y === 1) return x;
  if (y === 0) return 1;
  if (y === 0.5) return Math.sqrt(x);
  if (Number.isInteger(y) && y >= -64 && y <= 64) return y < 0 ? 1 / whole(x, -y) : whole(x, y);
  if (x > 0) return exp(y * log(x));
  if (x === 0) return y > 0 ? 0 : Infinity;
  if (!Number.isInteger(y)) return Number.NaN;
  return y % 2 === 0 ? exp(y * log(-x)) : -exp(y * log(-x));
}

/** By squares: powers of ten are exact as far as they can be. */
function whole(x: number, n: number): number {
  let [square, power] = [x, 1];
  for (let k = n; k > 0; k = Math.floor(k / 2)) {
    if (k % 2 === 1) power *= square;
    square *= square;
  }
  return power;
}

const PER_QUARTER = 6.36619772367581382433e-1;
/** A quarter of a turn: its first 33 bits, and what they leave. */
const QUARTER_HIGH = 1.57079632673412561417;
const QUARTER_LOW = 6.07710050650619224932e-11;

function sinNear(x: number): number {
  const z = x * x;
  const r =
    8.33333333332248946124e-3 +
    z *
      (-1.98412698298579493134e-4 +
        z * (2.75573137070700676789e-6 + z * (-2.50507602534068634195e-8 + z * 1.58969099521155010221e-10)));
  return x + z * x * (-1.66666666666666324348e-1 + z * r);
}

function cosNear(x: number): number {
  const z = x * x;
  const r =
    z *
    (4.16666666666666019037e-2 +
      z *
        (-1.38888888888741095749e-3 +
          z *
            (2.48015872894767294178e-5 +
              z * (-2.75573143513906633035e-7 + z * (2.0875723212981748279e-9 + z * -1.13596475577881948265e-11)))));
  const half = 0.5 * z;
  const w = 1 - half;
  return w + (1 - w - half + z * r);
}

/** Of an angle in rad, up to some 100,000 turns. */
export function sin(x: number): number {
  const turns = Math.floor(x * PER_QUARTER + 0.5);
  const r = x - turns * QUARTER_HIGH - turns * QUARTER_LOW;
  const quarter = turns & 3;
  const value = quarter % 2 === 0 ? sinNear(r) : cosNear(r);
  return quarter > 1 ? -value : value;
}

/** Of an angle in rad, up to some 100,000 turns. */
export function cos(x: number): number {
  const turns = Math.floor(x * PER_QUARTER + 0.5);
  const r = x - turns * QUARTER_HIGH - turns * QUARTER_LOW;
  const quarter = turns & 3;
  const value = quarter % 2 === 0 ? cosNear(r) : sinNear(r);
  return quarter === 1 || quarter === 2 ? -value : value;
}

/** Of an angle in rad, up to some 100,000 turns. */
export function tan(x: number): number {
  return sin(x) / cos(x);
}

/** In rad. */
export function atan(y: number): number {
  const x = Math.abs(y);
  const found = x < 0.4375 ? x - turned(x, x * x) : atanFar(x);
  return y < 0 ? -found : found;
}

function atanFar(x: number): number {
  if (x < 0.6875) return near((2 * x - 1) / (2 + x), 4.63647609000806093515e-1, 2.26987774529616870924e-17);
  if (x < 1.1875) return near((x - 1) / (x + 1), 7.85398163397448278999e-1, 3.06161699786838301793e-17);
  if (x < 2.4375) return near((x - 1.5) / (1 + 1.5 * x), 9.82793723247329054082e-1, 1.39033110312309984516e-17);
  return near(-1 / x, 1.570796326794896558, 6.12323399573676603587e-17);
}

/** The angle by which one of a tangent `t` lies off one that is known in two parts. */
function near(t: number, high: number, low: number): number {
  return high - (turned(t, t * t) - low - t);
}

function turned(x: number, z: number): number {
  const w = z * z;
  const odd =
    z *
    (3.33333333333329318027e-1 +
      w *
        (1.42857142725034663711e-1 +
          w *
            (9.09088713343650656196e-2 +
              w * (6.66107313738753120669e-2 + w * (4.97687799461593236017e-2 + w * 1.62858201153657823623e-2)))));
  const even =
    w *
    (-1.99999999998764832476e-1 +
      w *
        (-1.1111110405462355788e-1 +
          w * (-7.69187620504482999495e-2 + w * (-5.83357013379057348645e-2 + w * -3.6531572744216915527e-2))));
  return x * (odd + even);
}

/** In rad. */
export function asin(x: number): number {
  return atan(x / Math.sqrt((1 - x) * (1 + x)));
}

/** The root of the sum of the squares, of numbers whose squares are numbers. */
export function hypot(...sides: readonly number[]): number {
  let sum = 0;
  for (const side of sides) sum += side * side;
  return Math.sqrt(sum);
}

export function tanh(x: number): number {
  const e = expm1(-2 * Math.abs(x));
  const found = -e / (e + 2);
  return x < 0 ? -found : found;
}

export function atanh(x: number): number {
  if (x < 0) return -atanh(-x);
  // log(1 + u), with what is lost where u is added to 1 put right again.
  const u = (2 * x) / (1 - x);
  const w = 1 + u;
  if (w === 1 || u === Infinity) return 0.5 * u;
  return 0.5 * log(w) * (u / (w - 1));
}
