/**
 * The colours of the pictures: our own, fixed, one per limiter. They were searched for by computation so that every two
 * of them stay apart for normal sight and for each kind of colour blindness, and so that each has a lightness of its own
 * and reads in greyscale; tests/plots/palette.test.ts holds them to it. Colour is never the only sign: `SIGN` stands beside it.
 */
import type { Limiter } from '../../model/forward/limiter.ts';

/** Fill of each limiter, sRGB. */
export const COLOUR: { readonly [word in Limiter]: string } = {
  grip: '#d35210',
  'motor torque': '#363f6d',
  'motor power': '#49cafd',
  'motor speed': '#b77fa8',
  'pack voltage': '#f8d069',
  'pack current': '#007645',
  driveline: '#3c2500',
  heat: '#e98d8e',
  driver: '#ebeced',
};

/** Colour of writing on that fill: contrast at least 4.5 to 1 (WCAG 2.1, success criterion 1.4.3). */
export const INK_ON: { readonly [word in Limiter]: string } = {
  grip: '#000000',
  'motor torque': '#ffffff',
  'motor power': '#000000',
  'motor speed': '#000000',
  'pack voltage': '#000000',
  'pack current': '#ffffff',
  driveline: '#ffffff',
  heat: '#000000',
  driver: '#000000',
};

/** One letter for each limiter, all different, where the word does not fit. */
export const SIGN: { readonly [word in Limiter]: string } = {
  grip: 'G',
  'motor torque': 'T',
  'motor power': 'P',
  'motor speed': 'S',
  'pack voltage': 'V',
  'pack current': 'C',
  driveline: 'L',
  heat: 'H',
  driver: 'D',
};

/** Writing and main lines. */
export const INK = '#1c2328';
/** Second line of writing, axes. */
export const QUIET = '#56616a';
/** Grid lines. */
export const HAIR = '#dde1e4';
/** Paper behind the pictures. */
export const PAPER = '#ffffff';

/** Lines of several runs in one picture: a colour and a dash each, so that they stay apart without colour. */
export const LINES: readonly { readonly colour: string; readonly dash: readonly number[] }[] = [
  { colour: '#363f6d', dash: [1, 0] },
  { colour: '#d35210', dash: [7, 3] },
  { colour: '#007645', dash: [2, 2] },
  { colour: '#8a4f7d', dash: [10, 3, 2, 3] },
  { colour: '#0077ad', dash: [4, 2] },
  { colour: '#3c2500', dash: [12, 4] },
];
