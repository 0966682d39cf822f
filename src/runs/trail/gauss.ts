/** Gauss-Legendre points of the unit interval. */
export const FIRST = 0.5 - Math.sqrt(3) / 6;
export const SECOND = 0.5 + Math.sqrt(3) / 6;
