/** Who draws the two drawings of a picture: this thread, one after the other, unless somebody else takes them over. */
import { draw, type Drawing } from './render.ts';

type Order = readonly [spec: object, prefix: string];
type Pair = readonly [wide: Drawing, slim: Drawing];

/** Throws DrawingError as `draw` does. */
export type DrawPair = (wide: Order, slim: Order) => Promise<Pair>;

const here: DrawPair = async (wide, slim) => [await draw(...wide), await draw(...slim)];

let hands = here;

/** Pairs by their orders, those that were asked for last at the end. */
const drawn = new Map<string, Pair>();
let most = 0;

/** A drawing that nobody looks at. */
export const NOT_DRAWN: Drawing = { svg: '', warnings: [] };

/** Gives all drawings to others; null takes them back. @returns who had them before. */
export function drawWith(others: DrawPair | null): DrawPair {
  const before = hands;
  hands = others ?? here;
  return before;
}

/** From now on so many pairs are kept, and not drawn again. */
export function keepDrawings(pairs: number): void {
  most = pairs;
}

export const drawPair: DrawPair = async (wide, slim) => {
  if (most === 0) return hands(wide, slim);
  const key = JSON.stringify([wide, slim]);
  const pair = drawn.get(key) ?? (await hands(wide, slim));
  if (pair.includes(NOT_DRAWN)) return pair;
  drawn.delete(key);
  drawn.set(key, pair);
  for (const oldest of drawn.keys()) {
    if (drawn.size <= most) break;
    drawn.delete(oldest);
  }
  return pair;
};
