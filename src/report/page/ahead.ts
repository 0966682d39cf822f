/** Pictures of a result, drawn while the notebook goes on. */
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { reportOf } from '../kinds.ts';
import { drawingsOf } from './figures.ts';
import { drawAhead, drawsApart } from './render-thread.ts';

/** Where another thread draws, it begins with those that stand by their names in the part of the page whose ids begin with `id`. */
export function picturesAhead(result: Result, system: System, id: string): void {
  if (!drawsApart()) return;
  try {
    for (const [name, picture] of reportOf(result).pictures?.(result, system) ?? [])
      drawAhead(...drawingsOf(picture, `${id}-${name}`));
  } catch {
    // The report meets the same fault, and tells it.
  }
}
