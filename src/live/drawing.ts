/** Draws in the worker: while a control moves only what is seen, and only as wide as it is seen. */
import { drawWith } from '../report/page/draw-pair.ts';
import { drawKept } from './kept-view.ts';
import { draw, type Drawing } from '../report/page/render.ts';

/** A drawing that nobody looks at. */
const NONE: Drawing = { svg: '', warnings: [] };

export interface Eye {
  readonly slim: boolean;
  /** Ids of the pictures; null for all of them, both wide and slim. */
  readonly seen: ReadonlySet<string> | null;
  /** Whether anybody still waits for them. */
  readonly current: () => boolean;
}

export function drawOnly({ slim, seen, current }: Eye): void {
  drawWith(async (wide, narrow) => {
    const drawn = async ([spec, prefix]: typeof wide, fits: boolean): Promise<Drawing> => {
      const wanted = seen === null || (fits && seen.has(prefix.replace(/-[ws]$/u, '')));
      if (!wanted || !current()) return NONE;
      const svg = seen === null ? null : await drawKept(spec, prefix);
      return svg === null ? draw(spec, prefix) : { svg, warnings: [] };
    };
    return [await drawn(wide, !slim), await drawn(narrow, slim)];
  });
}
