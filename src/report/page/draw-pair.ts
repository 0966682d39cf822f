/** Who draws the two drawings of a picture: this thread, one after the other, unless somebody else takes them over. */
import { draw, type Drawing } from './render.ts';

type Order = readonly [spec: object, prefix: string];

/** Throws DrawingError as `draw` does. */
export type DrawPair = (wide: Order, slim: Order) => Promise<readonly [wide: Drawing, slim: Drawing]>;

const here: DrawPair = async (wide, slim) => [await draw(...wide), await draw(...slim)];

let hands = here;

/** Gives all drawings to others; null takes them back. */
export function drawWith(others: DrawPair | null): void {
  hands = others ?? here;
}

export const drawPair: DrawPair = (wide, slim) => hands(wide, slim);
