/** A stop from a speed, and what each axle has to do for it: figures only, for whoever judges the brakes. */
import { STANDARD_GRAVITY } from '../gravity.ts';

/** A car that stops evenly. */
export interface Stopping {
  /** kg, and kg that what turns adds. */
  readonly mass: number;
  readonly turning: number;
  /** Share of the weight on the front axle at rest. */
  readonly frontShare: number;
  /** m. */
  readonly wheelbase: number;
  readonly cgHeight: number;
  /** m/s, and m/s2, positive. */
  readonly speed: number;
  readonly deceleration: number;
}

export interface Stop {
  /** J of the motion, and W on average while it lasts. */
  readonly energy: number;
  readonly power: number;
  /** s and m. */
  readonly time: number;
  readonly distance: number;
  /** N on each axle while it lasts. */
  readonly front: number;
  readonly rear: number;
  /** Share of the braking force at the front at which both axles use the same friction, and that friction. */
  readonly frontShare: number;
  readonly friction: number;
}

/** Drag, rolling resistance and what the drive takes back are left aside: the brakes must do without them. Null where the rear wheels lift. */
export function stop({ mass, turning, frontShare, wheelbase, cgHeight, speed, deceleration }: Stopping): Stop | null {
  const weight = mass * STANDARD_GRAVITY;
  const moved = (mass * deceleration * cgHeight) / wheelbase;
  const front = frontShare * weight + moved;
  const rear = (1 - frontShare) * weight - moved;
  if (rear <= 0) return null;
  const energy = 0.5 * (mass + turning) * speed * speed;
  const time = speed / deceleration;
  return {
    energy,
    power: energy / time,
    time,
    distance: 0.5 * speed * time,
    front,
    rear,
    frontShare: front / weight,
    friction: deceleration / STANDARD_GRAVITY,
  };
}
