/**
 * Load index and speed symbol of a car tyre (ISO 4000-1, the same tables as in the ETRTO standards manual and UN
 * Regulation No. 30).
 *
 * The loads for 78, 82, 86, 91 and 94 and the speeds for Q, S, T, H, V, W and Y were read in a published table; the others
 * are from memory, and a test holds them to the law behind the table: 80 indices make a factor of ten, so that
 * each step is 10^(1/80), rounded to a handy number.
 */

const FIRST = 60;

/** kg for the load indices from 60 on. */
// biome-ignore format: ten a line, as in the printed table
const LOADS: readonly number[] = [
  250, 257, 265, 272, 280, 290, 300, 307, 315, 325, // 60 to 69
  335, 345, 355, 365, 375, 387, 400, 412, 425, 437, // 70 to 79
  450, 462, 475, 487, 500, 515, 530, 545, 560, 580, // 80 to 89
  600, 615, 630, 650, 670, 690, 710, 730, 750, 775, // 90 to 99
  800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030, // 100 to 109
  1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360, // 110 to 119
  1400, 1450, 1500, 1550, 1600, 1650, 1700, // 120 to 126
];

/** Smallest and largest load index known here. */
export const LOAD_INDICES = { first: FIRST, last: FIRST + LOADS.length - 1 } as const;

/** km/h, as the tyre says it. */
const SPEEDS: { readonly [symbol: string]: number } = {
  B: 50,
  C: 60,
  D: 65,
  E: 70,
  F: 80,
  G: 90,
  J: 100,
  K: 110,
  L: 120,
  M: 130,
  N: 140,
  P: 150,
  Q: 160,
  R: 170,
  S: 180,
  T: 190,
  U: 200,
  H: 210,
  V: 240,
  W: 270,
  Y: 300,
};

/** Speed symbols in ascending order of speed. */
export const SPEED_SYMBOLS: readonly string[] = Object.keys(SPEEDS);

/** kg that one tyre of this load index carries; null for an index outside 60 to 126 or that is no whole number. */
export function loadOfIndex(index: number): number | null {
  return LOADS[index - FIRST] ?? null;
}

/** m/s up to which a tyre with this speed symbol may run; null for an unknown symbol. */
export function speedOfSymbol(symbol: string): number | null {
  return Object.hasOwn(SPEEDS, symbol) ? (SPEEDS[symbol] as number) / 3.6 : null;
}

/** The smallest load index whose tyre carries this many kg; null where none known here does. */
export function indexForLoad(load: number): number | null {
  const found = LOADS.findIndex(carried => carried >= load);
  return found < 0 ? null : FIRST + found;
}

/** The first speed symbol whose tyre may run at this speed, m/s; null where none known here may. */
export function symbolForSpeed(speed: number): string | null {
  // The table is in km/h: 160 km/h asked for in m/s must not need more than Q by a rounding.
  const asked = speed * 3.6 * (1 - 1e-12);
  return SPEED_SYMBOLS.find(symbol => (SPEEDS[symbol] as number) >= asked) ?? null;
}
