/** Who draws the two drawings of a picture: this thread, one after the other, unless somebody else takes them over. */
import type { Memory } from '../../notebook/memory.ts';
import type { Drawing } from './drawing.ts';

type Order = readonly [spec: object, prefix: string];
type Pair = readonly [wide: Drawing, slim: Drawing];

/** Throws DrawingError as `draw` does. */
export type DrawPair = (wide: Order, slim: Order) => Promise<Pair>;

const here: DrawPair = async (wide, slim) => {
  // The library that draws is large: where every picture is kept, it is not loaded.
  const { draw } = await import('./render.ts');
  return [await draw(...wide), await draw(...slim)];
};

let hands = here;
let memory: Memory | null = null;

/** A drawing that nobody looks at. */
export const NOT_DRAWN: Drawing = { svg: '', warnings: [] };

/** Gives all drawings to others; null takes them back. @returns who had them before. */
export function drawWith(others: DrawPair | null): DrawPair {
  const before = hands;
  hands = others ?? here;
  return before;
}

/** From now on pairs are kept there, by their specs, and not drawn again; null forgets where. */
export function keepDrawings(where: Memory | null): void {
  memory = where;
}

/** Whether a pair was drawn before. */
export function isKept(...pair: Parameters<DrawPair>): boolean {
  return memory !== null && memory.recall(JSON.stringify(pair)) !== null;
}

export const drawPair: DrawPair = async (wide, slim) => {
  if (memory === null) return hands(wide, slim);
  const key = JSON.stringify([wide, slim]);
  const kept = memory.recall(key);
  if (kept !== null) return JSON.parse(kept) as Pair;
  const pair = await hands(wide, slim);
  if (!pair.includes(NOT_DRAWN)) memory.keep(key, JSON.stringify(pair));
  return pair;
};
