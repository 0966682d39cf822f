/** What holds a car back that follows no more. */
import type { Schedule } from '../../cycles/schedule.ts';
import { L, withAxleMode } from '../../model/forward/state.ts';
import type { Journey } from './journey.ts';

/** The mode of the forward model that tells what holds the car back; -1 while it follows. */
export function modeOf({ mode, held, following }: Journey): number {
  if (held === 0) return mode;
  return withAxleMode(0, following.front.axle.driven ? 0 : 1, L.speed);
}

/** Whether the slope changes with an interval under a car that is held at the top speed that it has come to by itself: it is held no longer. */
export function isLetGo({ held, heldSlope }: Journey, { slope }: Schedule, index: number): boolean {
  return slope !== null && held > 0 && !Number.isNaN(heldSlope) && heldSlope !== slope[index];
}
