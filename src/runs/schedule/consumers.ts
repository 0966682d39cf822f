/** Lights, pumps, heating: what they draw while a schedule is driven. */
import * as elementary from '../../elementary.ts';

/** W, and s in which what a cold cabin takes on top fades. */
export class Consumers {
  base = Number.NaN;
  steady = Number.NaN;
  extra = Number.NaN;
  fading = Number.NaN;
}

/** W at the pack. @param seconds since the heater was switched on. */
export function drawnAt({ base, steady, extra, fading }: Consumers, seconds: number): number {
  return extra === 0 ? base + steady : base + steady + extra * elementary.exp(-seconds / fading);
}
