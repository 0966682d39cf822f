/** What holds a car back that follows no more. */
import { L, withAxleMode } from '../../model/forward/state.ts';
import type { Journey } from './journey.ts';

/** The mode of the forward model that tells what holds the car back; -1 while it follows. */
export function modeOf({ mode, held, following }: Journey): number {
  if (held === 0) return mode;
  return withAxleMode(0, following.front.axle.driven ? 0 : 1, L.speed);
}
