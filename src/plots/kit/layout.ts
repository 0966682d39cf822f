/** Where things stand in a drawing. */

/** Width under which a drawing is laid out for a telephone. */
export const NARROW = 480;

/** px between the left edge and the plot, the same for all views that share an axis. */
export const LEFT = 50;

/** px between the plot and the right edge. */
export const RIGHT = 14;

/** px; the sizes are fixed because the text must be readable as drawn. */
export const FONT_SIZE = 12;

/** px, width of one character of that size on average, on the safe side. */
export const CHARACTER = 6.6;

/** px of the plot itself in a drawing of this many across. */
export function plotWidth(width: number): number {
  return width - LEFT - RIGHT - 4;
}
