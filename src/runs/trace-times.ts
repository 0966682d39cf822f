/** At which times a run that begins at 0 s gets a row. */
import { nth } from '../columns.ts';
import type { Solution } from '../solvers/system.ts';

/** `rows` even steps over the run, and a row more at every event. Ascending, none twice. */
export function traceTimes({ times, nodes, events }: Solution, rows: number): readonly number[] {
  const end = nth(times, nodes - 1);
  const all = new Set(events.map(({ time }) => time));
  for (let i = 0; i <= rows; i++) all.add((end * i) / rows);
  return [...all].toSorted((a, b) => a - b);
}
