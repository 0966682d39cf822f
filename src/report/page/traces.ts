/**
 * What the lines of a drawing say, for a reader who points at them: a line whose mark has a `description` made by `withTold` is found again
 * in the SVG, with the way from its pixels back to its values. Its points are `{x, y}` in units of display, on scales that are linear.
 */
import type { View } from 'vega';
import { toldIn } from './told.ts';

/** As in the page: what, over what, whose; value = start + slope * pixel, for both. Null for a line that says nothing. */
export type Trace =
  | readonly [y: string, x: string, name: string, x0: number, xSlope: number, y0: number, ySlope: number]
  | null;

/** Of the scene that Vega draws, what is looked at here. */
interface Scene {
  readonly marktype?: string;
  readonly role?: string;
  readonly items?: readonly Scene[];
  readonly x?: number;
  readonly y?: number;
  readonly description?: string;
  readonly datum?: Readonly<Record<string, unknown>>;
}

/** Of all lines, in the order in which the SVG has them. */
export function tracesOf(view: View): readonly Trace[] {
  const found: Trace[] = [];
  const walk = (scene: Scene): void => {
    if (scene.marktype === 'line') found.push(traceOf(scene.items ?? []));
    else for (const inner of scene.items ?? []) walk(inner);
  };
  walk((view.scenegraph() as unknown as { readonly root: Scene }).root);
  return found;
}

function traceOf(items: readonly Scene[]): Trace {
  const told = toldIn(items[0]?.description ?? '');
  if (told === null) return null;
  const x = wayBack(items.map(({ x = Number.NaN, datum }) => [x, Number(datum?.['x'])]));
  const y = wayBack(items.map(({ y = Number.NaN, datum }) => [y, Number(datum?.['y'])]));
  if (x === null || y === null) return null;
  const name = told.by === '' ? '' : items[0]?.datum?.[told.by];
  return [told.y, told.x, typeof name === 'string' || typeof name === 'number' ? String(name) : '', ...x, ...y];
}

/** Share of the whole by which a point may be off a straight scale. */
const STRAIGHT = 1e-6;

/** Null where it is no straight line. */
function wayBack(pairs: readonly (readonly [pixel: number, value: number])[]): readonly [number, number] | null {
  const [first, ...rest] = pairs;
  if (first === undefined || pairs.some(pair => !pair.every(Number.isFinite))) return null;
  let far = first;
  for (const pair of rest) if (Math.abs(pair[0] - first[0]) > Math.abs(far[0] - first[0])) far = pair;
  const slope = far[0] === first[0] ? 0 : (far[1] - first[1]) / (far[0] - first[0]);
  const start = first[1] - slope * first[0];
  const wide = Math.abs(far[1] - first[1]) + Math.abs(first[1]) * STRAIGHT;
  if (pairs.some(([pixel, value]) => Math.abs(start + slope * pixel - value) > STRAIGHT * wide + 1e-12)) return null;
  return [Number(start.toPrecision(7)), Number(slope.toPrecision(7))];
}
