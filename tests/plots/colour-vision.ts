/** Colours as they are seen: contrast, lightness, and with a colour blindness. For tests only. */

export type Linear = readonly [number, number, number];

/** `#rrggbb` to linear RGB (IEC 61966-2-1, sRGB). */
export function linear(colour: string): Linear {
  const part = (at: number): number => {
    const c = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return [part(1), part(3), part(5)];
}

/** Relative luminance (WCAG 2.1; the Y row of IEC 61966-2-1). */
function luminance([r, g, b]: Linear): number {
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast ratio of two colours, 1 to 21 (WCAG 2.1). */
export function contrast(a: string, b: string): number {
  const [one, other] = [luminance(linear(a)), luminance(linear(b))];
  return (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
}

/**
 * Severity 1.0 matrices for linear RGB: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A Physiologically-based Model
 * for Simulation of Color Vision Deficiency", IEEE TVCG 15(6), 2009, supplementary tables (figures from memory; each row
 * adds up to 1, which the test checks).
 */
export const DEFICIENCIES: { readonly [name: string]: readonly [Linear, Linear, Linear] } = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

/** The colour as a person with that deficiency sees it, linear RGB. */
export function seen(colour: Linear, matrix: readonly [Linear, Linear, Linear]): Linear {
  const row = (weights: Linear): number =>
    Math.min(1, Math.max(0, weights[0] * colour[0] + weights[1] * colour[1] + weights[2] * colour[2]));
  return [row(matrix[0]), row(matrix[1]), row(matrix[2])];
}

/** The cube root of CIE 15, straight near black. */
function f(t: number): number {
  return t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116;
}

/** CIE L*a*b* for D65 (CIE 15; matrix of IEC 61966-2-1). */
export function lab([r, g, b]: Linear): Linear {
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** Distance of two colours in L*a*b* (CIE 1976). */
export function distance(a: Linear, b: Linear): number {
  const [p, q] = [lab(a), lab(b)];
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}
