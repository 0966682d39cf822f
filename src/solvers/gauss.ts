/** The two Gauss-Legendre points of the unit interval: between them they integrate a cubic exactly. */
export const FIRST = 0.5 - Math.sqrt(3) / 6;
export const SECOND = 0.5 + Math.sqrt(3) / 6;
