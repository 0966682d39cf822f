/** Draws for somebody who waits: only what is seen, and only as wide as it is seen. */
import { type DrawPair, drawWith, NOT_DRAWN } from './draw-pair.ts';
import { drawKept } from './kept-view.ts';
import type { Drawing } from './drawing.ts';
import { draw } from './render.ts';

export interface Eye {
  readonly slim: boolean;
  /** Ids of the pictures; null for all of them, both wide and slim. */
  readonly seen: ReadonlySet<string> | null;
  /** Whether anybody still waits for them. */
  readonly current: () => boolean;
  /** Name of the page, where there are several. */
  readonly page?: string;
  /** Told of each drawing that is left out. */
  readonly skipped?: () => void;
}

/** @returns who drew before. */
export function drawOnly({ slim, seen, current, page, skipped }: Eye): DrawPair {
  return drawWith(async (wide, narrow) => {
    const drawn = async ([spec, prefix]: typeof wide, fits: boolean): Promise<Drawing> => {
      const wanted = seen === null || (fits && seen.has(prefix.replace(/-[ws]$/u, '')));
      if (!wanted || !current()) {
        skipped?.();
        return NOT_DRAWN;
      }
      const svg = seen === null ? null : await drawKept(spec, prefix, page);
      return svg === null ? draw(spec, prefix) : { svg, warnings: [] };
    };
    return [await drawn(wide, !slim), await drawn(narrow, slim)];
  });
}
